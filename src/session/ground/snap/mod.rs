//! Where the pen goes: to ends, crossings, right angles, lines continued,
//! half-way points; otherwise to an even step.

mod kinds;
#[cfg(test)]
mod tests;

use std::collections::BTreeSet;

use kurbo::{Point, Vec2};

use crate::plan::{LevelId, Plan, Wall, WallId};
use crate::session::ground::length::Typed;
use crate::session::ground::places::{exact, rounded};
use crate::units::Point2;

pub use kinds::{Kind, Snap};

/// What there is to hold on to.
#[derive(Clone, Debug)]
pub struct Ground<'a> {
    walls: Vec<&'a Wall>,
    ends: Vec<Point>,
}

impl<'a> Ground<'a> {
    /// The walls of a level but for some, and the ends of those of the level
    /// beneath, if it is shown.
    pub fn of(
        plan: &'a Plan,
        level: LevelId,
        below: Option<LevelId>,
        without: &BTreeSet<WallId>,
    ) -> Self {
        let on = |level: LevelId| {
            plan.walls
                .iter()
                .filter(move |(id, wall)| wall.level == level && !without.contains(*id))
                .map(|(_, wall)| wall)
        };
        let walls: Vec<&Wall> = on(level).collect();
        let ends = walls.iter().copied().chain(below.into_iter().flat_map(on));
        let ends = ends.flat_map(|wall| [exact(wall.a), exact(wall.b)]).collect();
        Self { walls, ends }
    }

    /// The same with a place more to hold on to.
    pub fn and(mut self, end: Point) -> Self {
        self.ends.push(end);
        self
    }
}

/// Free lengths come in steps of this many mm.
const STEP: f64 = 50.0;
/// A line within this angle of a right one becomes right: its sine, about 7°;
/// while a length is typed, when the pointer only says which way, about 25°.
const LEAN: (f64, f64) = (0.12, 0.42);

/// Where a wall's next corner goes. `from` is its last one, `reach` how near
/// is near, mm; what is typed holds, the pointer shows the rest.
pub fn corner(
    ground: &Ground<'_>,
    from: Option<Point2>,
    at: Point,
    reach: f64,
    typed: Typed,
) -> Snap {
    let (walls, ends) = (&ground.walls, &ground.ends);
    let Some(start) = from.map(exact) else { return free(walls, ends, at, reach) };
    let pull = at - start;
    if typed == Typed::default()
        && let Some(snap) = spot(walls, ends, at, reach)
        && exact(snap.at).distance(start) > 1.0
    {
        return snap;
    }
    if let Some(angle) = typed.angle {
        let (sin, cos) = libm::sincos(angle.to_radians());
        let way = Vec2::new(cos, sin);
        let along = typed.length.map_or_else(|| even(pull.dot(way)).max(STEP), |l| l.to_f64());
        return Snap::at(start + way * along, Kind::Typed);
    }
    let lean = if typed.length.is_some() { LEAN.1 } else { LEAN.0 };
    let (way, kind) = direction(walls, start, pull, reach, lean);
    let along = pull.dot(way).max(1.0);
    if let Some(length) = typed.length {
        return Snap::at(start + way * length.to_f64(), Kind::Typed);
    }
    if kind == Kind::Free {
        return Snap::at(start + way * even(along), kind);
    }
    on_ray(walls, ends, start, way, along, reach, kind)
}

/// The end, the crossing or the half-way point that the pen is at.
fn spot(walls: &[&Wall], ends: &[Point], at: Point, reach: f64) -> Option<Snap> {
    if let Some(end) = nearest(ends, at, reach) {
        return Some(Snap::at(end, Kind::End));
    }
    let near: Vec<&Wall> =
        walls.iter().copied().filter(|wall| foot(wall, at).distance(at) <= reach).collect();
    let crossings = near.iter().enumerate().flat_map(|(index, one)| {
        near[index + 1..].iter().filter_map(|other| {
            let way = exact(one.b) - exact(one.a);
            hit(other, exact(one.a), way)
                .filter(|share| (0.0..=1.0).contains(share))
                .map(|share| exact(one.a) + way * share)
        })
    });
    let crossings: Vec<Point> = crossings.collect();
    if let Some(crossing) = nearest(&crossings, at, reach) {
        return Some(Snap::at(crossing, Kind::Crossing));
    }
    let halves: Vec<Point> =
        near.iter().map(|wall| exact(wall.a).midpoint(exact(wall.b))).collect();
    nearest(&halves, at, reach).map(|half| Snap::at(half, Kind::Half))
}

/// The place of a wall that is nearest.
fn foot(wall: &Wall, at: Point) -> Point {
    let (a, b) = (exact(wall.a), exact(wall.b));
    a + (b - a) * ((at - a).dot(b - a) / (b - a).hypot2().max(1.0)).clamp(0.0, 1.0)
}

/// How far along a line, as a share of `way`, a wall lies across it.
fn hit(wall: &Wall, from: Point, way: Vec2) -> Option<f64> {
    let (a, b) = (exact(wall.a), exact(wall.b));
    let cross = way.cross(b - a);
    let share = (a - from).cross(way) / cross;
    let hits = cross.abs() > 1e-6 && (-0.001..=1.001).contains(&share);
    hits.then(|| (a - from).cross(b - a) / cross)
}

/// A corner that nothing leads to yet.
fn free(walls: &[&Wall], ends: &[Point], at: Point, reach: f64) -> Snap {
    if let Some(snap) = spot(walls, ends, at, reach) {
        return snap;
    }
    let on = walls.iter().find(|wall| foot(wall, at).distance(at) <= reach);
    if let Some(wall) = on {
        let (a, b) = (exact(wall.a), exact(wall.b));
        let along = even(foot(wall, at).distance(a));
        let place = a + (b - a) * (along / a.distance(b).max(1.0)).min(1.0);
        return Snap::at(place, Kind::OnWall);
    }
    let mut to = Point::new(even(at.x), even(at.y));
    let (mut guides, mut kind) = (Vec::new(), Kind::Free);
    if let Some(end) = closest(ends, reach, |end| (end.x - at.x).abs()) {
        (to.x, kind) = (end.x, Kind::InLine);
        guides.push((end, Point::new(end.x, to.y)));
    }
    if let Some(end) = closest(ends, reach, |end| (end.y - at.y).abs()) {
        (to.y, kind) = (end.y, Kind::InLine);
        guides.push((end, Point::new(to.x, end.y)));
        if let Some(first) = guides.first_mut().filter(|first| first.0 != end) {
            first.1.y = to.y;
        }
    }
    if kind == Kind::Free
        && let Some((from, to)) = continued(walls, at, reach)
    {
        return Snap::guided(to, Kind::Continued, from);
    }
    Snap { at: rounded(to), kind, guides }
}

/// The nearest place on the line of an oblique wall beyond its ends, with the
/// end that it goes on from. What is level or upright is in line anyway.
fn continued(walls: &[&Wall], at: Point, reach: f64) -> Option<(Point, Point)> {
    let lines = walls.iter().filter_map(|wall| {
        let (a, b) = (exact(wall.a), exact(wall.b));
        let way = (b - a) / (b - a).hypot().max(1.0);
        let along = (at - a).dot(way);
        let to = a + way * along;
        let oblique = way.x.abs() > 1e-6 && way.y.abs() > 1e-6;
        (oblique && to.distance(at) <= reach).then_some((if along < 0.0 { a } else { b }, to))
    });
    lines.min_by(|one, other| one.1.distance(at).total_cmp(&other.1.distance(at)))
}

/// Along a way that is set: to what crosses it or lies square to it.
fn on_ray(
    walls: &[&Wall],
    ends: &[Point],
    start: Point,
    way: Vec2,
    along: f64,
    reach: f64,
    kind: Kind,
) -> Snap {
    let best = |one: &f64, other: &f64| (one - along).abs().total_cmp(&(other - along).abs());
    let near = |distance: &f64| *distance > 1.0 && (distance - along).abs() <= reach;
    let hits = walls.iter().filter_map(|wall| hit(wall, start, way)).filter(near);
    if let Some(distance) = hits.min_by(best) {
        return Snap::at(start + way * distance, Kind::OnWall);
    }
    let beside = |end: &Point| (*end - start).dot(way);
    let aligned = closest(ends, reach, |end| (beside(&end) - along).abs());
    if let Some(end) = aligned.filter(|end| beside(end) > 1.0) {
        return Snap::guided(start + way * beside(&end), Kind::InLine, end);
    }
    let lines = walls.iter().filter_map(|wall| {
        let (a, b) = (exact(wall.a), exact(wall.b));
        let cross = way.cross(b - a);
        let oblique = cross.abs() > 0.1 * (b - a).hypot();
        let distance = (a - start).cross(b - a) / cross;
        (oblique && near(&distance)).then(|| {
            let share = (a - start).cross(way) / cross;
            (distance, if share < 0.5 { a } else { b })
        })
    });
    if let Some((distance, end)) = lines.min_by(|one, other| best(&one.0, &other.0)) {
        return Snap::guided(start + way * distance, Kind::Continued, end);
    }
    Snap::at(start + way * even(along), kind)
}

/// The way from a corner towards the pen: square to the page or to the walls
/// that end there, or as it is.
fn direction(walls: &[&Wall], start: Point, pull: Vec2, reach: f64, lean: f64) -> (Vec2, Kind) {
    let length = pull.hypot();
    if length < 1.0 {
        return (Vec2::new(1.0, 0.0), Kind::Free);
    }
    let mut ways = vec![(Vec2::new(1.0, 0.0), Kind::Level)];
    for wall in walls {
        // The wall that the line begins on, at its end or between.
        if foot(wall, start).distance(start) < 1.0 {
            let (x, y) = wall.direction();
            ways.push((Vec2::new(x, y), Kind::Square));
        }
    }
    for (way, kind) in ways {
        for way in [way, Vec2::new(-way.y, way.x), -way, Vec2::new(way.y, -way.x)] {
            let off = way.cross(pull).abs();
            if way.dot(pull) > 0.0 && (off <= length * lean || off <= reach) {
                return (way, kind);
            }
        }
    }
    (pull / length, Kind::Free)
}

fn nearest(places: &[Point], at: Point, reach: f64) -> Option<Point> {
    closest(places, reach, |place| place.distance(at))
}

fn closest(places: &[Point], reach: f64, far: impl Fn(Point) -> f64) -> Option<Point> {
    places
        .iter()
        .copied()
        .filter(|place| far(*place) <= reach)
        .min_by(|one, other| far(*one).total_cmp(&far(*other)))
}

/// The nearest even step.
pub fn even(value: f64) -> f64 {
    libm::round(value / STEP) * STEP
}
