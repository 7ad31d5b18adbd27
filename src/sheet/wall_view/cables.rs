//! The cables behind each piece of a face.

use std::collections::BTreeMap;

use kurbo::Point;

use super::CableIn;
use super::hidden::{self, Hidden};
use super::straight::Straight;
use crate::plan::{End, FacePiece, OnWall, OpeningId, Place, Plane, Span, WallId};
use crate::sheet::house::House;
use crate::units::{Mm, Point3};

/// What is on and in every wall, looked up once for all of them.
#[derive(Debug)]
pub(super) struct InWalls<'a> {
    straights: Vec<Straight<'a>>,
    by_wall: BTreeMap<WallId, Vec<usize>>,
    boxes: BTreeMap<WallId, Vec<(End, OnWall)>>,
    openings: BTreeMap<WallId, Vec<OpeningId>>,
    hidden: Hidden,
}

impl<'a> InWalls<'a> {
    pub(super) fn of(house: &House<'a>) -> Self {
        let straights = straights(house);
        let mut by_wall: BTreeMap<WallId, Vec<usize>> = BTreeMap::new();
        for (number, one) in straights.iter().enumerate() {
            by_wall.entry(one.wall).or_default().push(number);
        }
        let plan = house.plan;
        let boards = plan.boards.iter().map(|(id, board)| (End::Board(*id), board.place));
        let points = plan.points.iter().map(|(id, point)| (End::Point(*id), point.place));
        let mut boxes: BTreeMap<WallId, Vec<(End, OnWall)>> = BTreeMap::new();
        for (end, place) in boards.chain(points) {
            if let Some(Place::Wall(on)) = place {
                boxes.entry(on.wall).or_default().push((end, on));
            }
        }
        let mut openings: BTreeMap<WallId, Vec<OpeningId>> = BTreeMap::new();
        for (id, opening) in &plan.openings {
            openings.entry(opening.wall).or_default().push(*id);
        }
        let hidden = hidden::find(house, &straights);
        Self { straights, by_wall, boxes, openings, hidden }
    }

    /// The boxes on the walls of a piece.
    pub(super) fn boxes(&self, piece: &FacePiece) -> impl Iterator<Item = &(End, OnWall)> {
        walls_of(piece).filter_map(|id| self.boxes.get(&id)).flatten()
    }

    /// The openings in the walls of a piece.
    pub(super) fn openings(&self, piece: &FacePiece) -> impl Iterator<Item = &OpeningId> {
        walls_of(piece).filter_map(|id| self.openings.get(&id)).flatten()
    }

    /// The cables behind a piece: what of them its span has before it, and
    /// what lies in its corners.
    pub(super) fn cables(&self, piece: &FacePiece, height: f64) -> Vec<CableIn<'a>> {
        let mut cables = Vec::new();
        for span in &piece.spans {
            for number in self.by_wall.get(&span.wall).into_iter().flatten() {
                let one = &self.straights[*number];
                if let Some((from, to)) = clipped(one, span) {
                    let place = |at: Point| Point::new(span.across(at.x), at.y.clamp(0.0, height));
                    let along = (from.x.min(to.x), from.x.max(to.x));
                    cables.push(self.cable(*number, along, (place(from), place(to)), None));
                }
            }
        }
        for (number, seen) in self.hidden.behind(piece) {
            let one = &self.straights[number];
            let place = |at: Point| Point::new(seen.across, at.y.clamp(0.0, height));
            let along = (one.from.x, one.from.x);
            cables.push(self.cable(number, along, (place(one.from), place(one.to)), seen.past));
        }
        cables
    }

    fn cable(
        &self,
        number: usize,
        along: (f64, f64),
        (from, to): (Point, Point),
        past: Option<f64>,
    ) -> CableIn<'a> {
        let Straight { cut, wall, .. } = &self.straights[number];
        CableIn {
            number,
            index: cut.index,
            wall: *wall,
            circuit: cut.circuit,
            ends: (cut.leg.circuit, cut.leg.from, cut.leg.to),
            leg: cut.number(),
            along,
            from,
            to,
            past,
        }
    }
}

/// The walls of a piece, each once.
fn walls_of(piece: &FacePiece) -> impl Iterator<Item = WallId> {
    let spans = piece.spans.iter().enumerate();
    let first = spans.filter(|(index, span)| {
        !piece.spans[..*index].iter().any(|before| before.wall == span.wall)
    });
    first.map(|(_, span)| span.wall)
}

/// What of a cable lies before a span. None where nothing does.
fn clipped(one: &Straight<'_>, span: &Span) -> Option<(Point, Point)> {
    if one.is_upright() {
        return span.holds(one.from.x).then_some((one.from, one.to));
    }
    let (low, high) = (one.from.x.min(one.to.x), one.from.x.max(one.to.x));
    let inside = low.max(span.from) + 1.0 < high.min(span.to);
    let share = |at: f64| (at - one.from.x) / (one.to.x - one.from.x);
    let place = |at: f64| one.from.lerp(one.to, share(at));
    inside.then(|| {
        let ends = [one.from.x, one.to.x].map(|at| place(at.clamp(span.from, span.to)));
        (ends[0], ends[1])
    })
}

/// All straight pieces of cable in walls, leg by leg.
fn straights<'a>(house: &House<'a>) -> Vec<Straight<'a>> {
    let mut straights = Vec::new();
    for cut in house.cuts() {
        for segment in &cut.leg.route.segments {
            let Some(Plane::Wall(id)) = segment.plane else { continue };
            let Some(wall) = house.plan.walls.get(&id) else { continue };
            let Some(level) = house.plan.levels.get(&wall.level) else { continue };
            let (dx, dy) = wall.direction();
            let place = |at: Point3| {
                let (x, y) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
                Point::new(x * dx + y * dy, (at.z - level.floor).to_f64())
            };
            let (from, to) = (place(segment.from), place(segment.to));
            let high = level.height.to_f64();
            let clamped = |at: Point| Point::new(at.x, at.y.clamp(0.0, high));
            let seen = clamped(to) - clamped(from);
            if segment.length > Mm::ZERO && seen.dot(seen) > 1.0 {
                let at = segment.from.on_floor();
                let (from, to) = (clamped(from), clamped(to));
                straights.push(Straight { cut, wall: id, from, to, at });
            }
        }
    }
    straights
}
