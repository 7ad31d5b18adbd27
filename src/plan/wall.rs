//! Walls, and the openings in them.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{LevelId, WallId};
use crate::units::{Mm, Point2};

/// A straight wall by its centre line.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Wall {
    /// The level it stands on.
    pub level: LevelId,
    /// One end of its centre line.
    pub a: Point2,
    /// The other end of its centre line.
    pub b: Point2,
    /// Full thickness, mm, half on either side of the centre line.
    pub thickness: Mm,
    /// What it is made of.
    pub build: WallBuild,
    /// Whether thermal insulation fills it.
    #[serde(default)]
    pub insulated: bool,
    /// The face that rain can reach, looking from `a` to `b`.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub wet: Option<Face>,
}

impl Wall {
    /// The length of its centre line, mm, as a float: an oblique wall has no
    /// whole length.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.a.distance(self.b)
    }

    /// The place on the centre line so far from `a`.
    #[must_use]
    pub fn at(&self, along: f64) -> Point2 {
        let length = self.length();
        let share = if length > 0.0 { along / length } else { 0.0 };
        let step = self.b - self.a;
        let round = |value: f64| Mm::from_f64(value).unwrap_or(Mm::ZERO);
        Point2 {
            x: self.a.x + round(step.x.to_f64() * share),
            y: self.a.y + round(step.y.to_f64() * share),
        }
    }
}

/// What a wall is made of; it decides how cables get into it and how it is
/// hatched.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum WallBuild {
    /// Timber or steel studs with lining on both faces.
    Stud,
    /// Studs with lining inside and one skin of brick outside.
    BrickVeneer,
    /// One leaf of brick or block, plastered: cables are chased in.
    SolidMasonry,
    /// Two leaves with a cavity.
    CavityMasonry,
    /// Two leaves of brick without insulation between them.
    DoubleBrick,
    /// In-situ or precast concrete.
    Concrete,
    /// Old timber laths with plaster.
    LathAndPlaster,
    /// A fence, a railing or a screen: nothing runs in it.
    Screen,
}

/// One of the two faces of a wall, looking from its end `a` to its end `b`.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Face {
    /// On the left hand.
    Left,
    /// On the right hand.
    Right,
}

/// A door, a window or a plain hole in a wall.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Opening {
    /// The wall it is in.
    pub wall: WallId,
    /// What fills it.
    pub kind: OpeningKind,
    /// From the wall's end `a` to the near edge, mm.
    pub from: Mm,
    /// Along the wall, mm.
    pub width: Mm,
    /// Lower edge, mm above the floor.
    pub sill: Mm,
    /// Upper edge, mm above the floor.
    pub head: Mm,
    /// How a door is hung.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub hinge: Option<Hinge>,
}

/// What fills an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum OpeningKind {
    /// A hinged door.
    Door,
    /// A door that slides.
    SlidingDoor,
    /// A window.
    Window,
    /// Nothing.
    Plain,
}

/// How a door is hung.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Hinge {
    /// Whether the hinges are on the edge nearer to the wall's end `a`.
    pub at_near_edge: bool,
    /// The face towards which it opens.
    pub opens: Face,
}
