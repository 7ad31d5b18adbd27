//! What a tape finds: the outline of all that the walls of a level fill.

use std::collections::BTreeMap;

use geo::{BooleanOps, Coord, LineString, MultiPolygon, Polygon, Simplify};
use wirewend::plan::{Face, LevelId, Plan, Wall, WallId};

/// How far a foot or a side may be off for rounding to whole millimetres, mm.
const OFF: f64 = 1.8;
/// A turn by less than this is no corner (the sine of it).
const BEND: f64 = 0.05;
/// A mitre that sticks out further than so many half thicknesses is cut off.
const STICKS_OUT: f64 = 4.0;

/// The outlines of the walls of every level.
pub(crate) struct Outlines(BTreeMap<LevelId, MultiPolygon<f64>>);

/// What a tape finds from a place on a face.
#[derive(Clone, Copy, Debug)]
pub(super) struct Run {
    /// To the corner at the left of whoever looks at the face, mm.
    pub(super) left: f64,
    /// To the corner at the right.
    pub(super) right: f64,
}

type Vector = (f64, f64);

fn xy(at: wirewend::units::Point2) -> Vector {
    (at.x.to_f64(), at.y.to_f64())
}

fn plus((x, y): Vector, (dx, dy): Vector, times: f64) -> Vector {
    (x + dx * times, y + dy * times)
}

fn minus((x, y): Vector, (a, b): Vector) -> Vector {
    (x - a, y - b)
}

fn dot((x, y): Vector, (a, b): Vector) -> f64 {
    x * a + y * b
}

fn wedge((x, y): Vector, (a, b): Vector) -> f64 {
    x * b - y * a
}

fn long(of: Vector) -> f64 {
    libm::hypot(of.0, of.1)
}

/// A wall as the judge sees it.
#[derive(Clone, Copy)]
pub(super) struct Body {
    a: Vector,
    b: Vector,
    way: Vector,
    half: f64,
}

impl Body {
    pub(super) fn of(wall: &Wall) -> Self {
        let (a, b) = (xy(wall.a), xy(wall.b));
        let step = minus(b, a);
        let length = long(step);
        let way = (step.0 / length, step.1 / length);
        Self { a, b, way, half: wall.thickness.to_f64() / 2.0 }
    }

    /// Out of a face: the left one looks to the left of the way from a to b.
    pub(super) fn out(&self, face: Face) -> Vector {
        let (x, y) = self.way;
        if face == Face::Left { (-y, x) } else { (y, -x) }
    }

    /// So far along it on one of its faces.
    pub(super) fn on_face(&self, along: f64, face: Face) -> Vector {
        plus(plus(self.a, self.way, along), self.out(face), self.half)
    }

    fn strip(&self, before: f64, past: f64) -> Polygon<f64> {
        let (a, b) = (plus(self.a, self.way, -before), plus(self.b, self.way, past));
        let (left, right) = (self.out(Face::Left), self.out(Face::Right));
        let corners = [(a, left), (b, left), (b, right), (a, right)];
        polygon(&corners.map(|(at, out)| plus(at, out, self.half)))
    }

    /// Whether one of its ends is at a place.
    fn ends_at(&self, at: Vector) -> bool {
        long(minus(self.a, at)) < OFF || long(minus(self.b, at)) < OFF
    }

    /// How far a place is from its centre line, and whether it is beside its
    /// inner part and not beside one of its ends.
    fn off(&self, at: Vector) -> (f64, f64, f64) {
        let along = dot(minus(at, self.a), self.way);
        let length = long(minus(self.b, self.a));
        let foot = plus(self.a, self.way, along.clamp(0.0, length));
        (long(minus(at, foot)), along, length - along)
    }
}

/// A shape, turned anticlockwise by its area: a corner next to another may lie
/// on the wrong side of it by a hair, which misleads who looks at one corner.
fn polygon(corners: &[Vector]) -> Polygon<f64> {
    let next = corners.iter().cycle().skip(1);
    let area: f64 = corners
        .iter()
        .zip(next)
        .map(|(a, b)| wedge(minus(*a, corners[0]), minus(*b, corners[0])))
        .sum();
    let mut ring: Vec<Coord<f64>> = corners.iter().map(|(x, y)| Coord { x: *x, y: *y }).collect();
    if area < 0.0 {
        ring.reverse();
    }
    Polygon::new(LineString::from(ring), Vec::new())
}

/// The wall from one of its ends: that end, and which way the wall goes on.
#[derive(Clone, Copy)]
struct Arm {
    body: usize,
    at: Vector,
    way: Vector,
    half: f64,
}

impl Arm {
    fn of(of: &Body, body: usize, at_b: bool) -> Self {
        let (x, y) = of.way;
        let (at, way) = if at_b { (of.b, (-x, -y)) } else { (of.a, of.way) };
        Self { body, at, way, half: of.half }
    }
}

impl Outlines {
    pub(crate) fn of(plan: &Plan) -> Self {
        let level = |level: &LevelId| {
            let walls = plan.walls.values().filter(|wall| wall.level == *level);
            let walls = walls.filter(|wall| wall.a != wall.b);
            let bodies: Vec<Body> = walls.map(Body::of).collect();
            (*level, filled(&bodies))
        };
        Self(plan.levels.keys().map(level).collect())
    }

    /// What a tape finds from a place on a face of a wall. None where no face
    /// is there: within another wall, or past the end of its own.
    pub(super) fn run(&self, plan: &Plan, on: (WallId, Face), along: f64) -> Option<Run> {
        let wall = &plan.walls[&on.0];
        let body = Body::of(wall);
        let place = body.on_face(along, on.1);
        // Whoever looks at a face looks against its way out: their left is
        // that way turned to the right.
        let (x, y) = body.out(on.1);
        let left = (y, -x);
        let rings = self.0[&wall.level].iter();
        let rings = rings.flat_map(|one| std::iter::once(one.exterior()).chain(one.interiors()));
        rings.filter_map(|ring| on_ring(ring, place, left)).next()
    }

    /// Every straight run of the outlines of a level: its ends.
    pub(crate) fn sides(&self, level: LevelId) -> Vec<(Vector, Vector)> {
        let rings = self.0[&level].iter();
        let rings = rings.flat_map(|one| std::iter::once(one.exterior()).chain(one.interiors()));
        let lines = rings.flat_map(|ring| ring.lines().collect::<Vec<_>>());
        lines.map(|line| ((line.start.x, line.start.y), (line.end.x, line.end.y))).collect()
    }
}

/// The walls, each cut off where it ends at others, and their corners filled.
fn filled(bodies: &[Body]) -> MultiPolygon<f64> {
    let mut shapes: Vec<Polygon<f64>> = Vec::new();
    for (index, body) in bodies.iter().enumerate() {
        let ends = [false, true].map(|at_b| Ending::of(bodies, index, at_b));
        shapes.extend(cut_off(body, &ends));
        for ending in ends {
            let mut arms = ending.arms;
            // Filled once, from the first of them; on the side of a wall that
            // goes through there is nothing to fill.
            let is_first = arms.iter().all(|arm| arm.body >= index);
            if is_first && ending.on.is_none_or(|on| on.ends_at(arms[0].at)) {
                shapes.extend(fills(&mut arms));
            }
        }
    }
    geo::unary_union(&shapes).simplify(1.3)
}

/// What is at an end of a wall.
struct Ending {
    /// The walls that end there, this one first.
    arms: Vec<Arm>,
    /// One on whose side it ends.
    on: Option<Body>,
}

impl Ending {
    fn of(bodies: &[Body], index: usize, at_b: bool) -> Self {
        let own = Arm::of(&bodies[index], index, at_b);
        let (mut arms, mut on) = (vec![own], None);
        for (number, other) in bodies.iter().enumerate().filter(|(number, _)| *number != index) {
            let (gap, along, rest) = other.off(own.at);
            if gap > OFF {
                continue;
            }
            if along < OFF || rest < OFF {
                arms.push(Arm::of(other, number, along >= OFF));
            } else {
                on = Some(*other);
            }
        }
        // Two others in one line are as good as one that goes through.
        for one in &arms[1..] {
            let in_line = |other: &&Arm| {
                wedge(one.way, other.way).abs() < BEND && dot(one.way, other.way) < 0.0
            };
            if on.is_none() && arms[1..].iter().any(|other| in_line(&other)) {
                on = Some(bodies[one.body]);
            }
        }
        Self { arms, on }
    }
}

/// What a wall fills: where it ends on the side of another it goes on until
/// that one, and where two end in a corner neither reaches past the other.
fn cut_off(body: &Body, ends: &[Ending; 2]) -> Vec<Polygon<f64>> {
    let more = |ending: &Ending| ending.on.map_or(0.0, |on| 4.0 * (body.half + on.half));
    let whole = body.strip(more(&ends[0]), more(&ends[1]));
    let mut left = MultiPolygon::new(vec![whole]);
    for (ending, from) in ends.iter().zip([body.b, body.a]) {
        let cut = match (ending.on, ending.arms.as_slice()) {
            (Some(on), _) => Some((on.a, on.way, 0.0, dot(minus(from, on.a), on.out(Face::Left)))),
            (None, [own, other])
                if wedge(own.way, other.way).abs() > BEND && !is_slight(own.way, other.way) =>
            {
                let out = (-other.way.1, other.way.0);
                Some((other.at, other.way, other.half, dot(own.way, out)))
            }
            _ => None,
        };
        if let Some((at, way, past, side)) = cut {
            left = left.intersection(&half_plane(at, way, past, side > 0.0));
        }
    }
    left.into_iter().collect()
}

/// Whether walls turn so little that a thicker one makes a step.
fn is_slight(one: Vector, other: Vector) -> bool {
    wedge(one, other).abs() < 0.5 && dot(one, other) < 0.0
}

/// All that is on one side of a line, and so much past it on the other.
fn half_plane(at: Vector, way: Vector, past: f64, on_left: bool) -> Polygon<f64> {
    let far = 1e5;
    let out = if on_left { (-way.1, way.0) } else { (way.1, -way.0) };
    let (a, b) = (plus(at, way, -far), plus(at, way, far));
    let (a, b) = (plus(a, out, -past), plus(b, out, -past));
    polygon(&[a, b, plus(b, out, far), plus(a, out, far)])
}

/// What closes the corners between walls that end at one place: out to where
/// the lines of two faces cross, or cut off.
fn fills(arms: &mut [Arm]) -> Vec<Polygon<f64>> {
    let mut fills = Vec::new();
    if arms.len() < 2 {
        return fills;
    }
    arms.sort_by(|a, b| libm::atan2(a.way.1, a.way.0).total_cmp(&libm::atan2(b.way.1, b.way.0)));
    for (index, one) in arms.iter().enumerate() {
        let next = &arms[(index + 1) % arms.len()];
        let turn = wedge(one.way, next.way);
        let left = plus(one.at, (-one.way.1, one.way.0), one.half);
        let right = plus(next.at, (next.way.1, -next.way.0), next.half);
        // Into both walls: what only touches leaves hairs between. A foot that
        // the other's face cuts off is no corner of it.
        let between = |tip: &[Vector], feet: [bool; 2]| {
            let into = |at: Vector, arm: &Arm| plus(at, arm.way, 5.0);
            let mut corners = vec![into(next.at, next), into(one.at, one)];
            corners.extend([into(left, one), left].iter().filter(|_| feet[0]));
            corners.extend(tip);
            corners.extend([right, into(right, next)].iter().filter(|_| feet[1]));
            polygon(&corners)
        };
        if turn.abs() < BEND {
            if dot(one.way, next.way) < 0.0 {
                fills.push(between(&[], [true; 2]));
            }
            continue;
        }
        let out_one = wedge(minus(right, left), next.way) / turn;
        let out_next = wedge(minus(right, left), one.way) / turn;
        let tip = plus(left, one.way, out_one);
        let is_reflex = turn < 0.0;
        let reach = STICKS_OUT * one.half.max(next.half);
        let sticks_out = long(minus(tip, one.at)) > reach;
        let is_step = is_slight(one.way, next.way) && out_one.max(out_next) > 0.5;
        if is_reflex && (sticks_out || is_step) {
            fills.push(between(&[], [true; 2]));
        } else if is_reflex {
            fills.push(between(&[tip], [out_one < -0.5, out_next < -0.5]));
        } else if !sticks_out {
            // In the inner corner of a thick wall and a thin one the face of
            // the thick one goes on past its end.
            for (arm, foot, out) in [(one, left, out_one), (next, right, out_next)] {
                if out < -0.5 {
                    let into = |at: Vector| plus(at, arm.way, 5.0);
                    fills.push(polygon(&[into(arm.at), tip, foot, into(foot)]));
                }
            }
        }
    }
    fills
}

/// From a place on a ring to its next corners.
fn on_ring(ring: &LineString<f64>, place: Vector, left: Vector) -> Option<Run> {
    let corners: Vec<Vector> = ring.coords().skip(1).map(|at| (at.x, at.y)).collect();
    let count = corners.len();
    let side = |index: usize| (corners[index % count], corners[(index + 1) % count]);
    let holds = |index: &usize| {
        let (from, to) = side(*index);
        let step = minus(to, from);
        let length = long(step);
        let off = minus(place, from);
        let along = dot(off, step) / length;
        let away = wedge(step, off) / length;
        let in_line = dot(step, left).abs() / length > 0.99;
        in_line && away.abs() < OFF && -0.5 <= along && along <= length + 0.5
    };
    let on = (0..count).find(holds)?;
    let (from, to) = side(on);
    let forward = dot(minus(to, from), left) > 0.0;
    let walk = |ahead: bool| {
        let (from, to) = side(on);
        let way = minus(to, from);
        let way = (way.0 / long(way), way.1 / long(way));
        let end = if ahead { to } else { from };
        let mut sum = dot(minus(end, place), way).abs();
        let mut index = on;
        for _ in 0..count {
            let next = if ahead { (index + 1) % count } else { (index + count - 1) % count };
            let ((a, b), (c, d)) = (side(index), side(next));
            let (one, other) = (minus(b, a), minus(d, c));
            let turn = wedge(one, other) / (long(one) * long(other));
            if turn.abs() > BEND || dot(one, other) < 0.0 {
                break;
            }
            sum += long(other);
            index = next;
        }
        sum
    };
    let (ahead, back) = (walk(true), walk(false));
    Some(if forward { Run { left: ahead, right: back } } else { Run { left: back, right: ahead } })
}
