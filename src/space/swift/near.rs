//! Searches that need not cover the whole house: from one end alone, and what
//! is certain about ways found in a window.

use super::super::{Fence, Key, Stop};
use super::{Ask, Rows, Swift};
use crate::units::Point3;

/// The cheapest ways from one end to some others.
#[derive(Debug)]
pub struct Star<'a> {
    rows: Rows<'a>,
}

impl<'a> Swift<'a> {
    /// The cheapest ways from one end to others, by their numbers. All of them
    /// must be served.
    #[must_use]
    pub fn star(&'a self, source: usize, targets: &[usize]) -> Star<'a> {
        Star { rows: self.rows(vec![Ask { source, targets: targets.to_vec() }]) }
    }

    /// Whether no way that leaves the fence costs as little as this one between
    /// two ends: what it takes at least to leave their walls, which must be
    /// inside, and to go around outside.
    fn is_fenced(&self, fence: &Fence, from: usize, to: usize, key: Key) -> bool {
        let (exits, others) = (&self.ends[from].exits, &self.ends[to].exits);
        let mut pairs = exits.iter().flat_map(|out| others.iter().map(move |back| (out, back)));
        pairs.all(|(out, back)| {
            let ends = out.key.cost().get() + back.key.cost().get();
            let around = fence.around(out.page, back.page);
            around.is_none_or(|around| key.cost().get() < around + ends)
        })
    }
}

impl Rows<'_> {
    /// Whether no way that leaves the fence costs as little as the cheapest
    /// found inside, so that this is the cheapest anywhere. The walls of both
    /// ends must be inside.
    #[must_use]
    pub fn is_certain(&self, fence: &Fence, row: usize, target: usize) -> bool {
        let key = self.key(row, target);
        let source = self.source(row);
        let cost = key.cost().get();
        key.is_way()
            && (self.swift.is_fenced(fence, source, target, key)
                || fence.reach.square
                    && cost < self.rim(fence, row).least(self.swift, fence, target))
    }
}

impl Star<'_> {
    /// What the cheapest way to one of the targets costs.
    #[must_use]
    pub fn key(&self, target: usize) -> Key {
        self.rows.key(0, target)
    }

    /// Whether that is the cheapest anywhere, see [`Rows::is_certain`].
    #[must_use]
    pub fn is_certain(&self, fence: &Fence, target: usize) -> bool {
        self.rows.is_certain(fence, 0, target)
    }

    /// The cheapest way to one of the targets, or back from it. None without a
    /// way.
    #[must_use]
    pub fn way(&self, target: usize, back: bool) -> Option<(Point3, Vec<Stop>)> {
        self.rows.way(0, target, back)
    }
}
