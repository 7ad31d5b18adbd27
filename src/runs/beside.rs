//! How many other legs lie beside each segment.

use std::ops::RangeInclusive;

use super::{Runs, Segment};

/// Cables nearer than this to each other touch or are bunched, mm.
const NEAR: i64 = 60;

/// Segments are looked for in strips this wide, mm: a few times what is near.
const STRIP: i64 = 250;

/// A segment as a box.
struct Entry {
    leg: usize,
    low: [i64; 3],
    high: [i64; 3],
}

/// The segments that run mostly along one direction, by strips beside it; those
/// that run upright by strips of both other directions.
#[derive(Default)]
struct Strips {
    entries: Vec<Entry>,
    /// Every strip that an entry touches, where along the axis it begins, and
    /// the entry; in this order.
    order: Vec<(i64, i64, i64, usize)>,
}

/// Counts, for every segment, the other legs that run the same way within
/// 60 mm of it for more than a third of its length.
pub(super) fn count(runs: &mut Runs) {
    let mut by_axis = [Strips::default(), Strips::default(), Strips::default()];
    let mut legs = 0;
    for leg in runs.circuits.values().flat_map(|run| &run.legs) {
        for segment in &leg.route.segments {
            let entry = entry(legs, segment);
            by_axis[longest(&entry)].entries.push(entry);
        }
        legs += 1;
    }
    for (axis, strips) in by_axis.iter_mut().enumerate() {
        strips.sort(axis);
    }
    // For every leg, the last segment beside which it was counted.
    let mut counted = vec![0_usize; legs];
    let mut number = 0;
    let all = runs.circuits.values_mut().flat_map(|run| &mut run.legs);
    for (leg, drawn) in all.enumerate() {
        for segment in &mut drawn.route.segments {
            number += 1;
            let own = entry(leg, segment);
            let axis = longest(&own);
            let mut beside = 0;
            for other in by_axis[axis].near(&own, axis) {
                if other.leg != leg && counted[other.leg] != number && runs_with(&own, other, axis)
                {
                    counted[other.leg] = number;
                    beside += 1;
                }
            }
            segment.beside = beside;
        }
    }
}

/// The strips that lie across an axis and that a segment touches, or comes near
/// to.
fn strips(entry: &Entry, axis: usize, near: i64) -> [RangeInclusive<i64>; 2] {
    let across = |at: usize| {
        (entry.low[at] - near).div_euclid(STRIP)..=(entry.high[at] + near).div_euclid(STRIP)
    };
    match axis {
        0 => [across(1), 0..=0],
        1 => [across(0), 0..=0],
        _ => [across(0), across(1)],
    }
}

impl Strips {
    fn sort(&mut self, axis: usize) {
        for (index, entry) in self.entries.iter().enumerate() {
            let [one, other] = strips(entry, axis, 0);
            let both = one.flat_map(|one| other.clone().map(move |other| (one, other)));
            let low = entry.low[axis];
            self.order.extend(both.map(|(one, other)| (one, other, low, index)));
        }
        self.order.sort_unstable();
    }

    /// The entries of all strips that may hold something near, without those that
    /// begin where an entry ends; some come up more than once.
    fn near(&self, own: &Entry, axis: usize) -> impl Iterator<Item = &Entry> {
        let [one, other] = strips(own, axis, NEAR);
        let both = one.flat_map(move |one| other.clone().map(move |other| (one, other)));
        let these = both.flat_map(move |strip| {
            let first = self.order.partition_point(|at| (at.0, at.1) < strip);
            let here = self.order[first..].iter();
            here.take_while(move |at| (at.0, at.1) == strip && at.2 < own.high[axis])
        });
        these.map(|at| &self.entries[at.3])
    }
}

/// Whether two that run along the same axis are near each other for more than
/// a third of the first.
fn runs_with(own: &Entry, other: &Entry, axis: usize) -> bool {
    let shared = own.high[axis].min(other.high[axis]) - own.low[axis].max(other.low[axis]);
    let apart =
        |at: usize| own.low[at] - NEAR > other.high[at] || other.low[at] > own.high[at] + NEAR;
    shared * 3 > own.high[axis] - own.low[axis] && !(0..3).any(apart)
}

fn entry(leg: usize, segment: &Segment) -> Entry {
    let array = |place: crate::units::Point3| [place.x.get(), place.y.get(), place.z.get()];
    let (a, b) = (array(segment.from), array(segment.to));
    let low = [0, 1, 2].map(|axis| a[axis].min(b[axis]));
    let high = [0, 1, 2].map(|axis| a[axis].max(b[axis]));
    Entry { leg, low, high }
}

fn longest(entry: &Entry) -> usize {
    (0..3).max_by_key(|axis| entry.high[*axis] - entry.low[*axis]).unwrap_or(0)
}

#[cfg(test)]
mod tests;
