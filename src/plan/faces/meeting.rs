//! Which walls meet, and where along each of them.

use kurbo::Point;
use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use super::line::{Line, Tip, cross};

/// How near a wall's end must be to another's centre line to meet it, mm,
/// beyond the other's half thickness. As `space` has it.
pub(super) const NEAR: f64 = 20.0;

/// An end that is on another wall's line as exactly as drawing can tell, mm.
const EXACT: f64 = 2.0;

/// Two walls that meet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Meeting {
    pub(super) one: (usize, Port),
    pub(super) other: (usize, Port),
}

/// Where along a wall another one meets it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Port {
    /// At one of its ends.
    Tip(Tip),
    /// So far along it: it goes on at both sides.
    Through(f64),
}

/// An end of a wall close to another.
#[derive(Clone, Copy)]
struct Touch {
    wall: usize,
    tip: Tip,
    other: usize,
    gap: f64,
}

/// All meetings of walls of one level, in the order of the plan; two walls
/// meet no more than once.
pub(super) fn meetings(lines: &[Line], near: &[(usize, usize)]) -> Vec<Meeting> {
    let mut touches: Vec<Touch> = Vec::new();
    for (one, other) in near.iter().flat_map(|(a, b)| [(*a, *b), (*b, *a)]) {
        for tip in [Tip::A, Tip::B] {
            let gap = lines[other].gap(lines[one].tip(tip));
            if gap <= lines[other].half + NEAR {
                touches.push(Touch { wall: one, tip, other, gap });
            }
        }
    }
    let least = keep_exact(lines.len(), &mut touches);
    touches.sort_by(|a, b| {
        (a.wall.min(a.other), a.wall.max(a.other))
            .cmp(&(b.wall.min(b.other), b.wall.max(b.other)))
            .then(a.gap.total_cmp(&b.gap))
            .then((a.wall, a.tip).cmp(&(b.wall, b.tip)))
    });
    touches.dedup_by_key(|one| (one.wall.min(one.other), one.wall.max(one.other)));
    let mut meetings: Vec<Meeting> = Vec::new();
    let mut rest = touches.as_slice();
    for (one, other) in near.iter().copied() {
        match rest.split_first() {
            Some((touch, others))
                if (touch.wall.min(touch.other), touch.wall.max(touch.other)) == (one, other) =>
            {
                rest = others;
                meetings.push(touch.meeting(lines, &least));
            }
            _ => meetings.extend(crossing(lines, one, other)),
        }
    }
    meetings
}

/// Where an end lies on a wall exactly, walls that are merely near it are not
/// what it was drawn to meet: thick walls with short pieces between them. Gives
/// the distance of every end from the nearest wall.
fn keep_exact(count: usize, touches: &mut Vec<Touch>) -> Vec<[f64; 2]> {
    let mut least = vec![[f64::INFINITY; 2]; count];
    for touch in touches.iter() {
        let least = &mut least[touch.wall][usize::from(touch.tip == Tip::B)];
        *least = least.min(touch.gap);
    }
    touches.retain(|touch| {
        let least = least[touch.wall][usize::from(touch.tip == Tip::B)];
        least > EXACT || touch.gap <= NEAR
    });
    least
}

impl Touch {
    fn meeting(&self, lines: &[Line], least: &[[f64; 2]]) -> Meeting {
        let (wall, other) = (&lines[self.wall], &lines[self.other]);
        let along = other.along(wall.tip(self.tip));
        // What stands out past the face of the one that meets it is no stub
        // where it is less than a drawing can be off; where it was drawn to
        // reach another wall, where that one covers it.
        let is_end = |tip: Tip, off: f64| {
            let reaches = least[self.other][usize::from(tip == Tip::B)] <= EXACT;
            off <= if reaches { self.covers(lines, tip) } else { wall.half + NEAR }
        };
        let rest = other.length - along;
        let port = match if along < rest { (Tip::A, along) } else { (Tip::B, rest) } {
            (tip, off) if is_end(tip, off) => Port::Tip(tip),
            _ => Port::Through(along),
        };
        Meeting { one: (self.wall, Port::Tip(self.tip)), other: (self.other, port) }
    }
}

impl Touch {
    /// How far towards an end of the other wall this one covers its face.
    fn covers(&self, lines: &[Line], towards: Tip) -> f64 {
        let (wall, other) = (&lines[self.wall], &lines[self.other]);
        let out = if self.tip == Tip::A { wall.way } else { -wall.way };
        let on = if towards == Tip::B { other.way } else { -other.way };
        let turn = cross(out, on).abs().max(0.1);
        ((wall.half + other.half * out.dot(on)) / turn).max(NEAR)
    }
}

/// Walls that cross, with no end near.
fn crossing(lines: &[Line], one: usize, other: usize) -> Option<Meeting> {
    let (a, b) = (&lines[one], &lines[other]);
    let at = intersection(a, b)?;
    let (along_a, along_b) = (a.along(at), b.along(at));
    let inside = 0.0 < along_a && along_a < a.length && 0.0 < along_b && along_b < b.length;
    inside.then_some(Meeting {
        one: (one, Port::Through(along_a)),
        other: (other, Port::Through(along_b)),
    })
}

/// Where the lines of two walls cross. None where they are parallel.
pub(super) fn intersection(one: &Line, other: &Line) -> Option<Point> {
    let turn = cross(one.way, other.way);
    (turn.abs() > 1e-3).then(|| one.at(cross(other.a - one.a, other.way) / turn))
}

/// Walls of one level whose boxes are close, the earlier first, in order.
pub(super) fn pairs(lines: &[Line]) -> Vec<(usize, usize)> {
    let envelope = |line: &Line| {
        let reach = line.half + NEAR;
        let (low, high) = (
            [line.a.x.min(line.b.x) - reach, line.a.y.min(line.b.y) - reach],
            [line.a.x.max(line.b.x) + reach, line.a.y.max(line.b.y) + reach],
        );
        AABB::from_corners(low, high)
    };
    let boxes = lines.iter().enumerate();
    let boxes =
        boxes.map(|(index, line)| GeomWithData::new(Rectangle::from_aabb(envelope(line)), index));
    let tree = RTree::bulk_load(boxes.collect());
    let mut pairs = Vec::new();
    for (one, line) in lines.iter().enumerate() {
        let near = tree.locate_in_envelope_intersecting(envelope(line));
        let near = near.map(|other| other.data).filter(|other| *other > one);
        let near = near.filter(|other| lines[*other].level == line.level);
        pairs.extend(near.map(|other| (one, other)));
    }
    pairs.sort_unstable();
    pairs
}
