//! Legs on the sheet, and pins: places in a void that a leg must pass.

use kurbo::{Line, ParamCurveNearest as _, Point};
use wirewend::plan::{Change, Circuit, Edit, Pin, PinPlace, Plane, Subject, VoidId};
use wirewend::runs::Leg;
use wirewend::units::Point2;

use super::at_hand::LegKey;
use super::camera::{exact, rounded};
use super::desk::Desk;
use super::keys::{Step, Tool};
use super::sketch::{Sketch, Touch};
use super::work::Picture;

/// How near is near, pixels.
const REACH: f64 = 9.0;

impl Desk {
    /// Chooses the leg under a place where legs are worked on; false where
    /// none is there.
    pub(super) fn pick_leg(&mut self, at: Point) -> bool {
        if !matches!(self.step, Step::Circuits | Step::Runs) {
            return false;
        }
        let found = self.picture.as_ref().and_then(|picture| self.leg_under(picture, at));
        self.at_hand.leg = found;
        if let Some(leg) = found {
            self.chosen.clear();
            if self.circuit.is_some_and(|open| open != leg.circuit) {
                self.choose_circuit(Some(leg.circuit));
            }
        }
        found.is_some()
    }

    /// The leg that is drawn nearest to a place.
    fn leg_under(&self, picture: &Picture, at: Point) -> Option<LegKey> {
        let level = picture.plan.levels.get(&self.level?)?;
        let reach = self.camera.reach(REACH);
        let shown = picture
            .runs
            .circuits
            .iter()
            .filter(|(id, _)| self.circuit.is_none_or(|open| open == **id));
        let legs = shown.flat_map(|(_, run)| &run.legs);
        let near = legs.filter_map(|leg| {
            let parts = leg.route.segments.iter().filter(|part| {
                let z = part.from.z;
                z >= level.floor - super::work::VOID && z <= level.ceiling() + super::work::VOID
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
    pub(super) fn pin(&mut self, at: Point) {
        let Some(picture) = self.picture.clone() else { return };
        let Some((_, leg)) = self.chosen_leg(&picture) else {
            self.at_hand.leg = self.leg_under(&picture, at);
            self.said = match self.at_hand.leg {
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
        let Some(circuit) = self.plan.circuits.get(&key.circuit) else { return };
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
    pub(super) fn unpin(&mut self) {
        let Some(key) = self.at_hand.leg else {
            self.said = "click a leg first".to_owned();
            return;
        };
        let Some(circuit) = self.plan.circuits.get(&key.circuit) else { return };
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
        let level = self.level.and_then(|level| self.plan.levels.get(&level));
        let near =
            |level: &wirewend::plan::Level| level.above.first().or(level.below.first()).copied();
        nearest.map(|(_, void)| void).or_else(|| level.and_then(near))
    }

    fn ends_of(&self, leg: &Leg) -> (Point2, Point2) {
        let seen = |end| {
            let place = self.plan.place_of(end);
            let at = place.and_then(|place| self.plan.position(&place));
            at.map_or(Point2::new(0, 0), |at| at.on_floor())
        };
        (seen(leg.from), seen(leg.to))
    }

    /// The chosen leg.
    pub(super) fn leg_sketch(&self, sketch: &mut Sketch) {
        let Some(picture) = &self.picture else { return };
        let Some((_, leg)) = self.chosen_leg(picture) else { return };
        for part in &leg.route.segments {
            let (from, to) = (part.from.on_floor(), part.to.on_floor());
            if from != to {
                let (from, to) = (self.camera.screen_of(from), self.camera.screen_of(to));
                sketch.line(from, to, Touch::Chosen);
            }
        }
    }

    /// What the pin would do.
    pub(super) fn pin_sketch(&self, sketch: &mut Sketch, at: Point) {
        debug_assert!(self.tool == Tool::Pin, "only while pins are set");
        let says = if self.at_hand.leg.is_some() { "passes here" } else { "which leg?" };
        let spot = self.camera.screen(at);
        sketch.ring(spot, 6.0, Touch::New);
        sketch.labels.push((spot, says.to_owned()));
    }
}

/// Whether a pin is of a leg, whichever way round it was drawn.
pub(super) fn is_of(pin: &Pin, leg: LegKey) -> bool {
    (pin.from, pin.to) == (leg.from, leg.to) || (pin.to, pin.from) == (leg.from, leg.to)
}

/// Adds a place where the detour is least.
pub(super) fn insert(through: &mut Vec<PinPlace>, place: PinPlace, (from, to): (Point2, Point2)) {
    let mut stations: Vec<Point> = vec![exact(from)];
    stations.extend(through.iter().map(|one| exact(one.at)));
    stations.push(exact(to));
    let new = exact(place.at);
    let detour =
        |pair: &[Point]| pair[0].distance(new) + new.distance(pair[1]) - pair[0].distance(pair[1]);
    let best = stations
        .windows(2)
        .map(detour)
        .enumerate()
        .min_by(|one, other| one.1.total_cmp(&other.1))
        .map_or(through.len(), |(index, _)| index);
    through.insert(best, place);
}

impl From<LegKey> for Subject {
    fn from(leg: LegKey) -> Self {
        Self::Leg { circuit: leg.circuit, from: leg.from, to: leg.to }
    }
}
