//! What things are called for good: the marks that were given, and the numbers
//! of circuits and legs that stood on issued papers.
//!
//! It only grows: what has gone keeps its mark and its number, so that nothing
//! else is ever called so. A person may renumber on purpose ([`Plan::renumber`]).

use std::collections::BTreeMap;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoardId, Circuit, CircuitId, End, Plan};

/// The names that are kept.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Kept {
    /// Whose each mark is, there or gone.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    pub marks: BTreeMap<String, Mark>,
    /// The numbers of circuits that stood on issued papers.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub circuits: Vec<KeptCircuit>,
    /// The numbers of legs that stood on issued papers.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub legs: Vec<KeptLeg>,
    /// The papers that were issued, the latest last: each revision once, and
    /// again where things were marked otherwise under the same.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub issues: Vec<Issue>,
}

/// A mark that was given.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Mark {
    /// Whose it is. A point or board that is gone keeps its mark.
    pub of: End,
    /// The issue since which papers say it, counted from 1. None: on none yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub issued: Option<u32>,
}

/// The number of a circuit on issued papers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KeptCircuit {
    /// The circuit, there or gone.
    pub circuit: CircuitId,
    /// The board that counts it. None: it came from none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub board: Option<BoardId>,
    /// Its number there.
    pub number: u16,
}

/// The number of a leg on issued papers: it belongs to its two ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct KeptLeg {
    /// The circuit, there or gone.
    pub circuit: CircuitId,
    /// Its number within the circuit.
    pub number: u32,
    /// One end.
    pub from: End,
    /// The other end.
    pub to: End,
}

impl KeptLeg {
    /// Its ends in one order, whichever way round they stand.
    #[must_use]
    pub fn ends(&self) -> [End; 2] {
        [self.from.min(self.to), self.from.max(self.to)]
    }
}

/// Papers that went out.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Issue {
    /// The revision in their title blocks.
    pub revision: String,
    /// The date there.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub date: String,
}

impl Kept {
    /// Whether nothing is kept.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        *self == Self::default()
    }

    /// What stood on issued papers, without marks that only drawings had.
    #[must_use]
    pub fn issued(&self) -> Self {
        let mut issued = self.clone();
        issued.marks.retain(|_, mark| mark.issued.is_some());
        issued
    }

    /// Whose number it was on issued papers, where that is another circuit.
    #[must_use]
    pub fn numbered_before(&self, id: CircuitId, circuit: &Circuit) -> Option<CircuitId> {
        let same = |one: &&KeptCircuit| (one.board, one.number) == (circuit.board, circuit.number);
        // Both may have had it: then it is as much this one's.
        let mut had = self.circuits.iter().filter(same).map(|one| one.circuit);
        let first = had.next()?;
        (first != id && had.all(|one| one != id)).then_some(first)
    }
}

impl Plan {
    /// The lowest number that no circuit of the plan has, and none had on
    /// papers that were issued.
    #[must_use]
    pub fn free_circuit_number(&self) -> u16 {
        let drawn = self.circuits.values().map(|circuit| circuit.number);
        let kept = self.kept.circuits.iter().map(|one| one.number);
        let taken: std::collections::BTreeSet<u16> = drawn.chain(kept).collect();
        (1..=u16::MAX).find(|number| !taken.contains(number)).unwrap_or(u16::MAX)
    }
}
