//! The three lengths of a leg, and the order length of a cable.

use std::ops::{Deref, DerefMut};
use std::sync::Arc;

use indexmap::IndexMap;
use serde::{Serialize, Serializer};

use crate::plan::{Cable, CircuitId};
use crate::units::{Mm, Worked};

/// The lengths of every leg and what they add up to.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Lengths {
    /// For every circuit, a length for each leg in the order of its run.
    pub circuits: IndexMap<CircuitId, LegLengths>,
    /// For every type of cable, in order of cores, size and make.
    pub cables: Vec<CableLength>,
}

/// The lengths of the legs of a circuit: a list, shared until it is changed.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LegLengths(Arc<Vec<LegLength>>);

impl Deref for LegLengths {
    type Target = Vec<LegLength>;
    fn deref(&self) -> &Self::Target {
        &self.0
    }
}

impl DerefMut for LegLengths {
    fn deref_mut(&mut self) -> &mut Self::Target {
        Arc::make_mut(&mut self.0)
    }
}

impl From<Vec<LegLength>> for LegLengths {
    fn from(legs: Vec<LegLength>) -> Self {
        Self(Arc::new(legs))
    }
}

impl FromIterator<LegLength> for LegLengths {
    fn from_iter<T: IntoIterator<Item = LegLength>>(legs: T) -> Self {
        legs.into_iter().collect::<Vec<_>>().into()
    }
}

impl<'a> IntoIterator for &'a LegLengths {
    type Item = &'a LegLength;
    type IntoIter = std::slice::Iter<'a, LegLength>;
    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl Serialize for LegLengths {
    fn serialize<S: Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
        self.0.as_slice().serialize(to)
    }
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
