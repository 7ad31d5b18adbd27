//! Where the pen goes: to ends, crossings, right angles, lines continued,
//! half-way points; otherwise to an even step.

use kurbo::{Point, Vec2};
use wirewend::plan::{LevelId, Plan, Wall};
use wirewend::units::{Mm, Point2};

use super::camera::{exact, rounded};

/// What the pen held on to.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Snap {
    /// Where.
    pub(super) at: Point2,
    /// A word for it.
    pub(super) why: &'static str,
    /// Lines that show it, mm of the plan.
    pub(super) guides: Vec<(Point, Point)>,
}

/// Free lengths come in steps of this many mm.
const STEP: f64 = 50.0;
/// A line within this angle of a right one becomes right: its sine, about 7°;
/// while a length is typed, when the pointer only says which way, about 25°.
const LEAN: (f64, f64) = (0.12, 0.42);

/// Where a wall's next corner goes. `from` is its last one, `reach` how near
/// is near, mm; a typed length holds along the way the pen points.
pub(super) fn corner(
    plan: &Plan,
    level: LevelId,
    from: Option<Point2>,
    at: Point,
    reach: f64,
    typed: Option<Mm>,
) -> Snap {
    let walls: Vec<&Wall> = plan.walls.values().filter(|wall| wall.level == level).collect();
    let ends: Vec<Point> = walls.iter().flat_map(|wall| [exact(wall.a), exact(wall.b)]).collect();
    let Some(start) = from.map(exact) else { return free(&walls, &ends, at, reach) };
    if typed.is_none()
        && let Some(end) = nearest(&ends, at, reach)
        && end.distance(start) > 1.0
    {
        return Snap { at: rounded(end), why: "at an end", guides: Vec::new() };
    }
    let pull = at - start;
    let lean = if typed.is_some() { LEAN.1 } else { LEAN.0 };
    let (way, why) = direction(&walls, start, pull, reach, lean);
    let along = pull.dot(way).max(1.0);
    if let Some(length) = typed {
        let at = rounded(start + way * length.to_f64());
        return Snap { at, why: "as typed", guides: Vec::new() };
    }
    if why.is_empty() {
        return Snap { at: rounded(start + way * even(along)), why, guides: Vec::new() };
    }
    on_ray(&walls, &ends, start, way, along, reach, why)
}

/// A corner that nothing leads to yet.
fn free(walls: &[&Wall], ends: &[Point], at: Point, reach: f64) -> Snap {
    if let Some(end) = nearest(ends, at, reach) {
        return Snap { at: rounded(end), why: "at an end", guides: Vec::new() };
    }
    for wall in walls {
        let (a, b) = (exact(wall.a), exact(wall.b));
        let half = a.midpoint(b);
        if half.distance(at) <= reach {
            return Snap { at: rounded(half), why: "half-way", guides: Vec::new() };
        }
        let share = ((at - a).dot(b - a) / (b - a).hypot2().max(1.0)).clamp(0.0, 1.0);
        let along = even(share * a.distance(b));
        let foot = a + (b - a) * (along / a.distance(b).max(1.0)).min(1.0);
        if (a + (b - a) * share).distance(at) <= reach {
            return Snap { at: rounded(foot), why: "on a wall", guides: Vec::new() };
        }
    }
    let mut to = Point::new(even(at.x), even(at.y));
    let (mut guides, mut why) = (Vec::new(), "");
    if let Some(end) = closest(ends, reach, |end| (end.x - at.x).abs()) {
        (to.x, why) = (end.x, "in line");
        guides.push((end, Point::new(end.x, to.y)));
    }
    if let Some(end) = closest(ends, reach, |end| (end.y - at.y).abs()) {
        (to.y, why) = (end.y, "in line");
        guides.push((end, Point::new(to.x, end.y)));
    }
    Snap { at: rounded(to), why, guides }
}

/// Along a way that is set: to what crosses it or lies square to it.
fn on_ray(
    walls: &[&Wall],
    ends: &[Point],
    start: Point,
    way: Vec2,
    along: f64,
    reach: f64,
    why: &'static str,
) -> Snap {
    let crossing = walls
        .iter()
        .filter_map(|wall| {
            let (a, b) = (exact(wall.a), exact(wall.b));
            let cross = way.cross(b - a);
            let distance = (a - start).cross(b - a) / cross;
            let share = (a - start).cross(way) / cross;
            let hits = cross.abs() > 1e-6 && (-0.001..=1.001).contains(&share);
            (hits && distance > 1.0 && (distance - along).abs() <= reach).then_some(distance)
        })
        .min_by(|one, other| (one - along).abs().total_cmp(&(other - along).abs()));
    if let Some(distance) = crossing {
        return Snap { at: rounded(start + way * distance), why: "on a wall", guides: Vec::new() };
    }
    let beside = |end: &Point| (*end - start).dot(way);
    let aligned = closest(ends, reach, |end| (beside(&end) - along).abs());
    if let Some(end) = aligned.filter(|end| beside(end) > 1.0) {
        let at = start + way * beside(&end);
        return Snap { at: rounded(at), why: "in line", guides: vec![(end, at)] };
    }
    Snap { at: rounded(start + way * even(along)), why, guides: Vec::new() }
}

/// The way from a corner towards the pen: square to the page or to the walls
/// that end there, or as it is.
fn direction(
    walls: &[&Wall],
    start: Point,
    pull: Vec2,
    reach: f64,
    lean: f64,
) -> (Vec2, &'static str) {
    let length = pull.hypot();
    if length < 1.0 {
        return (Vec2::new(1.0, 0.0), "");
    }
    let mut ways = vec![(Vec2::new(1.0, 0.0), "level or upright")];
    for wall in walls {
        if exact(wall.a).distance(start) < 1.0 || exact(wall.b).distance(start) < 1.0 {
            let (x, y) = wall.direction();
            ways.push((Vec2::new(x, y), "right angle"));
        }
    }
    for (way, why) in ways {
        for way in [way, Vec2::new(-way.y, way.x), -way, Vec2::new(way.y, -way.x)] {
            let off = way.cross(pull).abs();
            if way.dot(pull) > 0.0 && (off <= length * lean || off <= reach) {
                return (way, why);
            }
        }
    }
    (pull / length, "")
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

fn even(value: f64) -> f64 {
    libm::round(value / STEP) * STEP
}

#[cfg(test)]
mod tests {
    use super::*;

    fn level(plan: &Plan) -> LevelId {
        *plan.levels.keys().next().expect("a level")
    }

    #[test]
    fn a_line_nearly_level_becomes_level_and_takes_a_typed_length() {
        let plan = super::super::blank::plan();
        let from = Some(Point2::new(1000, 1000));
        let pen = Point::new(4030.0, 1060.0);
        let even = corner(&plan, level(&plan), from, pen, 80.0, None);
        assert_eq!((even.at, even.why), (Point2::new(4050, 1000), "level or upright"));
        let typed = corner(&plan, level(&plan), from, pen, 80.0, Some(Mm::new(3217)));
        assert_eq!(typed.at, Point2::new(4217, 1000));
        // Well off a right angle it goes where the pen points.
        let slant = corner(&plan, level(&plan), from, Point::new(4000.0, 4000.0), 80.0, None);
        assert!((slant.at.x - slant.at.y).abs() <= Mm::new(1), "{slant:?}");
    }
}
