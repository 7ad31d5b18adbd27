//! Room names and areas, where the room has most space for them.

use std::collections::BinaryHeap;

use geo::{Area as _, BoundingRect as _, Contains as _, Polygon};
use kurbo::{Point, Rect, Size, Vec2};

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
#[derive(Debug, Default)]
pub(super) struct Names {
    /// Inside their rooms.
    pub(super) inside: Vec<Item>,
    /// Outside.
    pub(super) outside: Vec<Label>,
}

/// Between the foot of a name and the top of its area, mm: clear of descenders.
const BETWEEN: f64 = 2.0;

/// Places the names of a level's rooms, and adds them to the crowd.
pub(super) fn names(plan: &Plan, level: LevelId, view: &View, crowd: &mut Crowd) -> Names {
    let mut names = Names::default();
    let mut taken = Vec::new();
    for (id, room) in plan.rooms.iter().filter(|(_, room)| room.level == level) {
        if room.outline.len() < 3 {
            continue;
        }
        let corners: Vec<Point> = room.outline.iter().map(|at| view.point(*at)).collect();
        let outline = polygon_of(&corners);
        let area = square_metres(room);
        let found = [Lettering::Name, Lettering::Note].into_iter().find_map(|height| {
            best(&outline, size(room, &area, height), crowd).map(|at| (at, height))
        });
        match found {
            Some((at, height)) => {
                taken.push(at);
                let items = lines(room, &area, height, at);
                names.inside.push(Group::of(Layer::Rooms, Subject::Room(*id), items).into());
            }
            None => names.outside.extend(outside(*id, room, &area, &outline)),
        }
    }
    for at in taken {
        crowd.add(at, Kind::Mark, None);
    }
    crowd.settle();
    names
}

/// The area inside the outline, as drawings give it.
fn square_metres(room: &Room) -> String {
    let corners: Vec<(f64, f64)> =
        room.outline.iter().map(|at| (at.x.metres(), at.y.metres())).collect();
    let area = Polygon::new(corners.into(), Vec::new()).unsigned_area();
    format!("{area:.1} m²")
}

fn size(room: &Room, area: &str, height: Lettering) -> Size {
    let name = text_width(&room.name, height, Weight::Bold);
    let below = text_width(area, Lettering::Note, Weight::Regular);
    Size::new(name.max(below), height.mm() + BETWEEN + Lettering::Note.mm() + 0.8)
}

fn lines(room: &Room, area: &str, height: Lettering, at: Rect) -> Vec<Item> {
    let middle = at.center().x;
    let name = Point::new(middle, at.y0 + height.mm());
    let below = Point::new(middle, name.y + BETWEEN + Lettering::Note.mm());
    vec![
        Text::new(room.name.clone(), name, height).bold().anchored(Anchor::Middle).haloed().into(),
        Text::new(area, below, Lettering::Note)
            .inked(Ink::DARK_GREY)
            .anchored(Anchor::Middle)
            .haloed()
            .into(),
    ]
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
    let mut places: Vec<Cheapest<Rect>> = Vec::new();
    let mut y = bounds.min().y + size.height / 2.0;
    while y + size.height / 2.0 <= bounds.max().y {
        let mut x = bounds.min().x + size.width / 2.0;
        while x + size.width / 2.0 <= bounds.max().x {
            let at = Rect::from_center_size((x, y), size);
            let shift = at.center() - middle;
            let off = 0.2 * libm::hypot(shift.x, shift.y);
            places.push(Cheapest { cost: off, index: places.len(), what: at });
            x += step;
        }
        y += step;
    }
    // From the middle outwards, until what is further off can only be worse.
    let mut places = BinaryHeap::from(places);
    let mut best: Option<(f64, Rect)> = None;
    while let Some(Cheapest { cost: off, what: at, .. }) = places.pop() {
        if best.is_some_and(|(least, _)| off >= least) {
            break;
        }
        let limit = best.map_or(f64::INFINITY, |(least, _)| least - off);
        let cost = crowd.cost(at.inflate(1.0, 1.0), None, limit) + off;
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
fn outside(id: RoomId, room: &Room, area: &str, outline: &Polygon<f64>) -> Option<Label> {
    let bounds = outline.bounding_rect()?;
    let size = size(room, area, Lettering::Note);
    let beside = Rect::new(bounds.min().x, bounds.min().y, bounds.max().x, bounds.max().y);
    let own = Rect::from_origin_size((0.0, 0.0), size);
    Some(Label {
        size,
        items: lines(room, area, Lettering::Note, own),
        beside: Rect::from_center_size(beside.center(), Size::new(1.0, 1.0)),
        tip: beside.center(),
        towards: Vec2::ZERO,
        seats: Vec::new(),
        owner: None,
        subject: Subject::Room(id),
    })
}
