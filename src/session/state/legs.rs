//! Legs and pins by what they lie between: what stays the same when they are
//! routed anew.

use kurbo::Point;

use crate::plan::{Change, Circuit, CircuitId, Edit, End, Pin, PinPlace, Plan, Subject};
use crate::runs::Leg;
use crate::session::ground::places::exact;
use crate::session::work::Picture;
use crate::units::Point2;

/// A leg by its circuit and its ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct LegKey {
    /// Its circuit.
    pub circuit: CircuitId,
    /// The end nearer to the board.
    pub from: End,
    /// The other end.
    pub to: End,
}

impl LegKey {
    /// The key of a leg.
    pub const fn of(leg: &Leg) -> Self {
        Self { circuit: leg.circuit, from: leg.from, to: leg.to }
    }

    /// The leg with its place in its circuit's list.
    pub fn find(self, picture: &Picture) -> Option<(usize, &Leg)> {
        let legs = &picture.runs.circuits.get(&self.circuit)?.legs;
        legs.iter().enumerate().find(|(_, leg)| Self::of(leg) == self)
    }
}

impl From<LegKey> for Subject {
    fn from(leg: LegKey) -> Self {
        Self::Leg { circuit: leg.circuit, from: leg.from, to: leg.to }
    }
}

/// A pin by its leg and its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PinKey {
    /// Its leg.
    pub leg: LegKey,
    /// Where it is.
    pub at: Point2,
}

impl PinKey {
    /// The pins of its circuit without it; the void that it lies in. None: it
    /// is gone.
    pub(crate) fn without(self, plan: &Plan) -> Option<(Circuit, crate::plan::VoidId)> {
        let mut circuit = plan.circuits.get(&self.leg.circuit)?.clone();
        let pin = circuit.pins.iter_mut().find(|pin| is_of(pin, self.leg))?;
        let index = pin.through.iter().position(|place| place.at == self.at)?;
        let void = pin.through.remove(index).void;
        circuit.pins.retain(|pin| !pin.through.is_empty());
        Some((circuit, void))
    }

    /// The edit that puts it elsewhere: between the pins where the detour is
    /// least.
    ///
    /// # Errors
    /// A text for whoever asked, where the pin is gone.
    pub fn moved(self, plan: &Plan, to: Point2) -> Result<Edit, String> {
        let (mut circuit, void) = self.without(plan).ok_or("the pin is gone")?;
        let place = crate::plan::PinPlace { void, at: to };
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

/// Whether a pin is of a leg, whichever way round it was drawn.
pub(crate) fn is_of(pin: &Pin, leg: LegKey) -> bool {
    (pin.from, pin.to) == (leg.from, leg.to) || (pin.to, pin.from) == (leg.from, leg.to)
}

/// Adds a place where the detour is least.
pub(crate) fn insert(through: &mut Vec<PinPlace>, place: PinPlace, (from, to): (Point2, Point2)) {
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
