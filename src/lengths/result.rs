//! The three lengths of a leg, and the order length of a cable.

use indexmap::IndexMap;
use serde::Serialize;

use crate::plan::{Cable, CircuitId};
use crate::units::{Mm, Worked};

/// The lengths of every leg and what they add up to.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Lengths {
    /// For every circuit, a length for each leg in the order of its run.
    pub circuits: IndexMap<CircuitId, Vec<LegLength>>,
    /// For every type of cable, in order of cores, size and make.
    pub cables: Vec<CableLength>,
}

/// The lengths of one leg, kept apart.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct LegLength {
    /// Along the installed way, with the slack that stays in service: for
    /// resistance and volt drop.
    pub route: Worked<Mm>,
    /// To cut from the drum: route, tails and allowances, rounded up.
    pub cut: Worked<Mm>,
    /// Left at the end nearer to the board, out of `cut`.
    pub tail_from: Mm,
    /// Left at the other end, out of `cut`.
    pub tail_to: Mm,
    /// What was measured when it was pulled, if it was.
    pub measured: Option<Mm>,
}

impl LegLength {
    /// The length to reckon with: what was measured, or else the cut length.
    #[must_use]
    pub fn cut_or_measured(&self) -> Mm {
        self.measured.unwrap_or(self.cut.value)
    }
}

/// How much of one type of cable the plan takes.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CableLength {
    /// The type. None: legs of circuits that have no cable yet.
    pub cable: Option<Cable>,
    /// How many pieces.
    pub pieces: usize,
    /// The cut lengths added up.
    pub cut: Mm,
    /// To order: cuts and waste.
    pub order: Worked<Mm>,
}
