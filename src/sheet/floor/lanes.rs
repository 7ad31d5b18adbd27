//! Lanes: legs that share a line in plan view are drawn side by side.
//!
//! Every straight part of a leg wants to lie where it is. Parts of one
//! direction that would lie on or too close to each other get an order across
//! their bundle, then move apart by as little as keeps the gap between them.
//! The order follows where the legs turn off, so that they need not cross; what
//! is left is settled by circuit and leg number. What lies inside the house stays
//! within its outer faces: over an outer wall lanes give way inwards.

use core::f64::consts::PI;

use kurbo::{Point, Vec2};

use super::outline::{Outline, Seen};
use crate::sheet::pen;

/// From one line to the next in a bundle, mm on paper.
pub(super) const GAP: f64 = 1.0;
/// Parts this close to one line count as lying on it, mm.
const SAME_LINE: f64 = 0.3;
/// Parts farther apart than this never push each other, mm.
const WINDOW: f64 = 16.0;
/// Directions closer than this are one, radians.
const SAME_DIRECTION: f64 = 0.015;

/// A straight part of a leg.
#[derive(Clone, Copy, Debug)]
pub(super) struct Part {
    /// Where it begins.
    pub(super) from: Point,
    /// Where it ends.
    pub(super) to: Point,
    /// Where the leg comes from, if it bends there.
    pub(super) before: Option<Point>,
    /// Where the leg goes on, if it bends there.
    pub(super) after: Option<Point>,
    /// The circuit it belongs to, by position in the plan.
    pub(super) circuit: usize,
}

/// A part in the frame of its bundle.
#[derive(Clone, Copy, Debug)]
struct Placed {
    index: usize,
    low: f64,
    high: f64,
    offset: f64,
    /// Which side it turns to at either end: -1, 0 or 1.
    turn_low: f64,
    turn_high: f64,
    circuit: usize,
    /// Between which offsets it stays inside the house.
    room: Option<(f64, f64)>,
}

impl Placed {
    /// An offset inside the house, or the nearest that is.
    fn held(&self, offset: f64) -> f64 {
        self.room.map_or(offset, |(least, most)| offset.clamp(least, most))
    }
}

/// How far each part moves from where it is, on paper. Those inside an outline
/// stay there.
pub(super) fn shifts(parts: &[Part], outline: &Outline) -> Vec<Vec2> {
    let mut shifts = vec![Vec2::ZERO; parts.len()];
    let mut angles: Vec<(f64, usize)> = parts
        .iter()
        .enumerate()
        .filter(|(_, part)| pen::length(part.to - part.from) > 1e-6)
        .map(|(index, part)| (folded_angle(part.to - part.from), index))
        .collect();
    angles.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    let mut rest = angles.as_slice();
    while let Some(&(first, _)) = rest.first() {
        let mut end = 1;
        while end < rest.len() && rest[end].0 - rest[end - 1].0 < SAME_DIRECTION {
            end += 1;
        }
        let (bundle, others) = rest.split_at(end);
        let along = Vec2::new(libm::cos(first), libm::sin(first));
        spread(parts, bundle, &outline.seen(along, pen::square_to(along)), &mut shifts);
        rest = others;
    }
    shifts
}

/// The direction of a line without its sense, radians from just under 0.
fn folded_angle(step: Vec2) -> f64 {
    let angle = libm::atan2(step.y, step.x).rem_euclid(PI);
    if angle > PI - SAME_DIRECTION { angle - PI } else { angle }
}

fn spread(parts: &[Part], bundle: &[(f64, usize)], seen: &Seen<'_>, shifts: &mut [Vec2]) {
    let mut placed: Vec<Placed> =
        bundle.iter().map(|(_, index)| in_frame(*index, &parts[*index], seen)).collect();
    placed.sort_by(|one, other| {
        one.offset
            .total_cmp(&other.offset)
            .then(one.circuit.cmp(&other.circuit))
            .then(one.index.cmp(&other.index))
    });
    order_within_lines(&mut placed);
    let moved = apart(&placed);
    for (part, offset) in placed.iter().zip(moved) {
        shifts[part.index] = seen.across * (offset - part.offset);
    }
}

fn in_frame(index: usize, part: &Part, seen: &Seen<'_>) -> Placed {
    let (along, across) = (seen.along, seen.across);
    let place = |at: Point| (at.to_vec2().dot(along), at.to_vec2().dot(across));
    let ((from, one), (to, other)) = (place(part.from), place(part.to));
    let offset = f64::midpoint(one, other);
    let side = |to: Option<Point>| {
        to.map_or(0.0, |at| {
            let aside = at.to_vec2().dot(across) - offset;
            if aside.abs() < SAME_LINE { 0.0 } else { aside.signum() }
        })
    };
    let (at_from, at_to) = (side(part.before), side(part.after));
    let (turn_low, turn_high) = if from <= to { (at_from, at_to) } else { (at_to, at_from) };
    let (low, high) = (from.min(to), from.max(to));
    let room = seen.room(low, high, offset);
    Placed { index, low, high, offset, turn_low, turn_high, circuit: part.circuit, room }
}

/// Parts on one line, sorted by offset already, are put in the order in which
/// they cross each other least.
fn order_within_lines(placed: &mut [Placed]) {
    let mut start = 0;
    while start < placed.len() {
        let mut end = start + 1;
        while end < placed.len() && placed[end].offset - placed[end - 1].offset < SAME_LINE {
            end += 1;
        }
        let line = &mut placed[start..end];
        line.sort_by_key(|part| (part.circuit, part.index));
        settle(line);
        start = end;
    }
}

/// Insertion by votes: each part goes to the place in the order where the
/// fewest pairs must cross; ties keep the order of the circuits.
fn settle(line: &mut [Placed]) {
    for _ in 0..3 {
        for index in 0..line.len() {
            let mut best = (0.0, index);
            let mut votes = 0.0;
            for other in (0..index).rev() {
                votes += vote(&line[index], &line[other]);
                if votes > best.0 {
                    best = (votes, other);
                }
            }
            line[best.1..=index].rotate_right(1);
        }
    }
}

/// Above nought where `one` should have the smaller offset of the two.
fn vote(one: &Placed, other: &Placed) -> f64 {
    if one.high < other.low || other.high < one.low {
        return 0.0;
    }
    let at_high = if (one.high - other.high).abs() < 0.5 {
        (other.turn_high - one.turn_high) / 2.0
    } else if one.high < other.high {
        -one.turn_high
    } else {
        other.turn_high
    };
    let at_low = if (one.low - other.low).abs() < 0.5 {
        (other.turn_low - one.turn_low) / 2.0
    } else if one.low > other.low {
        -one.turn_low
    } else {
        other.turn_low
    };
    at_high + at_low
}

/// Moves parts apart by as little as keeps [`GAP`] between any two that lie
/// beside each other, in the order given.
fn apart(placed: &[Placed]) -> Vec<f64> {
    let mut pairs: Vec<(usize, usize)> = Vec::new();
    for (index, one) in placed.iter().enumerate() {
        for (other_index, other) in placed.iter().enumerate().skip(index + 1) {
            if other.offset - one.offset > WINDOW {
                break;
            }
            if beside(one, other) {
                pairs.push((index, other_index));
            }
        }
    }
    let mut offsets: Vec<f64> = placed.iter().map(|part| part.offset).collect();
    // Half the lack to either side keeps a bundle centred on its true line.
    for _ in 0..300 {
        let mut worst = 0.0_f64;
        for (low, high) in &pairs {
            let lack = GAP - (offsets[*high] - offsets[*low]);
            if lack > 0.0 {
                offsets[*low] -= lack / 2.0;
                offsets[*high] += lack / 2.0;
                worst = worst.max(lack);
            }
        }
        if worst < 1e-4 {
            break;
        }
    }
    // Whatever that left undone is made good in one direction.
    inwards(placed, &pairs, &mut offsets);
    offsets
}

/// Back inside the house, first from the one side, then from the other.
fn inwards(placed: &[Placed], pairs: &[(usize, usize)], offsets: &mut [f64]) {
    let mut next = pairs.iter().peekable();
    for index in 0..placed.len() {
        offsets[index] = offsets[index].max(placed[index].held(f64::NEG_INFINITY));
        while let Some((low, high)) = next.next_if(|(low, _)| *low == index) {
            offsets[*high] = offsets[*high].max(offsets[*low] + GAP);
        }
    }
    let mut before: Vec<(usize, usize)> = pairs.iter().map(|(low, high)| (*high, *low)).collect();
    before.sort_unstable_by(|one, other| other.cmp(one));
    let mut next = before.iter().peekable();
    for index in (0..placed.len()).rev() {
        offsets[index] = placed[index].held(offsets[index]);
        while let Some((high, low)) = next.next_if(|(high, _)| *high == index) {
            offsets[*low] = offsets[*low].min(offsets[*high] - GAP);
        }
    }
}

/// Whether two parts lie beside each other along some of their length. Legs of
/// one circuit may follow each other on a line, end to end.
fn beside(one: &Placed, other: &Placed) -> bool {
    let margin = if one.circuit == other.circuit { -0.2 } else { 1.2 };
    one.low < other.high + margin && other.low < one.high + margin
}

#[cfg(test)]
mod tests {
    use super::*;

    fn part(from: (f64, f64), to: (f64, f64), circuit: usize) -> Part {
        Part { from: from.into(), to: to.into(), before: None, after: None, circuit }
    }

    #[test]
    fn three_on_one_line_lie_a_gap_apart_about_it() {
        let parts = [0, 1, 2].map(|circuit| part((0.0, 10.0), (50.0, 10.0), circuit));
        let ys: Vec<f64> = shifts(&parts, &Outline::none()).iter().map(|shift| shift.y).collect();
        assert!(
            (ys[0] + GAP).abs() < 0.01 && ys[1].abs() < 0.01 && (ys[2] - GAP).abs() < 0.01,
            "{ys:?}"
        );
    }

    #[test]
    fn parts_far_apart_or_end_to_end_stay_where_they_are() {
        let parts = [
            part((0.0, 10.0), (50.0, 10.0), 0),
            part((50.0, 10.0), (90.0, 10.0), 0),
            part((0.0, 14.0), (50.0, 14.0), 1),
            part((20.0, 0.0), (20.0, 50.0), 1),
        ];
        assert_eq!(shifts(&parts, &Outline::none()), vec![Vec2::ZERO; 4]);
    }

    /// Both run along one line; the first turns off upwards (y smaller) before
    /// the other ends, so it lies on that side although its number is higher.
    #[test]
    fn who_turns_off_first_lies_outside() {
        let mut early = part((0.0, 10.0), (30.0, 10.0), 5);
        early.after = Some(Point::new(30.0, 0.0));
        let late = part((0.0, 10.0), (60.0, 10.0), 1);
        let moved = shifts(&[early, late], &Outline::none());
        assert!(moved[0].y < moved[1].y, "{moved:?}");
    }
}
