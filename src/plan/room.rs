//! Rooms, and areas of a void or a wall with a rule of their own.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{LevelId, VoidId, WallId};
use crate::units::{Mm, Point2};

/// A room by its outline.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Room {
    /// The level it is on.
    pub level: LevelId,
    /// What people call it.
    pub name: String,
    /// What it is used for; bath and shower rooms have zones.
    #[serde(rename = "use")]
    pub usage: RoomUse,
    /// Its outline, closed without repeating the first place, either way round.
    pub outline: Vec<Point2>,
}

/// What a room is used for.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum RoomUse {
    /// Sitting, playing, watching.
    Living,
    /// Eating.
    Dining,
    /// Cooking.
    Kitchen,
    /// Sleeping.
    Bedroom,
    /// With a bath or a shower.
    Bathroom,
    /// With a toilet and a basin only.
    Toilet,
    /// Washing clothes.
    Laundry,
    /// Passage, entrance.
    Hall,
    /// Stairs.
    Stair,
    /// Working.
    Study,
    /// Cars.
    Garage,
    /// Storing things.
    Store,
    /// Balcony, terrace, porch, garden.
    Outdoor,
    /// Not said.
    #[default]
    Other,
}

/// A part of a void or a wall with a rule of its own for cables.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Area {
    /// What is there: `flue`, `stair well`, `cable tray`.
    pub name: String,
    /// The plane that it lies on.
    pub on: Plane,
    /// Its outline. On a void `[x, y]` in the plan; on a wall `[along, height]`,
    /// from the wall's end `a` and above the floor.
    pub outline: Vec<Point2>,
    /// What it does to cables.
    pub effect: AreaEffect,
}

/// A surface that cables run on.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Plane {
    /// A void.
    Void(VoidId),
    /// The plane of a wall.
    Wall(WallId),
}

/// What an area does to cables.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum AreaEffect {
    /// No cable inside; along the edge is allowed.
    KeepOut,
    /// Runs cost this many percent of the plain cost: under 100 a preferred
    /// way (a duct, a tray), over 100 a place to avoid (deep insulation, a wet
    /// area). Where areas overlap the largest counts.
    Percent(u16),
    /// Something that is costly to pass, such as a wall that rises through a
    /// roof space: a full crossing of its short side costs as much as this
    /// many mm of plain run, spread evenly.
    Barrier(#[schemars(extend("minimum" = 0))] Mm),
}
