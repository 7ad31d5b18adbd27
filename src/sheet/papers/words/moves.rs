//! Moves of one direction taken together.

use crate::plan::{Face, Plan, VoidId, Wall};
use crate::runs::{Heading, Segment};
use crate::units::{Mm, Point3};

/// Which way a cable goes, as who stands before it sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    Up,
    Down,
    Left,
    Right,
    /// Along the joists of a void, or where it has none along its own lines;
    /// whether towards its direction.
    Along(bool),
    /// Across them; whether to the left of its direction.
    Across(bool),
}

/// So far in one direction.
#[derive(Clone, Copy, Debug)]
pub(super) struct Move {
    pub(super) way: Way,
    pub(super) length: Mm,
    pub(super) from: Point3,
    pub(super) to: Point3,
}

/// More than this many moves in a void are told as where they lead in all:
/// along oblique edges cables go by small steps.
const STEPS: usize = 5;

/// The moves of segments in a wall, seen from a side of it.
pub(super) fn in_wall<'a>(
    segments: impl Iterator<Item = &'a Segment>,
    wall: &Wall,
    side: Face,
) -> Vec<Move> {
    joined(segments.map(|one| (hand(one, wall, side), one)))
}

/// Which way a segment in a wall goes, seen from a side of it: the left face
/// is seen with the wall's end `b` at the left.
pub(super) fn hand(segment: &Segment, wall: &Wall, side: Face) -> Way {
    match segment.heading {
        Heading::Up => Way::Up,
        Heading::Down => Way::Down,
        Heading::Sideways | Heading::AlongJoists | Heading::AcrossJoists => {
            let (dx, dy) = wall.direction();
            if (dot(segment, (dx, dy)) > 0.0) == (side == Face::Right) {
                Way::Right
            } else {
                Way::Left
            }
        }
    }
}

/// The moves of segments in a void, and how many there were where only their
/// sums are told.
pub(super) fn in_void<'a>(
    segments: impl Iterator<Item = &'a Segment>,
    plan: &Plan,
    void: VoidId,
) -> (Vec<Move>, Option<usize>) {
    let (cos, sin) = plan.voids.get(&void).map_or((1.0, 0.0), |void| void.direction.cos_sin());
    let way = |one: &Segment| match one.heading {
        Heading::Up => Way::Up,
        Heading::Down => Way::Down,
        Heading::AcrossJoists => Way::Across(dot(one, (-sin, cos)) > 0.0),
        Heading::AlongJoists | Heading::Sideways => Way::Along(dot(one, (cos, sin)) > 0.0),
    };
    let moves = joined(segments.map(|one| (way(one), one)));
    if moves.len() <= STEPS {
        return (moves, None);
    }
    let mut sums: Vec<Move> = Vec::new();
    for (way, back) in
        [(Way::Along(true), Way::Along(false)), (Way::Across(true), Way::Across(false))]
    {
        let sum = |way: Way| -> Mm {
            moves.iter().filter(|one| one.way == way).map(|one| one.length).sum()
        };
        let (on, off) = (sum(way), sum(back));
        let (way, length) = if on >= off { (way, on - off) } else { (back, off - on) };
        if let (Some(first), Some(last)) = (moves.first(), moves.last())
            && length > Mm::ZERO
        {
            sums.push(Move { way, length, from: first.from, to: last.to });
        }
    }
    (sums, Some(moves.len()))
}

/// Upright moves, on a post or through a ceiling.
pub(super) fn upright<'a>(segments: impl Iterator<Item = &'a Segment>) -> Vec<Move> {
    let way = |one: &Segment| if one.heading == Heading::Up { Way::Up } else { Way::Down };
    joined(segments.map(|one| (way(one), one)))
}

fn joined<'a>(steps: impl Iterator<Item = (Way, &'a Segment)>) -> Vec<Move> {
    let mut moves: Vec<Move> = Vec::new();
    for (way, segment) in steps {
        match moves.last_mut() {
            Some(last) if last.way == way => {
                last.length += segment.length;
                last.to = segment.to;
            }
            _ => {
                moves.push(Move { way, length: segment.length, from: segment.from, to: segment.to })
            }
        }
    }
    moves
}

fn dot(segment: &Segment, (x, y): (f64, f64)) -> f64 {
    let (from, to) = (segment.from, segment.to);
    (to.x - from.x).to_f64() * x + (to.y - from.y).to_f64() * y
}
