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

    /// Whether no way that leaves the fence costs as little as this one, so
    /// that a way found inside is the cheapest anywhere: what it costs at
    /// least to leave the walls of both ends, which must be inside, and to go
    /// around outside.
    #[must_use]
    pub fn is_certain(&self, fence: &Fence, from: usize, to: usize, key: Key) -> bool {
        self.lacks(fence, from, to, key).is_some_and(|lacks| lacks < 0)
    }

    /// By how much a way that leaves the fence could be cheaper than this one,
    /// hundredths; below 0 where it is dearer. None without a way.
    #[must_use]
    pub fn lacks(&self, fence: &Fence, from: usize, to: usize, key: Key) -> Option<i64> {
        if !key.is_way() {
            return None;
        }
        let mut most = i64::MIN;
        for out in &self.ends[from].exits {
            for back in &self.ends[to].exits {
                let Some(around) = fence.around(out.page, back.page) else { return Some(i64::MIN) };
                let ends = out.key.cost().get() + back.key.cost().get();
                most = most.max(key.cost().get() - around - ends);
            }
        }
        Some(most)
    }
}

impl Star<'_> {
    /// What the cheapest way to one of the targets costs.
    #[must_use]
    pub fn key(&self, target: usize) -> Key {
        self.rows.key(0, target)
    }

    /// The cheapest way to one of the targets, or back from it. None without a
    /// way.
    #[must_use]
    pub fn way(&self, target: usize, back: bool) -> Option<(Point3, Vec<Stop>)> {
        self.rows.way(0, target, back)
    }
}
