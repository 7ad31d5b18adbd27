//! The pairs of code and value that a file is made of, and where they lie.

use kurbo::{Point, Rect};

use super::colour::colour;
use crate::sheet::Ink;
use crate::sheet::digits::Digits;

/// Where what is written next lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Space {
    /// With the building, in its own coordinates.
    Model,
    /// On the sheet that shows it.
    Paper,
}

/// A file as it grows.
pub(super) struct File {
    pub(super) bytes: Vec<u8>,
    /// Millimetres of the model to one of the paper.
    pub(super) grow: f64,
    /// The place on the scene's paper where the model has its origin.
    origin: Point,
    /// The height of the paper, mm.
    height: f64,
    space: Space,
    /// What puts a thing on the layer and in the space at hand.
    layer: Vec<u8>,
}

impl File {
    pub(super) fn new(grow: f64, origin: Point, height: f64) -> Self {
        let (bytes, layer) = (Vec::with_capacity(1 << 18), Vec::new());
        Self { bytes, grow, origin, height, space: Space::Model, layer }
    }

    pub(super) fn pair(&mut self, code: u16, value: &str) {
        self.code(code);
        // All but letterings are plain, and of those signs are one byte each.
        if value.is_ascii() {
            self.bytes.extend_from_slice(value.as_bytes());
        } else {
            self.bytes.extend(value.chars().map(|sign| u8::try_from(sign).unwrap_or(b'?')));
        }
        self.bytes.extend_from_slice(b"\r\n");
    }

    pub(super) fn pairs(&mut self, pairs: &[(u16, &str)]) {
        for (code, value) in pairs {
            self.pair(*code, value);
        }
    }

    fn code(&mut self, code: u16) {
        Digits::whole(u32::from(code)).end(&mut self.bytes);
        self.bytes.extend_from_slice(b"\r\n");
    }

    pub(super) fn number(&mut self, code: u16, value: f64) {
        self.code(code);
        Digits::fixed::<3>(value).end(&mut self.bytes);
        self.bytes.extend_from_slice(b"\r\n");
    }

    /// The layer and the space of what follows.
    pub(super) fn layer(&mut self, name: &str, space: Space) {
        self.space = space;
        self.layer.clear();
        self.layer.extend_from_slice(b"8\r\n");
        self.layer.extend_from_slice(name.as_bytes());
        self.layer.extend_from_slice(b"\r\n");
        if space == Space::Paper {
            self.layer.extend_from_slice(b"67\r\n1\r\n");
        }
    }

    pub(super) const fn space(&self) -> Space {
        self.space
    }

    /// How much larger than on paper things are in the space at hand.
    pub(super) const fn times(&self) -> f64 {
        match self.space {
            Space::Model => self.grow,
            Space::Paper => 1.0,
        }
    }

    /// A place of the scene in the space at hand.
    pub(super) fn there(&self, at: Point) -> Point {
        match self.space {
            Space::Model => {
                Point::new((at.x - self.origin.x) * self.grow, (self.origin.y - at.y) * self.grow)
            }
            Space::Paper => Point::new(at.x, self.height - at.y),
        }
    }

    /// A box of the scene in the space at hand.
    pub(super) fn box_there(&self, rect: Rect) -> Rect {
        let (left, right) = (self.there(rect.origin()), self.there((rect.x1, rect.y1).into()));
        Rect::from_points(left, right)
    }

    /// A place of the scene under a code and the one ten higher.
    pub(super) fn place(&mut self, code: u16, at: Point) {
        let at = self.there(at);
        self.number(code, at.x);
        self.number(code + 10, at.y);
    }

    pub(super) fn on_layer(&mut self) {
        self.bytes.extend_from_slice(&self.layer);
    }

    /// Begins a thing of a kind, on the layer at hand.
    pub(super) fn begin(&mut self, kind: &str, ink: Ink) {
        self.pair(0, kind);
        self.on_layer();
        self.code(62);
        Digits::whole(u32::from(colour(ink))).end(&mut self.bytes);
        self.bytes.extend_from_slice(b"\r\n");
    }
}
