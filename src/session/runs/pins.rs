//! Legs on the sheet, and pins: places in a void that a leg must pass.

use kurbo::{Line, ParamCurveNearest as _, Point};

use crate::plan::{Change, Circuit, Edit, Pin, PinPlace, Plane, VoidId};
use crate::runs::Leg;
use crate::session::Session;
use crate::session::ground::places::{exact, rounded};
use crate::session::state::{LegKey, Sketch, Step, Tool, Touch, insert, is_of};
use crate::session::work::Picture;
use crate::units::Point2;

/// How near is near, pixels.
const REACH: f64 = 9.0;

impl Session {
    /// Chooses the leg under a place where legs are worked on; false where
    /// none is there.
    pub(crate) fn pick_leg(&mut self, at: Point) -> bool {
        if !matches!(self.sight.step(), Step::Circuits | Step::Runs) {
            return false;
        }
        let found = self.jobs.picture().and_then(|picture| self.leg_under(picture, at));
        self.selection.choose_leg(found);
        if let Some(leg) = found {
            self.selection.clear();
            if self.selection.circuit().is_some_and(|open| open != leg.circuit) {
                self.choose_circuit(Some(leg.circuit));
            }
        }
        found.is_some()
    }

    /// The leg that is drawn nearest to a place.
    fn leg_under(&self, picture: &Picture, at: Point) -> Option<LegKey> {
        let level = picture.plan.levels.get(&self.sight.level()?)?;
        let reach = self.sight.camera().reach(REACH);
        let shown = picture
            .runs
            .circuits
            .iter()
            .filter(|(id, _)| self.selection.circuit().is_none_or(|open| open == **id));
        let legs = shown.flat_map(|(_, run)| &run.legs);
        let near = legs.filter_map(|leg| {
            let parts = leg.route.segments.iter().filter(|part| {
                let z = part.from.z;
                z >= level.floor - crate::session::work::VOID
                    && z <= level.ceiling() + crate::session::work::VOID
            });
            let away = parts.map(|part| {
                let line = Line::new(exact(part.from.on_floor()), exact(part.to.on_floor()));
                line.nearest(at, 1.0).distance_sq
            });
            let away = away.min_by(f64::total_cmp)?;
            (away <= reach * reach).then_some((away, LegKey::of(leg)))
        });
        near.min_by(|one, other| one.0.total_cmp(&other.0)).map(|(_, leg)| leg)
    }

    /// Pins the chosen leg to a place; without one, chooses the leg there.
    pub(crate) fn pin(&mut self, at: Point) {
        let Some(picture) = self.jobs.picture().cloned() else { return };
        let Some((_, leg)) = self.chosen_leg(&picture) else {
            self.selection.choose_leg(self.leg_under(&picture, at));
            self.said = match self.selection.leg() {
                Some(_) => "now click where it must pass".to_owned(),
                None => "click the leg first, then where it must pass".to_owned(),
            };
            return;
        };
        let Some(void) = self.void_for(leg, at) else {
            self.said = "no void to pin it in: pins lie in ceilings, roofs and floors".to_owned();
            return;
        };
        let even = |value: f64| libm::round(value / 50.0) * 50.0;
        let place = PinPlace { void, at: rounded(Point::new(even(at.x), even(at.y))) };
        let key = LegKey::of(leg);
        let Some(circuit) = self.document.plan().circuits.get(&key.circuit) else { return };
        let mut with = circuit.clone();
        let ends = self.ends_of(leg);
        match with.pins.iter_mut().find(|pin| is_of(pin, key)) {
            Some(pin) => {
                let turned = pin.from == key.to;
                let ends = if turned { (ends.1, ends.0) } else { ends };
                insert(&mut pin.through, place, ends);
            }
            None => with.pins.push(Pin { from: key.from, to: key.to, through: vec![place] }),
        }
        // Otherwise a leg that has become dear would be left out.
        let kept = with.order.is_empty();
        if kept && let Some(order) = self.order_now(key.circuit) {
            with.order = order;
        }
        if self.edit(Change::Put(key.circuit, with).into()) {
            self.said = if kept {
                "pinned, and the order stays as it is; drag the pin, or Delete takes it away"
                    .to_owned()
            } else {
                "pinned; drag the pin, Shift+Y takes all pins of this leg away".to_owned()
            };
        }
    }

    /// Takes the pins of the chosen leg away.
    pub fn unpin(&mut self) {
        let Some(key) = self.selection.leg() else {
            self.said = "click a leg first".to_owned();
            return;
        };
        let Some(circuit) = self.document.plan().circuits.get(&key.circuit) else { return };
        let pins: Vec<Pin> = circuit.pins.iter().filter(|pin| !is_of(pin, key)).cloned().collect();
        if pins.len() == circuit.pins.len() {
            self.said = "this leg has no pins".to_owned();
            return;
        }
        let edit: Edit = Change::Put(key.circuit, Circuit { pins, ..circuit.clone() }).into();
        self.edit(edit);
    }

    /// The void that a pin at a place belongs to: that of the part of the leg
    /// which is nearest, or the first one over the level.
    fn void_for(&self, leg: &Leg, at: Point) -> Option<VoidId> {
        let in_voids = leg.route.segments.iter().filter_map(|part| {
            let Some(Plane::Void(void)) = part.plane else { return None };
            let line = Line::new(exact(part.from.on_floor()), exact(part.to.on_floor()));
            Some((line.nearest(at, 1.0).distance_sq, void))
        });
        let nearest = in_voids.min_by(|one, other| one.0.total_cmp(&other.0));
        let level = self.sight.level().and_then(|level| self.document.plan().levels.get(&level));
        let near =
            |level: &crate::plan::Level| level.above.first().or(level.below.first()).copied();
        nearest.map(|(_, void)| void).or_else(|| level.and_then(near))
    }

    fn ends_of(&self, leg: &Leg) -> (Point2, Point2) {
        let seen = |end| {
            let place = self.document.plan().place_of(end);
            let at = place.and_then(|place| self.document.plan().position(&place));
            at.map_or(Point2::new(0, 0), |at| at.on_floor())
        };
        (seen(leg.from), seen(leg.to))
    }

    /// The chosen leg.
    pub(crate) fn leg_sketch(&self, sketch: &mut Sketch) {
        let Some(picture) = self.jobs.picture() else { return };
        let Some((_, leg)) = self.chosen_leg(picture) else { return };
        for part in &leg.route.segments {
            let (from, to) = (part.from.on_floor(), part.to.on_floor());
            if from != to {
                let (from, to) =
                    (self.sight.camera().screen_of(from), self.sight.camera().screen_of(to));
                sketch.line(from, to, Touch::Chosen);
            }
        }
    }

    /// What the pin would do.
    pub(crate) fn pin_sketch(&self, sketch: &mut Sketch, at: Point) {
        debug_assert!(self.hand.tool() == Tool::Pin, "only while pins are set");
        let says = if self.selection.leg().is_some() { "passes here" } else { "which leg?" };
        let spot = self.sight.camera().screen(at);
        sketch.ring(spot, 6.0, Touch::New);
        sketch.labels.push((spot, says.to_owned()));
    }
}
