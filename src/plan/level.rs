//! Storeys, and the voids above and below them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::VoidId;
use crate::units::{Angle, Mm, Point2};

/// A storey: one floor, one ceiling height, and what is above and below.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Level {
    /// What people call it.
    pub name: String,
    /// Finished floor, mm above the lowest finished floor.
    pub floor: Mm,
    /// Floor to ceiling, mm.
    pub height: Mm,
    /// The voids that can be reached through the ceiling. None: a concrete
    /// ceiling that no cable goes into.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub above: Vec<VoidId>,
    /// The voids, and the ground, that can be reached through the floor.
    /// None: a concrete floor that no cable goes into.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub below: Vec<VoidId>,
}

impl Level {
    /// The height of the ceiling above the lowest finished floor.
    #[must_use]
    pub fn ceiling(&self) -> Mm {
        self.floor + self.height
    }
}

/// A flat space that cables can cross: above a ceiling, under a floor, or in
/// the ground.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Void {
    /// What people call it.
    pub name: String,
    /// What kind of space it is.
    pub kind: VoidKind,
    /// The height at which cables cross it, mm above the lowest finished floor.
    pub z: Mm,
    /// How high the space is, mm.
    pub depth: Mm,
    /// The direction of the joists, thousandths of a degree anticlockwise from
    /// `x`; cables keep to it and square to it. Without joists, the direction
    /// that cables are to keep to.
    #[serde(default)]
    pub direction: Angle,
    /// The joists, where there are any to drill.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub joists: Option<Joists>,
    /// Thickness of the insulation that the cables lie in, mm; 0 for none.
    #[serde(default)]
    pub insulation: Mm,
    /// How a person gets at it.
    #[serde(default)]
    pub access: Access,
    /// Where the space is, as a closed outline. None: over or under all that
    /// the walls and rooms of its levels enclose.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub outline: Option<Vec<Point2>>,
}

/// The joists (or rafters, or trusses) of a void.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Joists {
    /// From centre to centre, mm.
    pub spacing: Mm,
    /// How deep a joist is, mm.
    pub depth: Mm,
    /// How thick a joist is, mm.
    pub thickness: Mm,
}

/// The kinds of void; they decide what a cable in it is surrounded by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum VoidKind {
    /// Under the roof: hot in summer, often insulated.
    RoofSpace,
    /// Between a ceiling and the floor above it.
    BetweenFloors,
    /// Under a suspended ground floor.
    Subfloor,
    /// In the ground, outdoors.
    Ground,
}

/// How a person gets at a void.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Access {
    /// Standing or stooping.
    WalkIn,
    /// On hands and knees.
    #[default]
    Crawl,
    /// Only by lifting boards or cutting the ceiling.
    Closed,
}

/// A shaft or a duct by which cables pass between voids.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Riser {
    /// What people call it.
    pub name: String,
    /// Where it is, seen from above.
    pub at: Point2,
    /// The voids that it joins, two or more.
    pub voids: Vec<VoidId>,
}
