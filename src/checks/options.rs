//! What the person checking may choose.

use serde::{Deserialize, Serialize};

/// How a check is to be made, where more than one way is right.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub struct Options {
    /// Where the load of a circuit is thought to be. None: spread for sockets,
    /// as placed for the rest.
    pub pattern: Option<LoadPattern>,
    /// The temperature at which conductors drop volts.
    pub temperature: ConductorTemperature,
    /// Cosine of the angle by which loads lag.
    pub power_factor: f64,
    /// Whether the supply is the owner's own, from a substation on the site.
    pub private_supply: bool,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            pattern: None,
            temperature: ConductorTemperature::Rated,
            power_factor: 1.0,
            private_supply: false,
        }
    }
}

/// Where the load of a circuit is thought to be.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum LoadPattern {
    /// All of it at the point where that drops most.
    AtFarEnd,
    /// In equal parts at every point.
    Spread,
    /// Each point's own load.
    AsPlaced,
}

/// The temperature at which conductors drop volts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum ConductorTemperature {
    /// The most they may reach: never too little.
    Rated,
    /// What the design current brings them to:
    /// T = Ta + (Tc − Ta) · (I / Iz)².
    Running,
}
