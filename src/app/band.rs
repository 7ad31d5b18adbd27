//! The rubber band: everything whose symbol it holds is chosen.

use kurbo::{Point, Rect, Shape as _};

use super::desk::Desk;
use super::sketch::{Sketch, Touch};

/// A band between two places of the plan, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Band {
    from: Point,
    to: Point,
    /// Whether what was chosen before stays chosen.
    also: bool,
}

/// How far a press must move before it is a band, pixels.
const SLACK: f64 = 4.0;

impl Band {
    /// A band that begins here.
    pub(super) const fn at(from: Point, also: bool) -> Self {
        Self { from, to: from, also }
    }
}

impl Desk {
    /// The band follows the pointer; false where there is none.
    pub(super) fn stretch(&mut self, at: Point) -> bool {
        self.at_hand.band.as_mut().map(|band| band.to = at).is_some()
    }

    /// The band is let go: what it holds is chosen. False where there is none.
    pub(super) fn let_band_go(&mut self) -> bool {
        let Some(band) = self.at_hand.band.take() else { return false };
        if band.from.distance(band.to) < self.camera.reach(SLACK) {
            // A click: what it chose stays chosen.
            return true;
        }
        if !band.also {
            self.chosen.clear();
        }
        let (from, to) = (self.camera.screen(band.from), self.camera.screen(band.to));
        let around = Rect::from_points(from, to);
        let symbols = self.picture.iter().flat_map(|picture| picture.symbols());
        let held = symbols
            .filter(|(_, symbol)| around.contains(self.camera.paper(symbol.center())))
            .map(|(subject, _)| subject);
        self.chosen.extend(held);
        true
    }

    /// The band as it is drawn.
    pub(super) fn band_sketch(&self, sketch: &mut Sketch) {
        let Some(band) = self.at_hand.band else { return };
        let (from, to) = (self.camera.screen(band.from), self.camera.screen(band.to));
        sketch.lines.push((Rect::from_points(from, to).to_path(0.2), Touch::Guide));
    }
}
