//! What is cut into, and the cuts in it.

use serde::Serialize;

use crate::plan::{CircuitId, End};
use crate::units::{Cents, Mm};

/// A drum or an off-cut that is cut into.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CutSource {
    /// Which one.
    pub what: SourceKind,
    /// What papers call it, like no other of the job: `drum A`, `off-cut red`.
    pub name: String,
    /// How long it is before the first cut.
    pub length: Mm,
    /// What it costs; None for an off-cut, and for a drum without a price.
    pub price: Option<Cents>,
    /// Its cuts from the free end on: what was cut already, then the longest
    /// first.
    pub cuts: Vec<Cut>,
    /// What is left after the last cut.
    pub left: Mm,
    /// Whether that is worth keeping.
    pub keep: bool,
}

/// What a source is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum SourceKind {
    /// A piece left from an earlier job.
    OffCut {
        /// Its place in the stock's list, from 0.
        index: usize,
        /// What is written on it.
        label: String,
    },
    /// A new drum.
    Drum {
        /// Its number among the new drums of this cable, from 1.
        number: usize,
        /// The place of its type in the stock's list, from 0.
        index: usize,
    },
}

/// One cut.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Cut {
    /// What is cut.
    pub piece: Piece,
    /// The running mark at which it begins, mm from the free end.
    pub from: Mm,
    /// The running mark at which to cut, mm from the free end.
    pub at: Mm,
}

/// A leg as a piece of cable.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct Piece {
    /// Its circuit.
    pub circuit: CircuitId,
    /// Its number within the circuit.
    pub leg: u32,
    /// The end nearer to the board.
    pub from: End,
    /// The other end.
    pub to: End,
    /// The length to cut, or the length that was measured.
    pub length: Mm,
    /// Whether it was cut and measured already.
    pub done: bool,
}
