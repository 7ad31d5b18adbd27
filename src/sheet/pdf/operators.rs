//! The operators of PDF that a drawing takes, as bytes.
//!
//! What is set already is not set again: most lines are drawn as the one
//! before them.

use kurbo::{BezPath, PathEl, Point};

use crate::sheet::digits::Digits;
use crate::sheet::scene::Stroke;
use crate::sheet::{Ink, svg};

/// A stream of operators.
#[derive(Debug, Default)]
pub(super) struct Operators {
    text: Vec<u8>,
    fill: Option<Ink>,
    stroke: Option<Stroke>,
    /// The font by its name and its size.
    font: Option<(&'static str, f64)>,
}

impl Operators {
    /// The bytes.
    pub(super) fn finish(self) -> Vec<u8> {
        self.text
    }

    /// An operator behind its numbers.
    pub(super) fn op(&mut self, numbers: &[f64], operator: &str) {
        for number in numbers {
            svg::push_number(&mut self.text, *number);
            self.text.push(b' ');
        }
        self.text.extend_from_slice(operator.as_bytes());
        self.text.push(b'\n');
    }

    /// The same, numbers to six decimals: for what others are multiplied by.
    pub(super) fn fine_op(&mut self, numbers: &[f64], operator: &str) {
        for number in numbers {
            Digits::short::<6>(*number).end(&mut self.text);
            self.text.push(b' ');
        }
        self.text.extend_from_slice(operator.as_bytes());
        self.text.push(b'\n');
    }

    /// Another stream, drawn with the settings at hand.
    pub(super) fn form(&mut self, name: &str) {
        self.text.push(b'/');
        self.text.extend_from_slice(name.as_bytes());
        self.text.extend_from_slice(b" Do\n");
    }

    pub(super) fn fill(&mut self, ink: Ink) {
        if self.fill.replace(ink) != Some(ink) {
            self.colour(ink, "rg");
        }
    }

    pub(super) fn stroke(&mut self, stroke: Stroke) {
        let before = self.stroke.replace(stroke);
        if before.is_none_or(|one| one.ink != stroke.ink) {
            self.colour(stroke.ink, "RG");
        }
        let same_width = before.is_some_and(|one| one.width.total_cmp(&stroke.width).is_eq());
        if !same_width {
            self.op(&[stroke.width], "w");
        }
        if before.is_none_or(|one| one.pattern != stroke.pattern) || !same_width {
            self.text.push(b'[');
            for dash in stroke.pattern.dashes(stroke.width) {
                svg::push_number(&mut self.text, dash);
                self.text.push(b' ');
            }
            self.text.extend_from_slice(b"] 0 d\n");
        }
    }

    fn colour(&mut self, ink: Ink, operator: &str) {
        let [red, green, blue] = [ink.red, ink.green, ink.blue].map(|part| f64::from(part) / 255.0);
        self.fine_op(&[red, green, blue].map(thousandths), operator);
    }

    pub(super) fn font(&mut self, name: &'static str, size: f64) {
        let known = self.font.is_some_and(|one| one.0 == name && one.1.total_cmp(&size).is_eq());
        if !known {
            self.font = Some((name, size));
            self.text.push(b'/');
            self.text.extend_from_slice(name.as_bytes());
            self.text.push(b' ');
            self.fine_op(&[thousandths(size)], "Tf");
        }
    }

    /// Glyphs by their numbers, two bytes each.
    pub(super) fn show(&mut self, glyphs: &[u8]) {
        const DIGITS: &[u8; 16] = b"0123456789ABCDEF";
        self.text.push(b'<');
        for byte in glyphs {
            for digit in [byte >> 4, byte & 15] {
                self.text.push(DIGITS[usize::from(digit)]);
            }
        }
        self.text.extend_from_slice(b">Tj\n");
    }

    pub(super) fn path(&mut self, path: &BezPath) {
        let mut last = Point::ZERO;
        for element in path.elements() {
            match *element {
                PathEl::MoveTo(to) => self.op(&[to.x, to.y], "m"),
                PathEl::LineTo(to) => self.op(&[to.x, to.y], "l"),
                PathEl::QuadTo(a, to) => {
                    let (one, two) = (last.lerp(a, 2.0 / 3.0), to.lerp(a, 2.0 / 3.0));
                    self.op(&[one.x, one.y, two.x, two.y, to.x, to.y], "c");
                }
                PathEl::CurveTo(a, b, to) => self.op(&[a.x, a.y, b.x, b.y, to.x, to.y], "c"),
                PathEl::ClosePath => self.text.extend_from_slice(b"h\n"),
            }
            last = element.end_point().unwrap_or(last);
        }
    }
}

fn thousandths(value: f64) -> f64 {
    libm::round(value * 1000.0) / 1000.0
}
