//! Searches that need not cover the whole house: from one end alone, and what
//! is certain about ways found in a window.

use super::super::{Fence, Key, Stop};
use super::rim::Rim;
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
        key.is_way()
            && (self.swift.is_fenced(fence, source, target, key)
                || fence.reach.square && self.open(fence, row, target).is_empty())
    }

    /// Where a way can leave the fence that might cost as little.
    fn open(&self, fence: &Fence, row: usize, target: usize) -> Rim {
        let cost = self.key(row, target).cost().get();
        self.rim(fence, row).open(self.swift, fence, target, cost)
    }
}

impl Star<'_> {
    /// What the cheapest way to one of the targets costs.
    #[must_use]
    pub fn key(&self, target: usize) -> Key {
        self.rows.key(0, target)
    }

    /// Whether all of these are the cheapest anywhere, see [`Rows::is_certain`];
    /// where that is not plain from the source, the targets are flooded as well.
    #[must_use]
    pub fn are_certain(&self, fence: &Fence, targets: impl Iterator<Item = usize>) -> bool {
        let open: Vec<usize> = targets.filter(|to| !self.rows.is_certain(fence, 0, *to)).collect();
        let is_way = |to: &usize| self.key(*to).is_way();
        if open.is_empty() || !fence.reach.square || !open.iter().all(is_way) {
            return open.is_empty();
        }
        let source = self.rows.source(0);
        let back = open.iter().map(|to| Ask { source: *to, targets: vec![source] });
        let back = self.rows.swift.rows(back.collect());
        open.iter().enumerate().all(|(row, to)| {
            let (out, into) = (self.rows.open(fence, 0, *to), back.open(fence, row, source));
            !out.is_joined(fence, &into, self.key(*to).cost().get())
        })
    }

    /// The cheapest way to one of the targets, or back from it. None without a
    /// way.
    #[must_use]
    pub fn way(&self, target: usize, back: bool) -> Option<(Point3, Vec<Stop>)> {
        self.rows.way(0, target, back)
    }
}
