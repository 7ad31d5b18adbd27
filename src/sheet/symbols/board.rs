//! Distribution boards: a box on the wall, half of it filled.

use kurbo::{Point, Rect};

use super::{M, Symbol, filled, shape};
use crate::sheet::pen;

/// A distribution board.
pub(super) fn board() -> Symbol {
    let case = Rect::new(-2.0 * M, 0.0, 2.0 * M, 2.0 * M);
    let half = pen::polygon(&[
        Point::new(case.x0, case.y0),
        Point::new(case.x1, case.y0),
        Point::new(case.x0, case.y1),
    ]);
    Symbol { items: vec![shape(pen::rect(case)), filled(half)], centred: false }
}
