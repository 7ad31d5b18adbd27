//! The part of a chain that is left to order.

use super::prescribed::Before;
use super::{Matrix, Shape};

/// From a start that is set, over free points in any order, to a finish.
///
/// Open chains and rings become the same task by way of the finish: reaching
/// it takes nothing where a chain may end anywhere, and the leg back to the
/// board in a ring. Within a sub-path 0 is the start, 1 to `points` are the
/// free points, `points + 1` is the finish.
#[derive(Clone, Debug)]
pub(super) struct SubPath {
    points: usize,
    /// Row by row, `points + 2` to a row.
    weights: Vec<i64>,
    before: Before,
}

impl SubPath {
    /// From `start` over `free` (ends of the matrix), as `shape` asks.
    pub(super) fn new(matrix: &Matrix, shape: Shape, start: usize, free: &[usize]) -> Self {
        let points = free.len();
        let size = points + 2;
        let finish = size - 1;
        let mut weights = vec![0; size * size];
        let end = |place: usize| if place == 0 { start } else { free[place - 1] };
        for i in 0..finish {
            for j in 0..finish {
                weights[i * size + j] = matrix.weight(end(i), end(j));
            }
            let back = if shape == Shape::Closed { matrix.weight(end(i), 0) } else { 0 };
            weights[i * size + finish] = back;
            weights[finish * size + i] = back;
        }
        if points > 0 {
            weights[finish] = matrix.missing();
            weights[finish * size] = matrix.missing();
        }
        Self { points, weights, before: Before::default() }
    }

    /// Where some points come before others in a chain: legs that no such chain
    /// has weigh as much as those that cannot be made, so that bounds rise.
    pub(super) fn in_chain(mut self, matrix: &Matrix, before: Before) -> Self {
        let leading = (1..=self.points).filter(|point| before.leads(*point));
        let ends: Vec<(usize, usize)> = leading.map(|point| (point, self.finish())).collect();
        self = self.with_spurs(matrix, before);
        ends.into_iter().for_each(|leg| self.bar(matrix, leg));
        self
    }

    /// The same where points may hang as spurs: the last of the trunk may feed
    /// one that comes after it.
    pub(super) fn with_spurs(mut self, matrix: &Matrix, before: Before) -> Self {
        let following = (1..=self.points).filter(|point| before.follows(*point));
        let first: Vec<(usize, usize)> = following.map(|point| (0, point)).collect();
        let barred = first.into_iter().chain(before.skipping());
        barred.for_each(|leg| self.bar(matrix, leg));
        self.before = before;
        self
    }

    fn bar(&mut self, matrix: &Matrix, (from, to): (usize, usize)) {
        let size = self.size();
        self.weights[from * size + to] = matrix.missing();
        self.weights[to * size + from] = matrix.missing();
    }

    /// Which points come before which.
    pub(super) fn before(&self) -> &Before {
        &self.before
    }

    pub(super) fn points(&self) -> usize {
        self.points
    }

    /// Start, points and finish.
    pub(super) fn size(&self) -> usize {
        self.points + 2
    }

    pub(super) fn finish(&self) -> usize {
        self.points + 1
    }

    /// All weights, row by row.
    pub(super) fn flat(&self) -> &[i64] {
        &self.weights
    }

    pub(super) fn row(&self, from: usize) -> &[i64] {
        &self.weights[from * self.size()..][..self.size()]
    }

    pub(super) fn weight(&self, from: usize, to: usize) -> i64 {
        self.weights[from * self.size() + to]
    }

    /// The weight of the whole way over the points in this order.
    pub(super) fn total(&self, points: &[usize]) -> i64 {
        let mut at = 0;
        let mut sum = 0;
        for next in points.iter().copied().chain([self.finish()]) {
            sum += self.weight(at, next);
            at = next;
        }
        sum
    }
}
