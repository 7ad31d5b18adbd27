//! What covering a box costs at least, from sums over squares of paper.

use kurbo::{Point, Rect};

use crate::sheet::pen;

/// Costs by squares, summed from the first corner on, so that those in a box
/// of any size are four looks away.
#[derive(Debug, Default)]
pub(super) struct Tally {
    origin: Point,
    columns: usize,
    rows: usize,
    /// At each corner of the squares, row by row, the sum of all before it.
    sums: Vec<f64>,
}

/// The side of a square, mm.
const SIDE: f64 = 2.0;
/// So many squares each way at most; what lies beyond is not counted.
const MOST: usize = 1000;

impl Tally {
    /// Of boxes, each with what touching it costs and what a mm² of it costs
    /// besides.
    pub(super) fn of(whole: Rect, boxes: impl Iterator<Item = (Rect, f64, f64)>) -> Self {
        let count = |length: f64| index(length / SIDE).map_or(1, |at| at + 1).min(MOST);
        let (columns, rows) = (count(whole.width()), count(whole.height()));
        let sums = vec![0.0; (columns + 1) * (rows + 1)];
        let mut tally = Self { origin: whole.origin(), columns, rows, sums };
        for (taken, touching, per_area) in boxes {
            tally.add(taken, touching, per_area);
        }
        tally.sum_up();
        tally
    }

    /// Whoever covers the middle of a box touches it, and whoever covers a
    /// square covers all of the box in it.
    fn add(&mut self, taken: Rect, touching: f64, per_area: f64) {
        let place = |at: f64, origin: f64| index((at - origin) / SIDE);
        let (x, y) = (self.origin.x, self.origin.y);
        let middle = taken.center();
        if let (Some(column), Some(row)) = (place(middle.x, x), place(middle.y, y)) {
            self.put(column, row, touching);
        }
        let span = |from: f64, to: f64, origin: f64, count: usize| {
            place(from, origin).unwrap_or(0)..=place(to, origin).unwrap_or(0).min(count - 1)
        };
        for row in span(taken.y0, taken.y1, y, self.rows) {
            let top = number(row).mul_add(SIDE, y);
            let high = taken.y1.min(top + SIDE) - taken.y0.max(top);
            for column in span(taken.x0, taken.x1, x, self.columns) {
                let left = number(column).mul_add(SIDE, x);
                let wide = taken.x1.min(left + SIDE) - taken.x0.max(left);
                self.put(column, row, wide.max(0.0) * high.max(0.0) * per_area);
            }
        }
    }

    fn put(&mut self, column: usize, row: usize, cost: f64) {
        if column < self.columns && row < self.rows {
            self.sums[(row + 1) * (self.columns + 1) + column + 1] += cost;
        }
    }

    fn sum_up(&mut self) {
        let wide = self.columns + 1;
        for row in 1..=self.rows {
            let (before, this) = self.sums.split_at_mut(row * wide);
            let above = &before[(row - 1) * wide..];
            let mut along = 0.0;
            for (sum, above) in this[..wide].iter_mut().zip(above) {
                along += *sum;
                *sum = along + above;
            }
        }
    }

    /// What a thin line costs for each mm that it is long: the mean of the
    /// squares that it crosses, times its length.
    pub(super) fn line(&self, (from, to): (Point, Point)) -> f64 {
        let steps = libm::ceil(pen::length(to - from)).max(1.0);
        let step = (to - from) / steps;
        let mut costs = 0.0;
        let mut at = from + step / 2.0;
        let mut done = 0.0;
        while done < steps {
            costs += self.square(at);
            at += step;
            done += 1.0;
        }
        costs
    }

    fn square(&self, at: Point) -> f64 {
        let column = index((at.x - self.origin.x) / SIDE).filter(|it| *it < self.columns);
        let row = index((at.y - self.origin.y) / SIDE).filter(|it| *it < self.rows);
        let (Some(column), Some(row)) = (column, row) else { return 0.0 };
        let sum = |column: usize, row: usize| self.sums[row * (self.columns + 1) + column];
        sum(column + 1, row + 1) - sum(column, row + 1) - sum(column + 1, row) + sum(column, row)
    }

    /// What covering a box costs at least: all in the squares that lie wholly
    /// in it.
    pub(super) fn at_least(&self, wanted: Rect) -> f64 {
        let first = |from: f64, origin: f64| {
            let at = (from - origin) / SIDE;
            if at <= 0.0 { Some(0) } else { index(libm::ceil(at)) }
        };
        let end = |to: f64, origin: f64, count: usize| {
            index((to - origin) / SIDE).map_or(0, |at| at.min(count))
        };
        let (Some(left), Some(top)) =
            (first(wanted.x0, self.origin.x), first(wanted.y0, self.origin.y))
        else {
            return 0.0;
        };
        let right = end(wanted.x1, self.origin.x, self.columns);
        let foot = end(wanted.y1, self.origin.y, self.rows);
        if right <= left || foot <= top {
            return 0.0;
        }
        let sum = |column: usize, row: usize| self.sums[row * (self.columns + 1) + column];
        let within = sum(right, foot) - sum(left, foot) - sum(right, top) + sum(left, top);
        // Sums of many are a little off.
        (within - 1e-6).max(0.0)
    }
}

/// Which one a length falls in. None: before the first.
fn index(at: f64) -> Option<usize> {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between nought and far below 2^53"
    )]
    let place = at.clamp(0.0, 1.0e6) as usize;
    (at >= 0.0).then_some(place)
}

#[expect(clippy::cast_precision_loss, reason = "a thousand at most")]
const fn number(count: usize) -> f64 {
    count as f64
}
