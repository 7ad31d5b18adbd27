//! Junction boxes: a circle with a filled dot.

use super::{M, Symbol, filled, shape};
use crate::sheet::pen;

/// A junction box.
pub(super) fn junction_box() -> Symbol {
    let items =
        vec![shape(pen::circle((0.0, 0.0), 0.75 * M)), filled(pen::circle((0.0, 0.0), 0.3 * M))];
    Symbol { items, centred: true }
}
