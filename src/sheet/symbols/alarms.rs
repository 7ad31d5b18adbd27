//! Alarms: a square with two letters.

use kurbo::{Point, Rect};

use super::{Lettering, M, Symbol, letters, shape};
use crate::sheet::pen;

/// A smoke alarm.
pub(super) fn smoke() -> Symbol {
    lettered("SA")
}

/// A heat alarm.
pub(super) fn heat() -> Symbol {
    lettered("HA")
}

fn lettered(code: &str) -> Symbol {
    let square = pen::rect(Rect::new(-M, -M, M, M));
    Symbol {
        items: vec![shape(square), letters(code, Point::ORIGIN, Lettering::Tag)],
        centred: true,
    }
}
