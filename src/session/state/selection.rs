//! What is chosen: things of the plan, and the circuit, leg, pin, finding and
//! figure that one looks at.

use std::collections::BTreeSet;

use super::legs::{LegKey, PinKey};
use crate::plan::{CircuitId, Plan, Subject};
use crate::session::work::Figure;

/// What is chosen.
#[derive(Clone, Debug, Default)]
pub struct Selection {
    chosen: BTreeSet<Subject>,
    circuit: Option<CircuitId>,
    leg: Option<LegKey>,
    pin: Option<PinKey>,
    finding: Option<usize>,
    figure: Option<Figure>,
}

impl Selection {
    /// The things that are chosen.
    pub const fn chosen(&self) -> &BTreeSet<Subject> {
        &self.chosen
    }

    /// The circuit that is open and shown alone.
    pub const fn circuit(&self) -> Option<CircuitId> {
        self.circuit
    }

    /// The leg that is chosen.
    pub const fn leg(&self) -> Option<LegKey> {
        self.leg
    }

    /// The pin that is chosen.
    pub const fn pin(&self) -> Option<PinKey> {
        self.pin
    }

    /// The finding that was gone to, by its place in the list.
    pub const fn finding(&self) -> Option<usize> {
        self.finding
    }

    /// The figure that is asked how it came about.
    pub const fn figure(&self) -> Option<Figure> {
        self.figure
    }

    /// Chooses these and nothing else.
    pub fn choose(&mut self, things: impl IntoIterator<Item = Subject>) {
        self.chosen = things.into_iter().collect();
    }

    /// Chooses these too.
    pub fn add(&mut self, things: impl IntoIterator<Item = Subject>) {
        self.chosen.extend(things);
    }

    /// Lets go of one; false where it was not chosen.
    pub fn remove(&mut self, thing: Subject) -> bool {
        self.chosen.remove(&thing)
    }

    /// Nothing is chosen any more; what one looks at stays.
    pub fn clear(&mut self) {
        self.chosen.clear();
    }

    /// Opens a circuit, or none.
    pub const fn open(&mut self, circuit: Option<CircuitId>) {
        self.circuit = circuit;
    }

    /// Chooses a leg, or none.
    pub const fn choose_leg(&mut self, leg: Option<LegKey>) {
        self.leg = leg;
    }

    /// Chooses a pin, or none.
    pub const fn choose_pin(&mut self, pin: Option<PinKey>) {
        self.pin = pin;
    }

    /// Goes to a finding, by its place in the list.
    pub const fn go_to_finding(&mut self, index: usize) {
        self.finding = Some(index);
    }

    /// Asks how a figure came about, or asks no more.
    pub const fn ask(&mut self, figure: Option<Figure>) {
        self.figure = figure;
    }

    /// The plan has changed: what is gone is not chosen, and findings stand
    /// elsewhere in their list.
    pub(crate) fn follow(&mut self, plan: &Plan) {
        self.finding = None;
        self.chosen.retain(|subject| plan.has(*subject));
        self.circuit = self.circuit.filter(|id| plan.circuits.contains_key(id));
    }
}
