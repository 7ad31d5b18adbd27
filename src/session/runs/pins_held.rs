//! Pins that are there: chosen by a click or by key, dragged, nudged, taken
//! away one by one.

use kurbo::{Point, Vec2};

use crate::plan::{Change, Edit};
use crate::session::Session;
use crate::session::ground::places::{exact, rounded};
use crate::session::state::{LegKey, Part, PinKey, Reshape, Sketch, Step, Touch};

/// How near is near, pixels.
const REACH: f64 = 9.0;

impl Session {
    /// The pins that are shown: where legs are worked on, those of the circuits
    /// that are shown, in the voids over and under the level.
    fn pins_shown(&self) -> Vec<PinKey> {
        let level = self.sight.level().and_then(|level| self.document.plan().levels.get(&level));
        let (Some(level), Step::Circuits | Step::Runs) = (level, self.sight.step()) else {
            return Vec::new();
        };
        let shown = |id| self.selection.circuit().is_none_or(|open| open == id);
        let circuits = self.document.plan().circuits.iter().filter(|(id, _)| shown(**id));
        let pins = circuits.flat_map(|(id, circuit)| circuit.pins.iter().map(|pin| (*id, pin)));
        let places = pins.flat_map(|(circuit, pin)| {
            let leg = LegKey { circuit, from: pin.from, to: pin.to };
            let leg = self.known(leg);
            pin.through.iter().map(move |place| (place.void, PinKey { leg, at: place.at }))
        });
        let here = |void| level.above.contains(&void) || level.below.contains(&void);
        places.filter(|(void, _)| here(*void)).map(|(_, pin)| pin).collect()
    }

    /// A leg as it runs now, whichever way round its pins were set.
    fn known(&self, leg: LegKey) -> LegKey {
        let turned = LegKey { from: leg.to, to: leg.from, ..leg };
        let picture = self.jobs.picture();
        let runs = |leg: LegKey| picture.is_some_and(|picture| leg.find(picture).is_some());
        if runs(turned) { turned } else { leg }
    }

    /// The pin under a place.
    fn pin_under(&self, at: Point) -> Option<PinKey> {
        let reach = self.sight.camera().reach(REACH);
        let away = |pin: &PinKey| exact(pin.at).distance(at);
        let near = self.pins_shown().into_iter().filter(|pin| away(pin) <= reach);
        near.min_by(|one, other| away(one).total_cmp(&away(other)))
    }

    /// Takes the pin under a place into the hand; false where none is there.
    pub(crate) fn pick_pin(&mut self, at: Point) -> bool {
        self.selection.choose_pin(self.pin_under(at));
        let Some(pin) = self.selection.pin() else { return false };
        self.choose_pin(pin);
        let (part, from, says) = (Part::Pin(pin), at, String::new());
        self.hand.drawing.reshape = Some(Reshape { part, from, edit: None, says, snap: None });
        true
    }

    fn choose_pin(&mut self, pin: PinKey) {
        self.selection.clear();
        self.selection.choose_pin(Some(pin));
        self.selection.choose_leg(Some(pin.leg));
        self.said = "a pin: drag it, Delete takes it away".to_owned();
    }

    /// Chooses the next pin that is shown.
    pub fn next_pin(&mut self) {
        if !matches!(self.sight.step(), Step::Circuits | Step::Runs) {
            self.go_step(Step::Runs);
        }
        let all = self.pins_shown();
        let now = all.iter().position(|pin| Some(*pin) == self.selection.pin());
        match all.get(now.map_or(0, |now| (now + 1) % all.len().max(1))) {
            Some(pin) => self.choose_pin(*pin),
            None => self.said = "no pin is shown here; Y sets one on the chosen leg".to_owned(),
        }
    }

    /// Where a pin goes that is dragged: to the step.
    pub(crate) fn pin_to(&self, pin: PinKey, at: Point) -> Result<(Edit, String), String> {
        let even = |value: f64| libm::round(value / 50.0) * 50.0;
        let to = rounded(Point::new(even(at.x), even(at.y)));
        Ok((pin.moved(self.document.plan(), to)?, "passes here".to_owned()))
    }

    /// The chosen pin goes to where an edit has put it.
    pub(crate) fn pin_went(&mut self, at: Point) {
        let Some(pin) = self.selection.pin() else { return };
        let near = self.pins_shown().into_iter().filter(|one| one.leg == pin.leg);
        let away = |pin: &PinKey| exact(pin.at).distance(at);
        self.selection.choose_pin(near.min_by(|one, other| away(one).total_cmp(&away(other))));
    }

    /// Moves the chosen pin; false where none is chosen.
    pub fn nudge_pin(&mut self, by: Vec2) -> bool {
        let Some(pin) = self.selection.pin() else { return false };
        let to = exact(pin.at) + by;
        match pin.moved(self.document.plan(), rounded(to)) {
            Ok(edit) => {
                if self.edit(edit) {
                    self.pin_went(to);
                }
            }
            Err(why) => self.said = why,
        }
        true
    }

    /// Takes the chosen pin away; false where none is chosen.
    pub(crate) fn delete_pin(&mut self) -> bool {
        let Some(pin) = self.selection.pin() else { return false };
        self.selection.choose_pin(None);
        let Some((circuit, _)) = pin.without(self.document.plan()) else { return false };
        if self.edit(Change::Put(pin.leg.circuit, circuit).into()) {
            self.said = "the pin is gone".to_owned();
        }
        true
    }

    /// The pins that are shown. They have a sheet of their own: with what moves
    /// they would have all that lies between them painted anew.
    pub fn still_pins(&self) -> Sketch {
        let mut sketch = Sketch::default();
        for pin in self.pins_shown() {
            let spot = self.sight.camera().screen_of(pin.at);
            sketch.ring(spot, 6.0, Touch::Over);
            sketch.ring(spot, 1.5, Touch::Over);
        }
        sketch
    }

    /// The pin that is chosen and the one under the pointer.
    pub(crate) fn pins_sketch(&self, sketch: &mut Sketch) {
        let over = self.hand.pointer().and_then(|at| self.pin_under(at));
        let shown = |pin: &PinKey| self.pins_shown().contains(pin);
        for (pin, touch) in [(self.selection.pin(), Touch::New), (over, Touch::Chosen)] {
            if let Some(pin) = pin.filter(shown) {
                sketch.ring(self.sight.camera().screen_of(pin.at), 6.0, touch);
            }
        }
    }
}
