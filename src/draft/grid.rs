//! Things on a level by where they lie, so that looking around a place does not
//! take longer in a larger house.

use std::collections::BTreeMap;

/// The side of a cell, mm: about a room.
const CELL: f64 = 5000.0;
/// What covers more cells is looked at from everywhere.
const CELLS_MAX: i64 = 4096;

/// Bounds as x0, y0, x1, y1.
type Bounds = [f64; 4];

/// Numbers of things by cell.
#[derive(Debug, Default)]
pub(super) struct Grid {
    cells: BTreeMap<(i64, i64), Vec<usize>>,
    everywhere: Vec<usize>,
}

impl Grid {
    /// Things by their bounds, numbered from 0.
    pub(super) fn of(things: impl IntoIterator<Item = Bounds>) -> Self {
        let mut grid = Self::default();
        for (index, bounds) in things.into_iter().enumerate() {
            let [columns, rows] = spans(bounds);
            let count = |(from, to): (i64, i64)| to - from + 1;
            if count(columns).saturating_mul(count(rows)) > CELLS_MAX {
                grid.everywhere.push(index);
                continue;
            }
            for cell in cells(columns, rows) {
                grid.cells.entry(cell).or_default().push(index);
            }
        }
        grid
    }

    /// What may lie within some bounds, lowest number first.
    pub(super) fn around(&self, bounds: Bounds) -> Vec<usize> {
        let [columns, rows] = spans(bounds);
        let mut found = self.everywhere.clone();
        for cell in cells(columns, rows) {
            found.extend(self.cells.get(&cell).into_iter().flatten());
        }
        found.sort_unstable();
        found.dedup();
        found
    }
}

fn spans([x0, y0, x1, y1]: Bounds) -> [(i64, i64); 2] {
    let cell = |value: f64| super::numbers::whole(libm::floor(value / CELL));
    [(cell(x0), cell(x1)), (cell(y0), cell(y1))]
}

fn cells(columns: (i64, i64), rows: (i64, i64)) -> impl Iterator<Item = (i64, i64)> {
    (columns.0..=columns.1).flat_map(move |x| (rows.0..=rows.1).map(move |y| (x, y)))
}

/// The bounds of two ends, grown by so much.
pub(super) fn bounds_of(a: (f64, f64), b: (f64, f64), by: f64) -> Bounds {
    [a.0.min(b.0) - by, a.1.min(b.1) - by, a.0.max(b.0) + by, a.1.max(b.1) + by]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_near_is_found_once_and_what_is_far_is_not() {
        let grid = Grid::of([
            [0.0, 0.0, 12_000.0, 100.0],
            [90_000.0, 90_000.0, 90_100.0, 90_100.0],
            [-1.0e7, -1.0e7, 1.0e7, 1.0e7],
        ]);
        assert_eq!(grid.around([1000.0, -50.0, 11_000.0, 50.0]), [0, 2], "near, and everywhere");
        assert_eq!(grid.around([90_050.0; 4]), [1, 2]);
        assert_eq!(grid.around([-50_000.0; 4]), [2], "nothing else there");
    }
}
