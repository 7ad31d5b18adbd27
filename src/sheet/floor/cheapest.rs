//! For heaps that give the cheapest first.

use std::cmp::Ordering;

/// Something with a cost: the greatest, as a heap wants it, is the cheapest, and
/// of equal ones the first.
#[derive(Clone, Copy, Debug)]
pub(super) struct Cheapest<T> {
    pub(super) cost: f64,
    /// Its place in the list it comes from.
    pub(super) index: usize,
    pub(super) what: T,
}

impl<T> Ord for Cheapest<T> {
    fn cmp(&self, other: &Self) -> Ordering {
        other.cost.total_cmp(&self.cost).then(other.index.cmp(&self.index))
    }
}

impl<T> PartialOrd for Cheapest<T> {
    fn partial_cmp(&self, other: &Self) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl<T> PartialEq for Cheapest<T> {
    fn eq(&self, other: &Self) -> bool {
        self.cmp(other) == Ordering::Equal
    }
}

impl<T> Eq for Cheapest<T> {}
