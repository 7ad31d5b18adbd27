//! Readings of a meter, taken on site.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{CircuitId, End};
use crate::units::{Amps, Megohms, Milliseconds, Ohms};

/// A reading on site. Of the same test at the same place only one is kept.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Reading {
    /// The circuit.
    pub circuit: CircuitId,
    /// Where it was taken: a point of the circuit, or its board.
    pub at: End,
    /// What was read.
    pub reads: Reads,
    /// Who took it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub by: String,
    /// The day, as `2026-11-25`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub on: String,
}

/// What was read.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Reads {
    /// Phase and protective conductor in series, joined at the board, Ω.
    R1R2(Ohms),
    /// Protective conductor alone, from the board by a long lead, Ω.
    R2(Ohms),
    /// Phase conductor of a ring, end to end, Ω.
    RingPhase(Ohms),
    /// Neutral conductor of a ring, end to end, Ω.
    RingNeutral(Ohms),
    /// Protective conductor of a ring, end to end, Ω.
    RingEarth(Ohms),
    /// Insulation, MΩ.
    Insulation(Megohms),
    /// Whether phase, neutral and earth are where they belong.
    Polarity(bool),
    /// Earth-fault loop, Ω.
    Loop(Ohms),
    /// Trip time of a residual-current device at its rated current, ms.
    Trip(Milliseconds),
    /// The same at five times its rated current, ms.
    TripFive(Milliseconds),
    /// Prospective fault current, A.
    FaultCurrent(Amps),
}

/// What can be tested.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each is the test that the reading of the same name comes from")]
pub enum Test {
    R1R2,
    R2,
    RingPhase,
    RingNeutral,
    RingEarth,
    Insulation,
    Polarity,
    Loop,
    Trip,
    TripFive,
    FaultCurrent,
}

impl Reads {
    /// The test that it comes from.
    #[must_use]
    pub const fn test(self) -> Test {
        match self {
            Self::R1R2(_) => Test::R1R2,
            Self::R2(_) => Test::R2,
            Self::RingPhase(_) => Test::RingPhase,
            Self::RingNeutral(_) => Test::RingNeutral,
            Self::RingEarth(_) => Test::RingEarth,
            Self::Insulation(_) => Test::Insulation,
            Self::Polarity(_) => Test::Polarity,
            Self::Loop(_) => Test::Loop,
            Self::Trip(_) => Test::Trip,
            Self::TripFive(_) => Test::TripFive,
            Self::FaultCurrent(_) => Test::FaultCurrent,
        }
    }

    /// How much, in the unit of its test; 1 for right polarity, 0 for wrong.
    #[must_use]
    pub fn value(self) -> f64 {
        match self {
            Self::R1R2(ohms)
            | Self::R2(ohms)
            | Self::RingPhase(ohms)
            | Self::RingNeutral(ohms)
            | Self::RingEarth(ohms)
            | Self::Loop(ohms) => ohms.0,
            Self::Insulation(megohms) => megohms.0,
            Self::Trip(time) | Self::TripFive(time) => time.0,
            Self::FaultCurrent(amps) => amps.0,
            Self::Polarity(is_right) => f64::from(u8::from(is_right)),
        }
    }
}

impl std::fmt::Display for Reads {
    /// To three decimals, with its unit: `0.84 Ω`, `right`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Polarity(true) => f.write_str("right"),
            Self::Polarity(false) => f.write_str("wrong"),
            reads => {
                let value = crate::wording::short(reads.value(), 3);
                write!(f, "{value} {}", reads.test().unit())
            }
        }
    }
}

impl Test {
    /// All of them, dead tests first.
    pub const ALL: [Self; 11] = [
        Self::R1R2,
        Self::R2,
        Self::RingPhase,
        Self::RingNeutral,
        Self::RingEarth,
        Self::Insulation,
        Self::Polarity,
        Self::Loop,
        Self::Trip,
        Self::TripFive,
        Self::FaultCurrent,
    ];

    /// Its short name, as lists have it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::R1R2 => "R1+R2",
            Self::R2 => "R2",
            Self::RingPhase => "ring phase",
            Self::RingNeutral => "ring neutral",
            Self::RingEarth => "ring earth",
            Self::Insulation => "insulation",
            Self::Polarity => "polarity",
            Self::Loop => "loop",
            Self::Trip => "trip",
            Self::TripFive => "trip at 5 times",
            Self::FaultCurrent => "fault current",
        }
    }

    /// The unit of its readings; empty where it is right or wrong.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Insulation => Megohms::SYMBOL,
            Self::Polarity => "",
            Self::Trip | Self::TripFive => Milliseconds::SYMBOL,
            Self::FaultCurrent => Amps::SYMBOL,
            _ => Ohms::SYMBOL,
        }
    }

    /// The reading of so much, in its unit; any number but 0 is right polarity.
    #[must_use]
    pub fn reads(self, value: f64) -> Reads {
        match self {
            Self::R1R2 => Reads::R1R2(Ohms(value)),
            Self::R2 => Reads::R2(Ohms(value)),
            Self::RingPhase => Reads::RingPhase(Ohms(value)),
            Self::RingNeutral => Reads::RingNeutral(Ohms(value)),
            Self::RingEarth => Reads::RingEarth(Ohms(value)),
            Self::Insulation => Reads::Insulation(Megohms(value)),
            Self::Polarity => Reads::Polarity(value.abs() > 0.0),
            Self::Loop => Reads::Loop(Ohms(value)),
            Self::Trip => Reads::Trip(Milliseconds(value)),
            Self::TripFive => Reads::TripFive(Milliseconds(value)),
            Self::FaultCurrent => Reads::FaultCurrent(Amps(value)),
        }
    }
}
