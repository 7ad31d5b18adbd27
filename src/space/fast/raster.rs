//! What moves cost in all cells of a void at once.
//!
//! Areas and barriers are painted rectangle by rectangle, so that a void whose
//! edges are followed by hundreds of steps takes no longer than it must.

use std::ops::Range;

use super::super::{Rect, VoidField};

/// The prices of a millimetre, by slots across the move and cells along it;
/// 0 where it is blocked.
pub(super) struct Raster {
    /// Of moves along `u`.
    pub(super) u: Vec<i64>,
    /// Of moves along `v`.
    pub(super) v: Vec<i64>,
}

/// The moves along one direction.
struct Moves {
    cells: usize,
    /// The largest percentage that counts; negative where none does.
    percents: Vec<i64>,
    tolls: Vec<i64>,
}

impl Raster {
    pub(super) fn of(field: &VoidField, us: &[i64], vs: &[i64]) -> Self {
        let (width, height) = (us.len() - 1, vs.len() - 1);
        let (mut u, mut v) = (Moves::new(width, height), Moves::new(height, width));
        let span = |lines: &[i64], from: i64, to: i64| {
            let at = |value: i64| lines.partition_point(|line| *line < value);
            at(from)..at(to)
        };
        let cells = |rect: &Rect| (span(us, rect.u0, rect.u1), span(vs, rect.v0, rect.v1));
        for area in &field.percents {
            let mut covered = vec![false; width * height];
            for rect in &area.rects {
                let (is, js) = cells(rect);
                js.for_each(|j| covered[j * width + is.start..j * width + is.end].fill(true));
            }
            let percent = i64::from(area.percent);
            let places: Vec<(i64, i64)> =
                area.rects.iter().flat_map(|r| [(r.u0, r.v0), (r.u1, r.v1)]).collect();
            let Some(around) = Rect::around(&places) else { continue };
            let (is, js) = cells(&around);
            u.paint(is.clone(), js.clone(), percent, |i, j| covered[j * width + i]);
            v.paint(js, is, percent, |j, i| covered[j * width + i]);
        }
        for barrier in &field.barriers {
            let (is, js) = cells(&barrier.rect);
            if barrier.along_u {
                u.charge(is, js, barrier.density);
            } else {
                v.charge(js, is, barrier.density);
            }
        }
        let free = field.free_cells(us, vs);
        Self {
            u: u.prices(field.density_u, |i, j| free[j * width + i]),
            v: v.prices(field.density_v, |j, i| free[j * width + i]),
        }
    }
}

impl Moves {
    /// So many cells along the moves, so many strips across.
    fn new(cells: usize, strips: usize) -> Self {
        let count = (2 * strips + 1) * cells;
        Self { cells, percents: vec![-1; count], tolls: vec![0; count] }
    }

    /// An area: in strips where it covers the cell; on a line between two cells
    /// a dear one where it covers both, a preferred one where it covers either.
    fn paint(
        &mut self,
        cells: Range<usize>,
        strips: Range<usize>,
        percent: i64,
        covers: impl Fn(usize, usize) -> bool,
    ) {
        for strip in strips.start..=strips.end {
            for cell in cells.clone() {
                let here = strip < strips.end && covers(cell, strip);
                let before = strip > strips.start && covers(cell, strip - 1);
                let line = if percent < 100 { here || before } else { here && before };
                let at = 2 * strip * self.cells + cell;
                if line {
                    self.percents[at] = self.percents[at].max(percent);
                }
                if here {
                    let inside = &mut self.percents[at + self.cells];
                    *inside = (*inside).max(percent);
                }
            }
        }
    }

    /// A barrier, in its open inside.
    fn charge(&mut self, cells: Range<usize>, strips: Range<usize>, density: i64) {
        for slot in 2 * strips.start + 1..2 * strips.end {
            for cell in cells.clone() {
                self.tolls[slot * self.cells + cell] += density;
            }
        }
    }

    fn prices(self, density: i64, is_free: impl Fn(usize, usize) -> bool) -> Vec<i64> {
        let last = self.percents.len().div_euclid(self.cells) - 1;
        let mut prices = Vec::with_capacity(self.percents.len());
        for slot in 0..=last {
            let strip = slot.div_euclid(2);
            for cell in 0..self.cells {
                let here = slot < last && is_free(cell, strip);
                let free = here || (slot % 2 == 0 && slot > 0 && is_free(cell, strip - 1));
                let at = slot * self.cells + cell;
                let percent = if self.percents[at] < 0 { 100 } else { self.percents[at] };
                let price = (density * percent).div_euclid(100).max(1) + self.tolls[at];
                prices.push(if free { price } else { 0 });
            }
        }
        prices
    }
}
