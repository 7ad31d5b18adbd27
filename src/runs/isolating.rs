//! What is wired behind its isolating switch or connection unit.
//!
//! The cable goes to the switch, and on from its load side to what it cuts off.
//! Where a feed is nothing but one switch and its appliances, that is an order
//! of the feed. Where others share it, what is cut off hangs behind its switch:
//! anything further along a chain would be cut off too, and what lies within a
//! ring has mains from both sides. *Common practice.*

use std::collections::BTreeMap;

use super::{Leg, LegRole};
use crate::plan::{Circuit, End, Isolation, PointId, Wiring};

/// How the isolating switches of a circuit are heeded.
#[derive(Debug, Default)]
pub(super) struct Isolating {
    /// Pairs that the order of the feed keeps to.
    pub(super) in_order: Vec<Isolation>,
    /// Points that hang behind a switch, by switch.
    pub(super) behind: Vec<(PointId, Vec<PointId>)>,
}

impl Isolating {
    /// From the pairs that can be kept, and the points that the feed would visit
    /// otherwise.
    pub(super) fn of(circuit: &Circuit, pairs: &[Isolation], feed: &[PointId]) -> Self {
        let Some(first) = pairs.first() else { return Self::default() };
        let its = |id: &PointId| {
            let one = Isolation { by: first.by, load: *id };
            *id == first.by || pairs.contains(&one)
        };
        let chain = matches!(circuit.wiring, Wiring::Chain | Wiring::ChainWithSpurs);
        if chain && feed.iter().all(its) {
            return Self { in_order: pairs.to_vec(), behind: Vec::new() };
        }
        let mut behind: Vec<(PointId, Vec<PointId>)> = Vec::new();
        for pair in pairs {
            match behind.iter_mut().find(|(by, _)| *by == pair.by) {
                Some((_, loads)) => loads.push(pair.load),
                None => behind.push((pair.by, vec![pair.load])),
            }
        }
        Self { in_order: Vec::new(), behind }
    }

    /// Whether a point hangs behind a switch.
    pub(super) fn hangs(&self, id: PointId) -> bool {
        self.behind.iter().any(|(_, loads)| loads.contains(&id))
    }
}

/// Those pairs whose appliance has mains otherwise than through its switch.
pub(super) fn not_cut_off(legs: &[Leg], ring: &[End], pairs: &[Isolation]) -> Vec<Isolation> {
    let one_way = legs.iter().filter(|leg| leg.role != LegRole::RingReturn);
    let from: BTreeMap<End, End> = one_way.map(|leg| (leg.to, leg.from)).collect();
    let is_wrong = |pair: &&Isolation| {
        let load = End::Point(pair.load);
        if !from.contains_key(&load) {
            // It has no mains at all, and another finding says so.
            return false;
        }
        let way = std::iter::successors(from.get(&load), |end| from.get(end));
        let through = way.take(legs.len()).any(|end| *end == End::Point(pair.by));
        ring.contains(&load) || !through
    };
    pairs.iter().filter(is_wrong).copied().collect()
}
