//! Socket-outlets: a half circle open to the room, with the bar of the
//! protective contact at its apex.

use core::f64::consts::PI;

use kurbo::Point;

use super::{M, Symbol, filled, gang_figure, lines};
use crate::sheet::pen;

/// A socket-outlet with a protective contact.
pub(super) fn socket(gangs: u8) -> Symbol {
    Symbol { items: parts(gangs), centred: false }
}

/// One that stands rain: the half circle is filled.
pub(super) fn weatherproof(gangs: u8) -> Symbol {
    let mut half = pen::arc((0.0, 3.0 * M), M, PI, PI);
    half.close_path();
    let mut items = vec![filled(half)];
    items.extend(parts(gangs));
    Symbol { items, centred: false }
}

/// Stem, half circle and bar, with the figure of the gangs beside the stem.
fn parts(gangs: u8) -> Vec<super::Item> {
    let mut path = pen::line((0.0, 0.0), (0.0, 2.0 * M));
    path.extend(pen::line((-M, 2.0 * M), (M, 2.0 * M)));
    path.extend(pen::arc((0.0, 3.0 * M), M, PI, PI));
    let mut items = vec![lines(path)];
    items.extend(gang_figure(gangs, Point::new(0.55 * M, 1.3 * M)));
    items
}
