//! Pins that are there: chosen by a click or by key, dragged, nudged, taken
//! away one by one.

use kurbo::{Point, Vec2};
use wirewend::plan::{Change, Circuit, Edit, End, Pin, Plan};
use wirewend::units::Point2;

use super::at_hand::LegKey;
use super::camera::{exact, rounded};
use super::desk::Desk;
use super::keys::Step;
use super::pins::{insert, is_of};
use super::reshape::{Part, Reshape};
use super::sketch::{Sketch, Touch};

/// How near is near, pixels.
const REACH: f64 = 9.0;

/// A pin by its leg and its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct PinKey {
    pub(super) leg: LegKey,
    pub(super) at: Point2,
}

impl PinKey {
    /// The pins of its circuit without it; the void that it lies in. None: it
    /// is gone.
    fn without(self, plan: &Plan) -> Option<(Circuit, wirewend::plan::VoidId)> {
        let mut circuit = plan.circuits.get(&self.leg.circuit)?.clone();
        let pin = circuit.pins.iter_mut().find(|pin| is_of(pin, self.leg))?;
        let index = pin.through.iter().position(|place| place.at == self.at)?;
        let void = pin.through.remove(index).void;
        circuit.pins.retain(|pin| !pin.through.is_empty());
        Some((circuit, void))
    }

    /// The edit that puts it elsewhere: between the pins where the detour is
    /// least.
    pub(super) fn moved(self, plan: &Plan, to: Point2) -> Result<Edit, String> {
        let (mut circuit, void) = self.without(plan).ok_or("the pin is gone")?;
        let place = wirewend::plan::PinPlace { void, at: to };
        let seen = |end: End| {
            let at = plan.place_of(end).and_then(|place| plan.position(&place));
            at.map_or(to, |at| at.on_floor())
        };
        match circuit.pins.iter_mut().find(|pin| is_of(pin, self.leg)) {
            Some(pin) => {
                let ends = (seen(pin.from), seen(pin.to));
                insert(&mut pin.through, place, ends);
            }
            None => {
                let (from, to) = (self.leg.from, self.leg.to);
                circuit.pins.push(Pin { from, to, through: vec![place] });
            }
        }
        Ok(Change::Put(self.leg.circuit, circuit).into())
    }
}

impl Desk {
    /// The pins that are shown: where legs are worked on, those of the circuits
    /// that are shown, in the voids over and under the level.
    fn pins_shown(&self) -> Vec<PinKey> {
        let level = self.level.and_then(|level| self.plan.levels.get(&level));
        let (Some(level), Step::Circuits | Step::Runs) = (level, self.step) else {
            return Vec::new();
        };
        let shown = |id| self.circuit.is_none_or(|open| open == id);
        let circuits = self.plan.circuits.iter().filter(|(id, _)| shown(**id));
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
        let picture = self.picture.as_ref();
        let runs = |leg: LegKey| picture.is_some_and(|picture| leg.find(picture).is_some());
        if runs(turned) { turned } else { leg }
    }

    /// The pin under a place.
    fn pin_under(&self, at: Point) -> Option<PinKey> {
        let reach = self.camera.reach(REACH);
        let away = |pin: &PinKey| exact(pin.at).distance(at);
        let near = self.pins_shown().into_iter().filter(|pin| away(pin) <= reach);
        near.min_by(|one, other| away(one).total_cmp(&away(other)))
    }

    /// Takes the pin under a place into the hand; false where none is there.
    pub(super) fn pick_pin(&mut self, at: Point) -> bool {
        self.at_hand.pin = self.pin_under(at);
        let Some(pin) = self.at_hand.pin else { return false };
        self.choose_pin(pin);
        let (part, from, says) = (Part::Pin(pin), at, String::new());
        self.survey.reshape = Some(Reshape { part, from, edit: None, says, snap: None });
        true
    }

    fn choose_pin(&mut self, pin: PinKey) {
        self.chosen.clear();
        self.at_hand.pin = Some(pin);
        self.at_hand.leg = Some(pin.leg);
        self.said = "a pin: drag it, Delete takes it away".to_owned();
    }

    /// Chooses the next pin that is shown.
    pub(super) fn next_pin(&mut self) {
        if !matches!(self.step, Step::Circuits | Step::Runs) {
            self.go_step(Step::Runs);
        }
        let all = self.pins_shown();
        let now = all.iter().position(|pin| Some(*pin) == self.at_hand.pin);
        match all.get(now.map_or(0, |now| (now + 1) % all.len().max(1))) {
            Some(pin) => self.choose_pin(*pin),
            None => self.said = "no pin is shown here; Y sets one on the chosen leg".to_owned(),
        }
    }

    /// Where a pin goes that is dragged: to the step.
    pub(super) fn pin_to(&self, pin: PinKey, at: Point) -> Result<(Edit, String), String> {
        let even = |value: f64| libm::round(value / 50.0) * 50.0;
        let to = rounded(Point::new(even(at.x), even(at.y)));
        Ok((pin.moved(&self.plan, to)?, "passes here".to_owned()))
    }

    /// The chosen pin goes to where an edit has put it.
    pub(super) fn pin_went(&mut self, at: Point) {
        let Some(pin) = self.at_hand.pin else { return };
        let near = self.pins_shown().into_iter().filter(|one| one.leg == pin.leg);
        let away = |pin: &PinKey| exact(pin.at).distance(at);
        self.at_hand.pin = near.min_by(|one, other| away(one).total_cmp(&away(other)));
    }

    /// Moves the chosen pin; false where none is chosen.
    pub(super) fn nudge_pin(&mut self, by: Vec2) -> bool {
        let Some(pin) = self.at_hand.pin else { return false };
        let to = exact(pin.at) + by;
        match pin.moved(&self.plan, rounded(to)) {
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
    pub(super) fn delete_pin(&mut self) -> bool {
        let Some(pin) = self.at_hand.pin.take() else { return false };
        let Some((circuit, _)) = pin.without(&self.plan) else { return false };
        if self.edit(Change::Put(pin.leg.circuit, circuit).into()) {
            self.said = "the pin is gone".to_owned();
        }
        true
    }

    /// The pins that are shown, the chosen one strongest.
    pub(super) fn pins_sketch(&self, sketch: &mut Sketch) {
        let over = self.pointer.and_then(|at| self.pin_under(at));
        for pin in self.pins_shown() {
            let spot = self.camera.screen_of(pin.at);
            let touch = match Some(pin) {
                one if one == self.at_hand.pin => Touch::New,
                one if one == over => Touch::Chosen,
                _ => Touch::Over,
            };
            sketch.ring(spot, 6.0, touch);
            sketch.ring(spot, 1.5, touch);
        }
    }
}
