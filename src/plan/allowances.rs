//! What is added to a leg's geometry, and what steers its route.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Family, PointKind};
use crate::units::Mm;

/// What is added to a leg's geometry to get the length to cut.
///
/// The defaults are common practice, to be edited: they are nobody's rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Allowances {
    /// Left at a socket-outlet, switch or other box on a wall, each cable end, mm.
    pub tail_box: Mm,
    /// Left at a light or alarm on a ceiling, so that it can be lowered, mm.
    pub tail_ceiling: Mm,
    /// Left at a fixed appliance or its isolator, mm.
    pub tail_fixed: Mm,
    /// Left at a board, so that an end can be trimmed back and made off again, mm.
    pub tail_board: Mm,
    /// For the turn through the plate wherever a cable passes between a wall
    /// and a void, mm.
    pub turn_over: Mm,
    /// Thousandths of the route for bends and for not lying quite straight.
    pub pull_permille: u16,
    /// A loop left in the void on every leg that crosses one, mm.
    pub void_loop: Mm,
    /// The dip before a box on a face that rain can reach, mm below the entry;
    /// it takes twice this length of cable.
    pub drip_loop: Mm,
    /// Cut lengths are rounded up to this step, mm.
    pub step: Mm,
    /// Thousandths added when ordering, for waste.
    pub waste_permille: u16,
}

impl Default for Allowances {
    fn default() -> Self {
        Self {
            tail_box: Mm::new(300),
            tail_ceiling: Mm::new(500),
            tail_fixed: Mm::new(1000),
            tail_board: Mm::new(1500),
            turn_over: Mm::new(150),
            pull_permille: 50,
            void_loop: Mm::ZERO,
            drip_loop: Mm::new(150),
            step: Mm::new(100),
            waste_permille: 100,
        }
    }
}

impl Allowances {
    /// The tail for a kind of point, where the point itself says nothing.
    #[must_use]
    pub const fn tail(&self, kind: PointKind) -> Mm {
        match (kind.family(), kind) {
            (Family::Lights | Family::Alarms, PointKind::WallLight) => self.tail_box,
            (Family::Lights | Family::Alarms, _) | (_, PointKind::ExhaustFan) => self.tail_ceiling,
            (Family::Fixed, _) => self.tail_fixed,
            _ => self.tail_box,
        }
    }
}

/// What steers the routes: none of it enters a length.
///
/// The defaults are common practice, to be edited.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Habits {
    /// A change of direction costs as much as this many mm of plain run.
    #[schemars(extend("minimum" = 0))]
    pub bend: Mm,
    /// Drilling the plate between a wall and a void costs as much as this many
    /// mm of plain run.
    #[schemars(extend("minimum" = 0))]
    pub plate: Mm,
    /// Crossing joists costs this many percent more than running along them.
    pub joist_cross_percent: u16,
    /// Sideways in a stud wall, percent of plain run.
    pub stud_percent: u16,
    /// Sideways in a chase in masonry or concrete, percent of plain run.
    pub chase_percent: u16,
    /// On the face of a wall, percent of plain run.
    pub surface_percent: u16,
    /// In a trench, percent of plain run.
    pub trench_percent: u16,
    /// How far cables keep from the edge of an opening, mm.
    pub opening_clearance: Mm,
    /// Turning from one wall into the next inside them costs as much as this
    /// many mm of plain run.
    #[schemars(extend("minimum" = 0))]
    pub corner: Mm,
    /// Whether cables side by side in voids and in the drop at their board are
    /// laid two diameters apart, so that none warms another. Where they are
    /// not, they are rated as lying in a bunch.
    pub keep_apart: bool,
    /// Where cables may lie in a wall.
    pub zones: WallZones,
}

impl Default for Habits {
    fn default() -> Self {
        Self {
            bend: Mm::new(300),
            plate: Mm::new(400),
            joist_cross_percent: 50,
            stud_percent: 250,
            chase_percent: 500,
            surface_percent: 300,
            trench_percent: 400,
            opening_clearance: Mm::new(75),
            corner: Mm::new(500),
            keep_apart: true,
            zones: WallZones::default(),
        }
    }
}

/// Where cables may lie in a wall: upright in line with an accessory or close
/// to a corner, sideways level with an accessory or close to the ceiling.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct WallZones {
    /// How wide the strip along the ceiling and beside a corner is, mm.
    pub strip: Mm,
}

impl Default for WallZones {
    fn default() -> Self {
        Self { strip: Mm::new(150) }
    }
}
