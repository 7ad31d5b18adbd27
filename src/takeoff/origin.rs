//! Where a count came from.

use serde::Serialize;

use crate::plan::{BoardId, CircuitId, PointId};
use crate::units::Mm;

/// How many, or how long.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// So many.
    Each(u32),
    /// So long, mm.
    Length(Mm),
}

impl Quantity {
    /// In words: a count, or a length as it is written where this stands.
    #[must_use]
    pub fn in_words(self, length: impl FnOnce(Mm) -> String) -> String {
        match self {
            Self::Each(count) => count.to_string(),
            Self::Length(long) => length(long),
        }
    }

    /// How many; a length counts as none.
    #[must_use]
    pub const fn each(self) -> u32 {
        match self {
            Self::Each(count) => count,
            Self::Length(_) => 0,
        }
    }

    /// How long; a count has no length.
    #[must_use]
    pub const fn length(self) -> Mm {
        match self {
            Self::Each(_) => Mm::ZERO,
            Self::Length(length) => length,
        }
    }

    /// Both together; None where one is a count and the other a length.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        match (self, other) {
            (Self::Each(a), Self::Each(b)) => Some(Self::Each(a.saturating_add(b))),
            (Self::Length(a), Self::Length(b)) => Some(Self::Length(a + b)),
            _ => None,
        }
    }
}

/// What a part of a count came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Origin {
    /// A point.
    Point(PointId),
    /// A board.
    Board(BoardId),
    /// A circuit as a whole.
    Circuit(CircuitId),
    /// A leg, by its number within its circuit.
    Leg {
        /// Its circuit.
        circuit: CircuitId,
        /// Its number.
        leg: u32,
    },
    /// A segment of a leg's route, by its place from 0.
    Segment {
        /// Its circuit.
        circuit: CircuitId,
        /// The number of its leg.
        leg: u32,
        /// Its place among the segments.
        segment: usize,
    },
}

/// One thing's share of a count.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Part {
    /// What it came from.
    pub of: Origin,
    /// How much of the count.
    pub quantity: Quantity,
}

/// Parts added up; none where there are none.
pub(super) fn sum(parts: &[Part]) -> Quantity {
    let mut quantities = parts.iter().map(|part| part.quantity);
    let first = quantities.next().unwrap_or(Quantity::Each(0));
    quantities.fold(first, |sum, next| sum.plus(next).unwrap_or(sum))
}
