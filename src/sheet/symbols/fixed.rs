//! Fixed appliances: a box with the letters of the kind; fans have blades.

use kurbo::{BezPath, Point, Rect};

use super::{Lettering, M, Symbol, filled, letters, lines, shape};
use crate::sheet::pen;

/// Any fixed appliance, by its letters.
pub(super) fn appliance(code: &str) -> Symbol {
    let half = 1.3 * M;
    let case = pen::rect(Rect::new(-half, 0.7 * M, half, 2.9 * M));
    let items = vec![
        lines(pen::line((0.0, 0.0), (0.0, 0.7 * M))),
        shape(case),
        letters(code, Point::new(0.0, 1.8 * M), Lettering::Tag),
    ];
    Symbol { items, centred: false }
}

/// An exhaust fan: two opposite blades in a circle.
pub(super) fn fan() -> Symbol {
    let mut blade = BezPath::new();
    blade.move_to((0.0, 0.0));
    blade.curve_to((0.25 * M, -0.6 * M), (0.85 * M, -0.5 * M), (0.8 * M, 0.0));
    blade.curve_to((0.75 * M, 0.3 * M), (0.3 * M, 0.25 * M), (0.0, 0.0));
    blade.close_path();
    let other = kurbo::Affine::new([-1.0, 0.0, 0.0, -1.0, 0.0, 0.0]) * blade.clone();
    let items = vec![shape(pen::circle((0.0, 0.0), M)), filled(blade), filled(other)];
    Symbol { items, centred: true }
}
