//! Marks of what happens to a wall: a band where it is opened, a dot where a
//! cable passes inside.

use kurbo::{Point, Vec2};

use crate::sheet::scene::{Item, Mark, Stroke};
use crate::sheet::{Ink, pen};

/// How wide the band over an opened wall is, mm, and how large its marks are.
const BAND: f64 = 2.2;
const GROUND: Ink = Ink::of(150, 150, 150);

/// A band over what is opened, square at its ends; a square where it goes
/// straight up.
pub(super) fn band(from: Point, to: Point) -> Item {
    let along = to - from;
    let ahead = if pen::length(along) < 1e-6 { Vec2::new(1.0, 0.0) } else { pen::unit(along) };
    let (ahead, aside) = (ahead * (BAND / 2.0), ahead.turn_90() * (BAND / 2.0));
    let corners =
        [from - ahead - aside, to + ahead - aside, to + ahead + aside, from - ahead + aside];
    let stroke = Some(Stroke::solid(Ink::BLACK, 0.18));
    Mark { path: pen::polygon(&corners), fill: Some(GROUND), stroke }.into()
}

/// A dot where a cable passes inside.
pub(super) fn pass(at: Point) -> Item {
    let stroke = Some(Stroke::solid(Ink::WHITE, 0.25));
    Mark { path: pen::circle(at, 0.75), fill: Some(Ink::BLACK), stroke }.into()
}
