//! Walls that move: a straight line of them squarely to itself, or a corner
//! with every wall that ends there.

use std::collections::BTreeSet;

use kurbo::{Point, Vec2};

use crate::plan::{Edit, LevelId, Plan, Wall, WallId};
use crate::session::ground::places::{exact, rounded};
use crate::session::survey::reshape::carried::{self, Ends};
use crate::units::Point2;

/// Ends nearer than this are one corner, mm.
const SAME: f64 = 1.0;
/// Two walls are one line where the sine of the angle between them is less.
const STRAIGHT: f64 = 1e-3;
/// A wall follows along its own line unless it is this nearly parallel to what
/// moves.
const OBLIQUE: f64 = 0.2;

/// The walls that are one straight line with a wall, end to end.
pub(crate) fn line_of(plan: &Plan, id: WallId) -> BTreeSet<WallId> {
    let Some(first) = plan.walls.get(&id) else { return BTreeSet::new() };
    let mut line = BTreeSet::from([id]);
    loop {
        let joins = |wall: &Wall| {
            line.iter().filter_map(|id| plan.walls.get(id)).any(|one| {
                [wall.a, wall.b].iter().any(|end| touches(*end, one.a) || touches(*end, one.b))
            })
        };
        let more: Vec<WallId> = plan
            .walls
            .iter()
            .filter(|(id, wall)| !line.contains(*id) && wall.level == first.level)
            .filter(|(_, wall)| way(wall).cross(way(first)).abs() < STRAIGHT && joins(wall))
            .map(|(id, _)| *id)
            .collect();
        if more.is_empty() {
            return line;
        }
        line.extend(more);
    }
}

/// The unit vector along a wall.
pub(crate) fn way(wall: &Wall) -> Vec2 {
    let (x, y) = wall.direction();
    Vec2::new(x, y)
}

/// The unit vector to the left of a wall.
pub(crate) fn across(wall: &Wall) -> Vec2 {
    let way = way(wall);
    Vec2::new(-way.y, way.x)
}

fn touches(one: Point2, other: Point2) -> bool {
    one.distance(other) < SAME
}

/// Moves the line of a wall to its left by so much, mm. Walls that end on it
/// get longer or shorter, those at its ends as well.
pub(crate) fn shifted(plan: &Plan, id: WallId, by: f64) -> Result<Edit, String> {
    let wall = plan.walls.get(&id).ok_or("the wall is gone")?;
    let (level, across) = (wall.level, across(wall));
    let line = line_of(plan, id);
    let others =
        || plan.walls.iter().filter(|(id, wall)| wall.level == level && !line.contains(*id));
    let slid = |from: Point2, along: Option<Vec2>| {
        let square = across * by;
        let step = along.map_or(square, |way| way * (by / way.dot(across)));
        rounded(exact(from) + step)
    };
    let leans = |wall: &Wall| way(wall).dot(across).abs();
    let mut ends = Ends::new();
    let mut corners: Vec<(Point2, Point2)> = Vec::new();
    for id in &line {
        let Some(wall) = plan.walls.get(id) else { continue };
        let to = |end: Point2| {
            let inner = line.iter().filter(|other| *other != id).any(|other| {
                let other = plan.walls.get(other);
                other.is_some_and(|one| touches(one.a, end) || touches(one.b, end))
            });
            // The squarest of the walls it ends at shows the way.
            let guide = others()
                .map(|(_, other)| other)
                .filter(|other| !inner && meets(other, end) && leans(other) > OBLIQUE)
                .max_by(|one, other| leans(one).total_cmp(&leans(other)));
            slid(end, guide.map(way))
        };
        let (a, b) = (to(wall.a), to(wall.b));
        corners.extend([(wall.a, a), (wall.b, b)]);
        ends.insert(*id, (a, b));
    }
    for (id, other) in others() {
        let to = |end: Point2| {
            if let Some((_, to)) = corners.iter().find(|(from, _)| touches(*from, end)) {
                return *to;
            }
            let on = line.iter().filter_map(|id| plan.walls.get(id)).any(|one| meets(one, end));
            let along = (leans(other) > OBLIQUE).then(|| way(other));
            if on { slid(end, along) } else { end }
        };
        let (a, b) = (to(other.a), to(other.b));
        if (a, b) != (other.a, other.b) {
            ends.insert(*id, (a, b));
        }
    }
    carried::edit(plan, level, &ends)
}

/// Whether a place is on a wall, its ends included: what ends there meets it.
fn meets(wall: &Wall, at: Point2) -> bool {
    let way = way(wall);
    let off = exact(at) - exact(wall.a);
    let near = wall.thickness.to_f64() / 2.0 + 20.0;
    let along = off.dot(way);
    way.cross(off).abs() <= near && (-SAME..=wall.length() + SAME).contains(&along)
}

/// The walls of a level that end at a corner.
pub(crate) fn at_corner(plan: &Plan, level: LevelId, at: Point2) -> BTreeSet<WallId> {
    let walls = plan.walls.iter().filter(|(_, wall)| wall.level == level);
    walls
        .filter(|(_, wall)| touches(wall.a, at) || touches(wall.b, at))
        .map(|(id, _)| *id)
        .collect()
}

/// Moves a corner: every wall that ends there, and what ends on those walls.
pub(crate) fn corner(plan: &Plan, level: LevelId, at: Point2, to: Point2) -> Result<Edit, String> {
    let turned = at_corner(plan, level, at);
    let mut ends = Ends::new();
    for id in &turned {
        let Some(wall) = plan.walls.get(id) else { continue };
        let end = |end: Point2| if touches(end, at) { to } else { end };
        ends.insert(*id, (end(wall.a), end(wall.b)));
    }
    for (id, other) in plan.walls.iter().filter(|(_, wall)| wall.level == level) {
        if turned.contains(id) {
            continue;
        }
        let end = |end: Point2| {
            let on = turned.iter().find(|id| plan.walls.get(*id).is_some_and(|w| meets(w, end)));
            on.and_then(|id| ends.get(id))
                .and_then(|(a, b)| crossing(exact(end), way(other), exact(*a), exact(*b)))
                .map_or(end, rounded)
        };
        let (a, b) = (end(other.a), end(other.b));
        if (a, b) != (other.a, other.b) {
            ends.insert(*id, (a, b));
        }
    }
    carried::edit(plan, level, &ends)
}

/// Where a line meets a wall between its ends.
fn crossing(from: Point, way: Vec2, a: Point, b: Point) -> Option<Point> {
    let cross = way.cross(b - a);
    let share = (a - from).cross(way) / cross;
    let fits = cross.abs() > OBLIQUE * (b - a).hypot() && (0.0..=1.0).contains(&share);
    fits.then(|| a + (b - a) * share)
}
