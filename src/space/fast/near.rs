//! Searches that need not cover the whole house: from one end alone, and what
//! is certain about ways found in a window.

use super::super::{DetourBound, Key, Stop};
use super::boundary::Boundary;
use super::{Ask, FastNetwork, Rows};
use crate::units::Point3;

/// The cheapest ways from one end to some others.
#[derive(Debug)]
pub struct Star<'a> {
    rows: Rows<'a>,
}

impl<'a> FastNetwork<'a> {
    /// The cheapest ways from one end to others, by their numbers. All of them
    /// must be served.
    #[must_use]
    pub fn star(&'a self, source: usize, targets: &[usize]) -> Star<'a> {
        Star { rows: self.rows(vec![Ask { source, targets: targets.to_vec() }]) }
    }

    /// Whether no way that leaves the bounded box costs as little as this one between
    /// two ends: what it takes at least to leave their walls, which must be
    /// inside, and to go around outside.
    fn is_bounded(&self, detour_bound: &DetourBound, from: usize, to: usize, key: Key) -> bool {
        let (exits, others) = (&self.ends[from].exits, &self.ends[to].exits);
        let mut pairs = exits.iter().flat_map(|out| others.iter().map(move |back| (out, back)));
        pairs.all(|(out, back)| {
            let ends = out.key.cost().get() + back.key.cost().get();
            let around = detour_bound.around(out.page, back.page);
            around.is_none_or(|around| key.cost().get() < around + ends)
        })
    }
}

impl Rows<'_> {
    /// Whether no way that leaves the bounded box costs as little as the cheapest
    /// found inside, so that this is the cheapest anywhere. The walls of both
    /// ends must be inside.
    #[must_use]
    pub fn is_certain(&self, detour_bound: &DetourBound, row: usize, target: usize) -> bool {
        let key = self.key(row, target);
        let source = self.source(row);
        key.is_way()
            && (self.fast.is_bounded(detour_bound, source, target, key)
                || detour_bound.reach.square && self.open(detour_bound, row, target).is_empty())
    }

    /// Where a way can leave the bounded box that might cost as little.
    fn open(&self, detour_bound: &DetourBound, row: usize, target: usize) -> Boundary {
        let cost = self.key(row, target).cost().get();
        self.boundary(detour_bound, row).open(self.fast, detour_bound, target, cost)
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
    pub fn are_certain(
        &self,
        detour_bound: &DetourBound,
        targets: impl Iterator<Item = usize>,
    ) -> bool {
        let open: Vec<usize> =
            targets.filter(|to| !self.rows.is_certain(detour_bound, 0, *to)).collect();
        let is_way = |to: &usize| self.key(*to).is_way();
        if open.is_empty() || !detour_bound.reach.square || !open.iter().all(is_way) {
            return open.is_empty();
        }
        let source = self.rows.source(0);
        let back = open.iter().map(|to| Ask { source: *to, targets: vec![source] });
        let back = self.rows.fast.rows(back.collect());
        open.iter().enumerate().all(|(row, to)| {
            let (out, into) =
                (self.rows.open(detour_bound, 0, *to), back.open(detour_bound, row, source));
            !out.is_joined(detour_bound, &into, self.key(*to).cost().get())
        })
    }

    /// The cheapest way to one of the targets, or back from it. None without a
    /// way.
    #[must_use]
    pub fn way(&self, target: usize, back: bool) -> Option<(Point3, Vec<Stop>)> {
        self.rows.way(0, target, back)
    }
}
