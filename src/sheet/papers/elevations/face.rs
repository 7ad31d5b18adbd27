//! One face of a wall.

mod cables;
mod marks;
mod openings;
mod parts;

use kurbo::{Point, Rect};

use super::dimensions::{self, Named};
use crate::plan::{End, Face as Side, LevelId, Place, Plane, Subject, Wall, WallId};
use crate::sheet::clear::Clear;
use crate::sheet::gallery::Figure;
use crate::sheet::house::{House, figure};
use crate::sheet::lettering::{Lettering, Weight, wrap};
use crate::sheet::scene::{Anchor, Group, Item, Layer, LinePattern, Mark, Stroke, Text, bounds};
use crate::sheet::{Ink, Scale, pen};
use crate::units::Mm;

/// Half the width of the strip not to drill in, mm of wall.
const KEEP_OFF: f64 = 50.0;

/// A wall with more pieces of cable than this for each metre is drawn larger.
const CROWDED: f64 = 3.0;

/// Whom it is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Purpose {
    /// Those who cut boxes and pull cable.
    Fitting,
    /// Those who live there.
    Keeping,
}

/// A face with what is on it and in it.
pub(super) struct Face<'a> {
    house: &'a House<'a>,
    wall: &'a Wall,
    pub(super) wall_id: WallId,
    pub(super) level: LevelId,
    pub(super) room: String,
    side: Side,
    /// Floor to ceiling, mm.
    height: f64,
    /// Paper for a millimetre of wall.
    per: f64,
    /// What of its length is drawn, mm from the corner at the left.
    part: (f64, f64),
    floor: Mm,
    boxes: Vec<Placed>,
    cables: Vec<Cable>,
}

#[derive(Clone)]
struct Placed {
    end: End,
    along: f64,
    height: Mm,
    /// On the face that is looked at.
    near: bool,
}

/// A straight piece of cable in the wall, along and up, mm.
#[derive(Clone)]
struct Cable {
    index: usize,
    leg: String,
    from: Point,
    to: Point,
}

impl<'a> Face<'a> {
    /// None where the wall has no length or no level.
    pub(super) fn of(house: &'a House<'a>, id: WallId, side: Side) -> Option<Self> {
        let wall = house.plan.walls.get(&id).filter(|wall| wall.length() > 1.0)?;
        let level = house.plan.levels.get(&wall.level)?;
        let mut face = Self {
            house,
            wall,
            wall_id: id,
            level: wall.level,
            room: String::new(),
            side,
            height: level.height.to_f64(),
            per: 1.0,
            part: (0.0, wall.length()),
            floor: level.floor,
            boxes: Vec::new(),
            cables: Vec::new(),
        };
        face.room = face.looked_at_from();
        face.find_boxes();
        face.find_cables();
        Some(face)
    }

    /// The room in front of the middle of the face.
    fn looked_at_from(&self) -> String {
        let plan = self.house.plan;
        let own = self.house.plan.points.values().filter_map(|point| point.place);
        let boards = self.house.plan.boards.values().filter_map(|board| board.place);
        let on = own.chain(boards).find(|place| {
            matches!(place, Place::Wall(on) if on.wall == self.wall_id && on.face == self.side)
        });
        let half = Mm::from_f64(self.wall.length() / 2.0).unwrap_or(Mm::ZERO);
        let middle = Place::Wall(crate::plan::OnWall {
            wall: self.wall_id,
            along: half,
            height: Mm::ZERO,
            face: self.side,
        });
        plan.room_of(&on.unwrap_or(middle))
            .and_then(|room| plan.rooms.get(&room))
            .map_or_else(String::new, |room| room.name.clone())
    }

    /// More cable in it than its lettering has room for at the usual scale.
    pub(super) fn is_crowded(&self) -> bool {
        let pieces = u32::try_from(self.cables.len()).map_or(f64::INFINITY, f64::from);
        pieces > CROWDED * self.wall.length() / 1000.0
    }

    /// As it is worth drawing.
    pub(super) fn counts(&self, purpose: Purpose) -> bool {
        let near = self.boxes.iter().any(|one| one.near);
        match purpose {
            // From the side that has boxes; a wall that holds cable alone is
            // seen from its left.
            Purpose::Fitting => {
                near || (self.boxes.is_empty()
                    && !self.cables.is_empty()
                    && self.side == Side::Left)
            }
            Purpose::Keeping => !self.cables.is_empty() && (near || !self.room.is_empty()),
        }
    }

    /// How far from the corner at the left, mm: the left face is seen with its
    /// end `b` at the left.
    fn across(&self, along: f64) -> f64 {
        match self.side {
            Side::Left => self.wall.length() - along,
            Side::Right => along,
        }
    }

    fn find_boxes(&mut self) {
        let plan = self.house.plan;
        let boards = plan.boards.iter().map(|(id, board)| (End::Board(*id), board.place));
        let points = plan.points.iter().map(|(id, point)| (End::Point(*id), point.place));
        let mut boxes = Vec::new();
        for (end, place) in boards.chain(points) {
            if let Some(Place::Wall(on)) = place
                && on.wall == self.wall_id
            {
                boxes.push(Placed {
                    end,
                    along: self.across(on.along.to_f64()),
                    height: on.height,
                    near: on.face == self.side,
                });
            }
        }
        self.boxes = boxes;
    }

    fn find_cables(&mut self) {
        let (dx, dy) = self.wall.direction();
        let a = self.wall.a;
        let mut cables = Vec::new();
        for cut in self.house.cuts() {
            for segment in &cut.leg.route.segments {
                if segment.plane != Some(Plane::Wall(self.wall_id)) || segment.length == Mm::ZERO {
                    continue;
                }
                let place = |at: crate::units::Point3| {
                    let (x, y) = ((at.x - a.x).to_f64(), (at.y - a.y).to_f64());
                    let up = (at.z - self.floor).to_f64().clamp(0.0, self.height);
                    Point::new(self.across(x * dx + y * dy), up)
                };
                let (from, to) = (place(segment.from), place(segment.to));
                if pen::length(to - from) > 1.0 {
                    cables.push(Cable { index: cut.index, leg: cut.number(), from, to });
                }
            }
        }
        self.cables = cables;
    }

    /// A place along the wall on paper.
    fn x(&self, at: f64) -> f64 {
        (at.clamp(self.part.0, self.part.1) - self.part.0) * self.per
    }

    /// How much of it is drawn, mm.
    const fn long(&self) -> f64 {
        self.part.1 - self.part.0
    }

    /// The face on paper at a scale, its floor at height nought. Where it is
    /// larger than its neighbours the title says so.
    pub(super) fn draw(&mut self, purpose: Purpose, scale: Scale, larger: bool) -> Figure {
        self.per = scale.paper_per_plan();
        let mut clear = Clear::default();
        // Its height stands there.
        let middle = -self.height * self.per / 2.0;
        clear.take(Rect::new(-4.8, middle - 6.0, -0.4, middle + 6.0));
        // Numbers of legs and the title stand over it.
        clear.take(Rect::new(
            -100.0,
            -self.height * self.per - 60.0,
            600.0,
            -self.height * self.per,
        ));
        let mut items = Vec::new();
        let mut named: Vec<Named> = Vec::new();
        if purpose == Purpose::Fitting {
            items.extend(self.zones());
        }
        items.extend(self.outline());
        items.extend(self.openings(purpose, &mut clear));
        match purpose {
            Purpose::Fitting => items.extend(self.cables(&mut clear, &mut named)),
            Purpose::Keeping => items.extend(self.strips()),
        }
        items.extend(self.marks(purpose, &mut clear));
        items.extend(dimensions::below(&self.stations(purpose), self.part, self.per));
        let top = -self.height * self.per;
        let over = dimensions::above(named, top);
        let free = bounds(&over).map_or(top, |all| all.y0.min(top));
        items.extend(over);
        items.extend(self.title(free, larger.then_some(scale)));
        Figure { items: vec![Group::of(Layer::Walls, Subject::Wall(self.wall_id), items).into()] }
    }

    fn rect(&self, x0: f64, x1: f64, low: f64, high: f64) -> Rect {
        Rect::new(self.x(x0), -high * self.per, self.x(x1), -low * self.per)
    }

    fn title(&self, above: f64, scale: Option<Scale>) -> Vec<Item> {
        let mut text = super::name(self.house.plan, self.wall_id, &self.room);
        if self.is_part() {
            let metres = |at: f64| figure(Mm::from_f64(at).unwrap_or(Mm::ZERO));
            let (from, to) = (metres(self.part.0), metres(self.part.1));
            text = format!("{text}, part from {from} to {to}");
        }
        if let Some(scale) = scale {
            text = format!("{text}, at {scale}");
        }
        let width = (self.long() * self.per).max(46.0);
        let mut y = above - 4.0;
        let mut items: Vec<Item> = Vec::new();
        for line in wrap(&text, width, Lettering::Note, Weight::Bold).iter().rev() {
            items.push(Text::new(line, (0.0, y), Lettering::Note).bold().into());
            y -= 4.0;
        }
        let ceiling = Text::new(
            figure(Mm::from_f64(self.height).unwrap_or(Mm::ZERO)),
            (-1.6, -self.height * self.per / 2.0),
            Lettering::Note,
        );
        let rule = Stroke::solid(Ink::BLACK, 0.18);
        let (foot, top) = (Point::new(-0.9, 0.0), Point::new(-0.9, -self.height * self.per));
        items.push(Mark::line(pen::line(foot, top), rule).into());
        items.push(Text { turn: -90.0, anchor: Anchor::Middle, ..ceiling }.into());
        items
    }

    fn is_part(&self) -> bool {
        self.long() + 1.0 < self.wall.length()
    }

    fn outline(&self) -> Vec<Item> {
        let all = self.rect(self.part.0, self.part.1, 0.0, self.height);
        let end = |x: f64, whole: bool| -> Item {
            let pattern = if whole { LinePattern::Solid } else { LinePattern::LongDashDot };
            let stroke = Stroke { ink: Ink::BLACK, width: 0.35, pattern };
            Mark::line(pen::line((x, all.y0), (x, all.y1)), stroke).into()
        };
        let thin = Stroke::solid(Ink::BLACK, 0.35);
        vec![
            Mark::line(pen::line((all.x0, all.y0), (all.x1, all.y0)), thin).into(),
            end(all.x0, self.part.0 < 1.0),
            end(all.x1, self.part.1 + 1.0 > self.wall.length()),
            Mark::line(
                pen::line((all.x0, all.y1), (all.x1, all.y1)),
                Stroke::solid(Ink::BLACK, 0.7),
            )
            .into(),
        ]
    }

    /// Where a cable may lie concealed.
    fn zones(&self) -> Vec<Item> {
        let strip = self.house.plan.habits.zones.strip.to_f64();
        let (long, high) = (self.wall.length(), self.height);
        let pale = |area: Rect| Mark::area(pen::rect(area), Ink::PALE_GREY).into();
        let mut items: Vec<Item> = vec![
            pale(self.rect(0.0, long, (high - strip).max(0.0), high)),
            pale(self.rect(0.0, strip.min(long), 0.0, high)),
            pale(self.rect((long - strip).max(0.0), long, 0.0, high)),
        ];
        let dotted = Stroke { ink: Ink::GREY, width: 0.25, pattern: LinePattern::Dotted };
        for one in &self.boxes {
            let (x, y) = (self.x(one.along), -one.height.to_f64() * self.per);
            items.push(Mark::line(pen::line((x, 0.0), (x, -high * self.per)), dotted).into());
            items.push(Mark::line(pen::line((0.0, y), (self.x(long), y)), dotted).into());
        }
        items
    }

    /// Strips not to drill in.
    fn strips(&self) -> Vec<Item> {
        let mut items = Vec::new();
        let mut seen: Vec<Rect> = Vec::new();
        for cable in &self.cables {
            let (a, b) = (cable.from, cable.to);
            let area = Rect::from_points(a, b).inflate(KEEP_OFF, KEEP_OFF);
            let long = self.wall.length();
            let area = self.rect(
                area.x0.max(0.0),
                area.x1.min(long),
                area.y0.max(0.0),
                area.y1.min(self.height),
            );
            if seen.iter().any(|one| one.union(area) == *one) {
                continue;
            }
            seen.push(area);
            items.extend(hatched(area));
        }
        items
    }

    /// What is measured from the corner, mm.
    fn stations(&self, purpose: Purpose) -> Vec<f64> {
        let mut stations = vec![self.part.1];
        if self.is_part() {
            stations.push(self.part.0);
        }
        if purpose == Purpose::Fitting {
            for opening in self.house.plan.openings.values().filter(|one| one.wall == self.wall_id)
            {
                stations.push(self.across(opening.from.to_f64()));
                stations.push(self.across((opening.from + opening.width).to_f64()));
            }
            stations.extend(self.boxes.iter().filter(|one| one.near).map(|one| one.along));
        }
        let upright = self.cables.iter().filter(|one| (one.from.x - one.to.x).abs() < 2.0);
        stations.extend(upright.map(|one| one.from.x));
        stations.retain(|at| self.part.0 - 1.0 <= *at && *at <= self.part.1 + 1.0);
        stations
    }
}

/// Crossed lines over an area.
fn hatched(area: Rect) -> Vec<Item> {
    let hatch = crate::sheet::floor::Hatch::of(crate::plan::WallBuild::DoubleBrick);
    let mut items = hatch.fill_box(area, -core::f64::consts::FRAC_PI_4);
    items.push(Mark::line(pen::rect(area), Stroke::solid(Ink::BLACK, 0.18)).into());
    items
}
