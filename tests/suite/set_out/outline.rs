//! What a tape finds: the outline of all that the walls of a level fill.

use std::collections::BTreeMap;

use geo::orient::{Direction, Orient};
use geo::{BooleanOps, Contains, Coord, LineString, MultiPolygon, Point, Polygon, Simplify};
use wirewend::plan::{Face, LevelId, Plan, Wall, WallId};

/// How far a foot or a side may be off for rounding to whole millimetres, mm.
const OFF: f64 = 1.8;
/// A turn by less than this is no corner (the sine of it).
const BEND: f64 = 0.05;
/// A mitre that sticks out further than so many half thicknesses is cut off.
const STICKS_OUT: f64 = 4.0;

/// The outlines of the walls of every level.
pub(super) struct Outlines(BTreeMap<LevelId, MultiPolygon<f64>>);

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
    of.0.hypot(of.1)
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

    /// How far a place is from its centre line, and whether it is beside its
    /// inner part and not beside one of its ends.
    fn off(&self, at: Vector) -> (f64, f64, f64) {
        let along = dot(minus(at, self.a), self.way);
        let length = long(minus(self.b, self.a));
        let foot = plus(self.a, self.way, along.clamp(0.0, length));
        (long(minus(at, foot)), along, length - along)
    }
}

fn polygon(corners: &[Vector]) -> Polygon<f64> {
    let ring: Vec<Coord<f64>> = corners.iter().map(|(x, y)| Coord { x: *x, y: *y }).collect();
    Polygon::new(LineString::from(ring), Vec::new()).orient(Direction::Default)
}

/// The wall from one of its ends: that end, and which way the wall goes on.
#[derive(Clone, Copy)]
struct Arm {
    at: Vector,
    way: Vector,
    half: f64,
}

impl Outlines {
    pub(super) fn of(plan: &Plan) -> Self {
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

    /// Whether a place is inside a wall.
    pub(super) fn is_solid(&self, level: LevelId, at: Vector) -> bool {
        self.0[&level].contains(&Point::new(at.0, at.1))
    }

    /// Every straight run of the outlines of a level: its ends.
    pub(super) fn sides(&self, level: LevelId) -> Vec<(Vector, Vector)> {
        let rings = self.0[&level].iter();
        let rings = rings.flat_map(|one| std::iter::once(one.exterior()).chain(one.interiors()));
        let lines = rings.flat_map(|ring| ring.lines().collect::<Vec<_>>());
        lines.map(|line| ((line.start.x, line.start.y), (line.end.x, line.end.y))).collect()
    }
}

/// The walls, their corners filled.
fn filled(bodies: &[Body]) -> MultiPolygon<f64> {
    let mut shapes: Vec<Polygon<f64>> = bodies.iter().map(|body| body.strip(0.0, 0.0)).collect();
    for (index, body) in bodies.iter().enumerate() {
        for (end, way, is_b) in [(body.a, body.way, false), (body.b, (-body.way.0, -body.way.1), true)] {
            let mut arms = vec![Arm { at: end, way, half: body.half }];
            for (number, other) in bodies.iter().enumerate().filter(|(number, _)| *number != index) {
                let (gap, along, rest) = other.off(end);
                if gap > OFF {
                    continue;
                }
                if along < OFF || rest < OFF {
                    let (at, way) = if along < OFF {
                        (other.a, other.way)
                    } else {
                        (other.b, (-other.way.0, -other.way.1))
                    };
                    if number > index {
                        arms.push(Arm { at, way, half: other.half });
                    } else {
                        // Filled from that one.
                        arms.clear();
                        break;
                    }
                } else {
                    shapes.extend(butted(body, is_b, other));
                }
            }
            shapes.extend(fills(&mut arms));
        }
    }
    let all = geo::unary_union(&shapes);
    all.simplify(1.3)
}

/// A wall that ends on the side of another goes on until that one's face.
fn butted(body: &Body, at_b: bool, on: &Body) -> Vec<Polygon<f64>> {
    let more = 4.0 * (body.half + on.half);
    let longer = if at_b { body.strip(0.0, more) } else { body.strip(more, 0.0) };
    // All that is on its side of the other's centre line.
    let far = 1e5;
    let from = if at_b { body.a } else { body.b };
    let out = on.out(Face::Left);
    let side = if dot(minus(from, on.a), out) > 0.0 { far } else { -far };
    let (a, b) = (plus(on.a, on.way, -far), plus(on.b, on.way, far));
    let half_plane = polygon(&[a, b, plus(b, out, side), plus(a, out, side)]);
    longer.intersection(&half_plane).into_iter().collect()
}

/// What closes the corners between walls that end at one place: out to where
/// the lines of two faces cross, or cut off.
fn fills(arms: &mut [Arm]) -> Vec<Polygon<f64>> {
    let mut fills = Vec::new();
    if arms.len() < 2 {
        return fills;
    }
    arms.sort_by(|a, b| a.way.1.atan2(a.way.0).total_cmp(&b.way.1.atan2(b.way.0)));
    for (index, one) in arms.iter().enumerate() {
        let next = &arms[(index + 1) % arms.len()];
        let turn = wedge(one.way, next.way);
        if turn.abs() < BEND {
            continue;
        }
        let left = plus(one.at, (-one.way.1, one.way.0), one.half);
        let right = plus(next.at, (next.way.1, -next.way.0), next.half);
        let out_one = wedge(minus(right, left), next.way) / turn;
        let out_next = wedge(minus(right, left), one.way) / turn;
        let tip = plus(left, one.way, out_one);
        let is_reflex = turn < 0.0;
        let reach = STICKS_OUT * one.half.max(next.half);
        let sticks_out = long(minus(tip, one.at)) > reach;
        let between = |last: &[Vector]| {
            let mut corners = vec![one.at, left];
            corners.extend(last);
            corners.push(right);
            polygon(&corners)
        };
        if is_reflex && (sticks_out || out_one > 0.0 || out_next > 0.0) {
            fills.push(between(&[]));
        } else if is_reflex || ((out_one < 0.0 || out_next < 0.0) && !sticks_out) {
            fills.push(between(&[tip]));
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
