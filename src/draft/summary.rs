//! What a draft comes to, in figures.

use serde::Serialize;

use crate::plan::{CircuitUse, Family, Plan};

/// A draft in figures.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Summary {
    /// Homes, and what they share.
    pub dwellings: usize,
    /// Boards.
    pub boards: usize,
    /// Circuits.
    pub circuits: usize,
    /// Circuits for lights.
    pub lighting_circuits: usize,
    /// Socket-outlet plates.
    pub sockets: usize,
    /// Lights.
    pub lights: usize,
    /// Switches.
    pub switches: usize,
    /// Smoke and heat alarms.
    pub alarms: usize,
    /// Fixed appliances.
    pub fixed: usize,
}

impl Summary {
    pub(super) fn of(plan: &Plan, dwellings: usize) -> Self {
        let count =
            |family: Family| plan.points.values().filter(|p| p.kind.family() == family).count();
        let lighting = plan.circuits.values().filter(|c| c.usage == CircuitUse::Lighting);
        Self {
            dwellings,
            boards: plan.boards.len(),
            circuits: plan.circuits.len(),
            lighting_circuits: lighting.count(),
            sockets: count(Family::Sockets),
            lights: count(Family::Lights),
            switches: count(Family::Switches),
            alarms: count(Family::Alarms),
            fixed: count(Family::Fixed),
        }
    }
}
