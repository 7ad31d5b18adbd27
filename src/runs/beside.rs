//! How many other legs lie beside each segment.

use rstar::{AABB, RTree, RTreeObject};

use super::{Runs, Segment};

/// Cables nearer than this to each other touch or are bunched, mm.
const NEAR: f64 = 60.0;

struct Entry {
    leg: usize,
    low: [f64; 3],
    high: [f64; 3],
}

impl RTreeObject for Entry {
    type Envelope = AABB<[f64; 3]>;
    fn envelope(&self) -> Self::Envelope {
        AABB::from_corners(self.low, self.high)
    }
}

/// Counts, for every segment, the other legs that run the same way within
/// 60 mm of it for more than a third of its length.
pub(super) fn count(runs: &mut Runs) {
    let mut entries = Vec::new();
    let mut leg_number = 0;
    for run in runs.circuits.values() {
        for leg in &run.legs {
            entries.extend(leg.route.segments.iter().map(|s| entry(leg_number, s)));
            leg_number += 1;
        }
    }
    let tree = RTree::bulk_load(entries);
    leg_number = 0;
    for run in runs.circuits.values_mut() {
        for leg in &mut run.legs {
            for segment in &mut leg.route.segments {
                segment.beside = beside(&tree, leg_number, segment);
            }
            leg_number += 1;
        }
    }
}

fn entry(leg: usize, segment: &Segment) -> Entry {
    let (a, b) = ends(segment);
    let low = [0, 1, 2].map(|axis| a[axis].min(b[axis]));
    let high = [0, 1, 2].map(|axis| a[axis].max(b[axis]));
    Entry { leg, low, high }
}

fn ends(segment: &Segment) -> ([f64; 3], [f64; 3]) {
    let array = |p: crate::units::Point3| [p.x.to_f64(), p.y.to_f64(), p.z.to_f64()];
    (array(segment.from), array(segment.to))
}

fn beside(tree: &RTree<Entry>, leg: usize, segment: &Segment) -> u32 {
    let own = entry(leg, segment);
    let around = AABB::from_corners(own.low.map(|v| v - NEAR), own.high.map(|v| v + NEAR));
    let axis = longest(&own);
    let length = own.high[axis] - own.low[axis];
    let mut legs: Vec<usize> = tree
        .locate_in_envelope_intersecting(around)
        .filter(|other| other.leg != leg && longest(other) == axis)
        .filter(|other| {
            let shared = own.high[axis].min(other.high[axis]) - own.low[axis].max(other.low[axis]);
            shared * 3.0 > length
        })
        .map(|other| other.leg)
        .collect();
    legs.sort_unstable();
    legs.dedup();
    u32::try_from(legs.len()).unwrap_or(u32::MAX)
}

fn longest(entry: &Entry) -> usize {
    let extent = |axis: usize| entry.high[axis] - entry.low[axis];
    (0..3).max_by(|a, b| extent(*a).total_cmp(&extent(*b))).unwrap_or(0)
}
