//! Room names and areas, where the room has most space for them.

use std::collections::BinaryHeap;

use geo::{Area as _, BoundingRect as _, Contains as _, Polygon};
use kurbo::{Affine, Point, Rect, Size, Vec2};

use super::cheapest::Cheapest;
use super::crowd::{Crowd, Kind};
use super::labels::Label;
use super::view::View;
use super::walls::polygon_of;
use crate::plan::{LevelId, Plan, Room, RoomId, Subject};
use crate::sheet::lettering::Lettering;
use crate::sheet::scene::{Anchor, Group, Item, Layer, Text};
use crate::sheet::{Ink, Weight, text_width};

/// Names that found room, and those that must stand outside with a leader.
#[derive(Clone, Debug, Default)]
pub(super) struct Names {
    /// Inside their rooms.
    pub(super) inside: Vec<Item>,
    /// Outside.
    pub(super) outside: Vec<Label>,
    /// The room that those inside take.
    taken: Vec<Rect>,
}

impl Names {
    /// Adds them to what lettering must keep clear of.
    pub(super) fn take(&self, crowd: &mut Crowd) {
        for at in &self.taken {
            crowd.add(*at, Kind::Name, None);
        }
    }

    /// The same further along the paper.
    pub(super) fn moved(&self, by: Vec2) -> Self {
        let onto = Affine::translate(by);
        let outside = self.outside.iter().map(|label| label.moved(by));
        Self {
            inside: self.inside.iter().map(|item| item.placed(onto)).collect(),
            outside: outside.collect(),
            taken: self.taken.iter().map(|at| *at + by).collect(),
        }
    }
}

/// Between the foot of a name and the top of its area, mm: clear of descenders.
const BETWEEN: f64 = 2.0;

/// Places the names of a level's rooms.
pub(super) fn names(plan: &Plan, level: LevelId, view: &View, crowd: &Crowd) -> Names {
    let mut names = Names::default();
    for (id, room) in plan.rooms.iter().filter(|(_, room)| room.level == level) {
        if room.outline.len() < 3 {
            continue;
        }
        let corners: Vec<Point> = room.outline.iter().map(|at| view.point(*at)).collect();
        let outline = polygon_of(&corners);
        let area = square_metres(room);
        let legends = Legend::ways(&room.name, &area);
        let found = legends.iter().find_map(|one| Some((best(&outline, one.size(), crowd)?, one)));
        match found {
            Some((at, legend)) => {
                names.taken.push(at);
                let items = legend.draw(at);
                names.inside.push(Group::of(Layer::Rooms, Subject::Room(*id), items).into());
            }
            None => names.outside.extend(outside(*id, &room.name, &area, &outline)),
        }
    }
    names
}

/// The area inside the outline, as drawings give it.
fn square_metres(room: &Room) -> String {
    crate::wording::square_metres(area(room))
}

/// The same, in m².
pub(super) fn area(room: &Room) -> f64 {
    let corners: Vec<(f64, f64)> =
        room.outline.iter().map(|at| (at.x.metres(), at.y.metres())).collect();
    Polygon::new(corners.into(), Vec::new()).unsigned_area()
}

/// A name over its area.
struct Legend {
    lines: Vec<String>,
    height: Lettering,
    area: Option<String>,
}

impl Legend {
    /// The most welcome first: large, small, on two lines, without the area.
    fn ways(name: &str, area: &str) -> Vec<Self> {
        let whole = |height: Lettering, area: Option<&str>| Self {
            lines: vec![name.to_owned()],
            height,
            area: area.map(str::to_owned),
        };
        let folded = |area: Option<&str>| {
            let lines = folded(name)?;
            Some(Self { lines, height: Lettering::Note, area: area.map(str::to_owned) })
        };
        let mut ways = vec![whole(Lettering::Name, Some(area)), whole(Lettering::Note, Some(area))];
        ways.extend(folded(Some(area)));
        ways.push(whole(Lettering::Note, None));
        ways.extend(folded(None));
        ways
    }

    fn size(&self) -> Size {
        let names = self.lines.iter().map(|line| text_width(line, self.height, Weight::Bold));
        let area = self.area.iter().map(|area| text_width(area, Lettering::Note, Weight::Regular));
        let wide = names.chain(area).fold(0.0, f64::max);
        let mut high = self.height.mm() + 0.8;
        high += self.lines.iter().skip(1).map(|_| self.leading()).sum::<f64>();
        if self.area.is_some() {
            high += BETWEEN + Lettering::Note.mm();
        }
        Size::new(wide, high)
    }

    fn leading(&self) -> f64 {
        self.height.mm() * 1.5
    }

    fn draw(&self, at: Rect) -> Vec<Item> {
        let mut foot = Point::new(at.center().x, at.y0 + self.height.mm());
        let mut items: Vec<Item> = Vec::new();
        for (place, line) in self.lines.iter().enumerate() {
            foot.y += if place > 0 { self.leading() } else { 0.0 };
            let text = Text::new(line.clone(), foot, self.height);
            items.push(text.bold().anchored(Anchor::Middle).haloed().into());
        }
        if let Some(area) = &self.area {
            foot.y += BETWEEN + Lettering::Note.mm();
            let text = Text::new(area.clone(), foot, Lettering::Note).inked(Ink::DARK_GREY);
            items.push(text.anchored(Anchor::Middle).haloed().into());
        }
        items
    }
}

/// A name of several words on two lines, as even as they go.
fn folded(name: &str) -> Option<Vec<String>> {
    let breaks = name.match_indices(' ').map(|(at, _)| (&name[..at], &name[at + 1..]));
    let wide = |text: &str| text_width(text, Lettering::Note, Weight::Bold);
    let widest = |(a, b): &(&str, &str)| wide(a).max(wide(b));
    let (first, second) = breaks.min_by(|a, b| widest(a).total_cmp(&widest(b)))?;
    Some(vec![first.to_owned(), second.to_owned()])
}

/// The clearest place inside an outline: where the box covers least, and of
/// those the nearest to the middle. None where it does not fit or would cover
/// more than cables.
fn best(outline: &Polygon<f64>, size: Size, crowd: &Crowd) -> Option<Rect> {
    let bounds = outline.bounding_rect()?;
    let middle = Point::new(
        f64::midpoint(bounds.min().x, bounds.max().x),
        f64::midpoint(bounds.min().y, bounds.max().y),
    );
    let step = (bounds.width().max(bounds.height()) / 48.0).max(1.0);
    let mut places: Vec<Cheapest<Point>> = Vec::new();
    let mut y = bounds.min().y + size.height / 2.0;
    while y + size.height / 2.0 <= bounds.max().y {
        let mut x = bounds.min().x + size.width / 2.0;
        while x + size.width / 2.0 <= bounds.max().x {
            let at = Point::new(x, y);
            places.push(Cheapest { cost: (at - middle).hypot2(), index: places.len(), what: at });
            x += step;
        }
        y += step;
    }
    // From the middle outwards, until what is further off can only be worse.
    let mut places = BinaryHeap::from(places);
    let mut best: Option<(f64, Rect)> = None;
    while let Some(Cheapest { cost: squared, what: at, .. }) = places.pop() {
        let (off, at) = (0.2 * libm::sqrt(squared), Rect::from_center_size(at, size));
        if best.is_some_and(|(least, _)| off >= least) {
            break;
        }
        let limit = best.map_or(f64::INFINITY, |(least, _)| least - off);
        let around = at.inflate(1.0, 1.0);
        if crowd.at_least(around) >= limit {
            continue;
        }
        let cost = crowd.cost(around, None, limit) + off;
        if best.is_none_or(|(least, _)| cost < least - 1e-9) && holds(outline, at) {
            best = Some((cost, at));
        }
    }
    best.map(|(_, at)| at).filter(|at| crowd.only_runs(at.inflate(0.6, 0.6)))
}

fn holds(outline: &Polygon<f64>, at: Rect) -> bool {
    let corners = [
        Point::new(at.x0, at.y0),
        Point::new(at.x1, at.y0),
        Point::new(at.x1, at.y1),
        Point::new(at.x0, at.y1),
    ];
    outline.contains(&polygon_of(&corners))
}

/// A name that stands outside and points in.
fn outside(id: RoomId, name: &str, area: &str, outline: &Polygon<f64>) -> Option<Label> {
    let bounds = outline.bounding_rect()?;
    let lines = vec![name.to_owned()];
    let legend = Legend { lines, height: Lettering::Note, area: Some(area.to_owned()) };
    let size = legend.size();
    let beside = Rect::new(bounds.min().x, bounds.min().y, bounds.max().x, bounds.max().y);
    let own = Rect::from_origin_size((0.0, 0.0), size);
    Some(Label {
        size,
        items: legend.draw(own),
        beside: Rect::from_center_size(beside.center(), Size::new(1.0, 1.0)),
        tip: beside.center(),
        towards: Vec2::ZERO,
        seats: Vec::new(),
        owner: None,
        subject: Subject::Room(id),
    })
}
