//! Distribution boards and the supply behind them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Place;
use crate::units::{Amps, Ohms, Volts};

/// A distribution board.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Board {
    /// The mark by which drawings name it. Empty: made from its id.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub label: String,
    /// Where it is. None: not placed yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Place>,
    /// What feeds it.
    #[serde(default)]
    pub supply: Supply,
    /// How many ways it has. None: not known yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ways: Option<u16>,
}

/// The supply at the origin. What is not known yet stays out, and the checks
/// that need it say so.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Supply {
    /// Between phase and neutral, V.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub voltage: Option<Volts>,
    /// One or three.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub phases: Option<u8>,
    /// External earth-fault loop impedance, Ω.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub loop_impedance: Option<Ohms>,
    /// Prospective fault current, A.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub fault_current: Option<Amps>,
    /// How the supply is earthed.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub earthing: Option<Earthing>,
    /// Rating of the main switch, A.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub main_switch: Option<Amps>,
}

/// How a supply is earthed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Earthing {
    /// Neutral and earth separate throughout.
    #[serde(rename = "TN-S")]
    TnS,
    /// Neutral and earth combined in the supply.
    #[serde(rename = "TN-C-S")]
    TnCS,
    /// Multiple earthed neutral.
    #[serde(rename = "MEN")]
    Men,
    /// An earth electrode of the house's own.
    #[serde(rename = "TT")]
    Tt,
}
