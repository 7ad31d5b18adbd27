//! Labels where they stand now, found by place.

use kurbo::{Point, Rect};

use super::spot::Spot;

/// The places that are taken, in square cells of paper.
#[derive(Debug)]
pub(super) struct Standing {
    spots: Vec<Option<Spot>>,
    /// The first cell that each of them touches.
    firsts: Vec<Cell>,
    origin: Point,
    columns: usize,
    rows: usize,
    /// The labels whose reach touches each cell, in order.
    cells: Vec<Vec<usize>>,
}

/// The side of a cell, mm.
const CELL: f64 = 12.0;
/// So many cells each way at most; the last stands for all beyond.
const MOST: usize = 200;

type Cell = (usize, usize);

impl Standing {
    /// So many labels, none of which stands anywhere yet.
    pub(super) fn none(labels: usize, space: Rect) -> Self {
        let count = |length: f64| index(length / CELL, MOST) + 1;
        let (columns, rows) = (count(space.width()), count(space.height()));
        Self {
            spots: vec![None; labels],
            firsts: vec![(0, 0); labels],
            origin: space.origin(),
            columns,
            rows,
            cells: vec![Vec::new(); columns * rows],
        }
    }

    /// Where a label stands.
    pub(super) fn of(&self, label: usize) -> Option<Spot> {
        self.spots[label]
    }

    /// Moves a label.
    pub(super) fn put(&mut self, label: usize, spot: Option<Spot>) {
        if let Some(old) = self.spots[label] {
            for cell in self.touched(old.reach) {
                self.cells[cell].retain(|one| *one != label);
            }
        }
        if let Some(new) = spot {
            self.firsts[label] = self.corners(new.reach).0;
            for cell in self.touched(new.reach) {
                let at = self.cells[cell].partition_point(|one| *one < label);
                self.cells[cell].insert(at, label);
            }
        }
        self.spots[label] = spot;
    }

    /// The labels but `label` whose reach touches another, once each.
    pub(super) fn around(&self, label: usize, reach: Rect) -> impl Iterator<Item = &Spot> {
        let (first, _) = self.corners(reach);
        self.touched(reach).flat_map(move |cell| {
            self.cells[cell].iter().filter_map(move |other| {
                let spot = self.spots[*other].as_ref().filter(|spot| touch(spot.reach, reach))?;
                // It counts in the first cell that both touch.
                let theirs = self.firsts[*other];
                let both = (first.0.max(theirs.0), first.1.max(theirs.1));
                (*other != label && self.at(both) == cell).then_some(spot)
            })
        })
    }

    fn touched(&self, reach: Rect) -> impl Iterator<Item = usize> + use<> {
        let ((left, top), (right, foot)) = self.corners(reach);
        let columns = self.columns;
        (top..=foot).flat_map(move |row| (left..=right).map(move |column| row * columns + column))
    }

    const fn at(&self, (column, row): Cell) -> usize {
        row * self.columns + column
    }

    /// The first and the last cell that a box touches.
    fn corners(&self, reach: Rect) -> (Cell, Cell) {
        let column = |x: f64| index((x - self.origin.x) / CELL, self.columns - 1);
        let row = |y: f64| index((y - self.origin.y) / CELL, self.rows - 1);
        ((column(reach.x0), row(reach.y0)), (column(reach.x1), row(reach.y1)))
    }
}

/// Which one a length falls in, up to the last.
fn index(at: f64, last: usize) -> usize {
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "held between nought and far below 2^53"
    )]
    let place = at.clamp(0.0, 1.0e6) as usize;
    place.min(last)
}

/// Whether two boxes touch.
pub(super) fn touch(one: Rect, other: Rect) -> bool {
    one.x0 <= other.x1 && other.x0 <= one.x1 && one.y0 <= other.y1 && other.y0 <= one.y1
}
