//! What was measured before, so that after a drag only what changed is written anew.

use std::collections::BTreeMap;

use super::LegLengths;
use super::basis::Basis;
use crate::plan::{Allowances, CircuitId};

/// The lengths of every circuit as last measured, with all that they came
/// from: they are taken over where all of it is equal.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    allowances: Allowances,
    circuits: BTreeMap<CircuitId, (Vec<Basis<'static>>, LegLengths)>,
}

impl Memory {
    /// Gets ready for a plan with these allowances.
    pub(super) fn look_at(&mut self, allowances: &Allowances) {
        if self.allowances != *allowances {
            self.circuits.clear();
            self.allowances = *allowances;
        }
    }

    /// The lengths of a circuit whose legs come from this; made where they did not before.
    pub(super) fn lengths(
        &mut self,
        id: CircuitId,
        legs: Vec<Basis<'_>>,
        make: impl FnOnce(&[Basis<'_>]) -> LegLengths,
    ) -> LegLengths {
        if let Some((known, lengths)) = self.circuits.get(&id)
            && *known == legs
        {
            return lengths.clone();
        }
        let lengths = make(&legs);
        let kept = legs.into_iter().map(Basis::into_owned).collect();
        self.circuits.insert(id, (kept, lengths.clone()));
        lengths
    }

    /// Forgets circuits that are no more.
    pub(super) fn keep(&mut self, is_there: impl Fn(CircuitId) -> bool) {
        self.circuits.retain(|id, _| is_there(*id));
    }
}
