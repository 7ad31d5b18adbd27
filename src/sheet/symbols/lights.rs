//! Luminaires: a cross in a circle, smaller for downlights, long for battens.

use super::{M, Symbol, cross, filled, lines, shape};
use crate::sheet::pen;

/// On the ceiling.
pub(super) fn luminaire() -> Symbol {
    Symbol { items: vec![shape(pen::circle((0.0, 0.0), M)), lines(cross(M))], centred: true }
}

/// Set into the ceiling: a smaller circle with a filled middle.
pub(super) fn downlight() -> Symbol {
    let items = vec![
        shape(pen::circle((0.0, 0.0), 0.65 * M)),
        lines(cross(0.65 * M)),
        filled(pen::circle((0.0, 0.0), 0.25 * M)),
    ];
    Symbol { items, centred: true }
}

/// On a wall: on a short stem.
pub(super) fn wall_light() -> Symbol {
    let centre = kurbo::Affine::translate((0.0, 1.3 * M));
    let items = vec![
        lines(pen::line((0.0, 0.0), (0.0, 0.5 * M))),
        shape(centre * pen::circle((0.0, 0.0), 0.8 * M)),
        lines(centre * cross(0.8 * M)),
    ];
    Symbol { items, centred: false }
}

/// A batten: a bar with upturned ends.
pub(super) fn linear() -> Symbol {
    let mut path = pen::line((-1.6 * M, 0.0), (1.6 * M, 0.0));
    path.extend(pen::line((-1.6 * M, -0.4 * M), (-1.6 * M, 0.4 * M)));
    path.extend(pen::line((1.6 * M, -0.4 * M), (1.6 * M, 0.4 * M)));
    let paper = pen::rect(kurbo::Rect::new(-1.6 * M, -0.3 * M, 1.6 * M, 0.3 * M));
    let items = vec![super::Mark::area(paper, super::Ink::WHITE).into(), lines(path)];
    Symbol { items, centred: true }
}
