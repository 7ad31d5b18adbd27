//! The edge that something on a wall is set out from, lit, and the distance
//! from it.

use kurbo::Vec2;

use crate::plan::{OnWall, Place};
use crate::session::Session;
use crate::session::ground::corners::{self, Offset};
use crate::session::state::{Sketch, Touch};

/// How far before the face the distance is drawn, pixels.
const BEFORE: f64 = 16.0;

impl Session {
    /// For the one point or board that is chosen, where it is on a wall.
    pub(crate) fn set_out_sketch(&self, sketch: &mut Sketch) {
        let ends = self.chosen_ends();
        let ([end], 1) = (ends.as_slice(), self.selection.chosen().len()) else { return };
        let Some(place @ Place::Wall(on)) = self.document.plan().place_of(*end) else { return };
        if self.hand.hold().is_some() || self.document.plan().level_of(&place) != self.sight.level()
        {
            return;
        }
        if let Some(offset) = corners::offset(self.document.plan(), &on) {
            self.lit_edge(&on, &offset, Touch::Chosen, sketch);
            if let (Some(from), Some(to)) = (
                corners::seen(self.document.plan(), &offset.at),
                corners::seen(self.document.plan(), &on),
            ) {
                let middle = self.sight.camera().screen_of(from.on_floor());
                let middle = middle.midpoint(self.sight.camera().screen_of(to.on_floor()));
                let says = self.sight.measure().show(offset.away);
                sketch.labels.push((middle + self.before(&on), says));
            }
        }
    }

    /// The edge as a ring, and from it to the place a dimension line.
    pub(crate) fn lit_edge(&self, on: &OnWall, offset: &Offset, touch: Touch, sketch: &mut Sketch) {
        let seen = |on: &OnWall| {
            let at = corners::seen(self.document.plan(), on)?;
            Some(self.sight.camera().screen_of(at.on_floor()))
        };
        let (Some(from), Some(to)) = (seen(&offset.at), seen(on)) else { return };
        let before = self.before(on);
        sketch.ring(from, 5.0, touch);
        sketch.line(from, from + before, Touch::Guide);
        sketch.line(to, to + before, Touch::Guide);
        sketch.line(from + before, to + before, touch);
    }

    /// Out of the face of a wall, on the screen.
    fn before(&self, on: &OnWall) -> Vec2 {
        let Some(wall) = self.document.plan().walls.get(&on.wall) else { return Vec2::ZERO };
        let (x, y) = wall.normal(on.face);
        Vec2::new(x, -y) * BEFORE
    }
}
