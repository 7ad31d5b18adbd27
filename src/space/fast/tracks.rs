//! The core lines of a void, with prices as running sums.
//!
//! Only the edges of rectangles are lines here; ends of legs bring their own.
//! A *slot* is where a move across the lines lies: on a line (even) or in the
//! strip between two (odd), since the price differs only from slot to slot.

use super::super::VoidField;
use super::raster::Raster;

/// The core lines of a void.
#[derive(Clone, Debug)]
pub(super) struct Tracks {
    /// Lines across `u`, and what moves along `u` cost, by slots of `v`.
    pub(super) u: Lines,
    /// Lines across `v`, and what moves along `v` cost, by slots of `u`.
    pub(super) v: Lines,
}

/// Lines across one direction, and the prices of moves along it.
#[derive(Clone, Debug)]
pub(super) struct Lines {
    /// Where the lines are, rising.
    pub(super) at: Vec<i64>,
    /// For every slot of the other direction and every line.
    cells: Vec<Cell>,
    /// The least price of a millimetre anywhere.
    pub(super) least: i64,
}

/// A line in a slot, and the cell beyond it.
#[derive(Clone, Copy, Debug)]
struct Cell {
    /// What it costs to come here from the first line.
    sum: i64,
    /// The price of a millimetre beyond it.
    price: i64,
}

/// The price of a millimetre that is blocked: above what any way costs, and
/// small enough to be added up over a whole plane.
const BLOCKED: i64 = 1 << 38;

/// Where a coordinate lies among lines: the line at or before it, and its slot.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Along {
    /// The coordinate.
    pub(super) at: i64,
    /// The index of the line at or before it.
    pub(super) line: usize,
    /// Twice that, and one more where it is not on the line.
    pub(super) slot: usize,
    /// How far beyond the line it is.
    past: i64,
}

impl Lines {
    /// `price_of` gives the price of a millimetre in a cell of a slot, 0 where
    /// it is blocked.
    fn new(at: Vec<i64>, slots: usize, price_of: impl Fn(usize, usize) -> i64) -> Self {
        let cells = at.len().saturating_sub(1);
        let mut lines = Self { cells: Vec::with_capacity(slots * at.len()), least: i64::MAX, at };
        for slot in 0..slots {
            let mut sum = 0;
            for cell in 0..cells {
                let price = match price_of(slot, cell) {
                    0 => BLOCKED,
                    price => price,
                };
                lines.least = lines.least.min(price);
                lines.cells.push(Cell { sum, price });
                sum += price * (lines.at[cell + 1] - lines.at[cell]);
            }
            lines.cells.push(Cell { sum, price: BLOCKED });
        }
        lines
    }

    /// Where a coordinate lies. None outside the lines.
    pub(super) fn find(&self, at: i64) -> Option<Along> {
        let (first, last) = (*self.at.first()?, *self.at.last()?);
        if at < first || at > last {
            return None;
        }
        let line = self.at.partition_point(|line| *line <= at) - 1;
        let past = at - self.at[line];
        Some(Along { at, line, slot: 2 * line + usize::from(past != 0), past })
    }

    /// The price of a millimetre in a cell of a slot. None where it is blocked.
    pub(super) fn price(&self, slot: usize, cell: usize) -> Option<i64> {
        let price = self.cells[slot * self.at.len() + cell].price;
        (price < BLOCKED).then_some(price)
    }

    /// What it costs to come to a place of a slot from the first line.
    fn sum(&self, slot: usize, to: Along) -> i64 {
        let cell = self.cells[slot * self.at.len() + to.line];
        cell.sum + to.past * cell.price
    }

    /// What a move along a slot costs. None where it is blocked.
    pub(super) fn cost(&self, slot: usize, from: Along, to: Along) -> Option<i64> {
        let cost = (self.sum(slot, to) - self.sum(slot, from)).abs();
        (cost < BLOCKED).then_some(cost)
    }

    /// A place on a line.
    pub(super) fn on(&self, line: usize) -> Along {
        Along { at: self.at[line], line, slot: 2 * line, past: 0 }
    }
}

impl Tracks {
    /// Lays the lines of a void, and more inside it. None where it covers
    /// nothing.
    pub(super) fn of(field: &VoidField, more: (Vec<i64>, Vec<i64>)) -> Option<Self> {
        let (mut us, mut vs) = field.edges();
        us.extend(more.0);
        vs.extend(more.1);
        for lines in [&mut us, &mut vs] {
            lines.sort_unstable();
            lines.dedup();
        }
        if us.len() < 2 || vs.len() < 2 {
            return None;
        }
        let raster = Raster::of(field, &us, &vs);
        let (nu, nv) = (us.len(), vs.len());
        let u = Lines::new(us, 2 * nv - 1, |slot, i| raster.u[slot * (nu - 1) + i]);
        let v = Lines::new(vs, 2 * nu - 1, |slot, j| raster.v[slot * (nv - 1) + j]);
        Some(Self { u, v })
    }

    /// No way from one place to another can cost less, bends left aside.
    pub(super) fn least(&self, (u0, v0): (i64, i64), (u1, v1): (i64, i64)) -> i64 {
        (u0 - u1).abs() * self.u.least + (v0 - v1).abs() * self.v.least
    }

    /// The place of a crossing.
    pub(super) fn at(&self, (i, j): (usize, usize)) -> (i64, i64) {
        (self.u.at[i], self.v.at[j])
    }

    /// How many lines there are each way.
    pub(super) fn size(&self) -> (usize, usize) {
        (self.u.at.len(), self.v.at.len())
    }
}
