//! Circuits: final subcircuits from a board.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoardId, End, PointId, VoidId};
use crate::units::{Amps, Csa, Point2};

/// A final subcircuit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Circuit {
    /// Its number at the board, which its neutral and earth share.
    pub number: u16,
    /// What people call it.
    pub name: String,
    /// The board it comes from. None: not decided yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub board: Option<BoardId>,
    /// What it feeds.
    #[serde(rename = "use")]
    pub usage: CircuitUse,
    /// The cable that feeds it. None: not decided yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cable: Option<Cable>,
    /// What protects it. None: not decided yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub device: Option<Device>,
    /// How its points are joined.
    #[serde(default)]
    pub wiring: Wiring,
    /// Where the feed of a lighting circuit is looped.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub loop_at: Option<LoopAt>,
    /// The ways its cables may take. None: all but on the surface.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub ways: Option<Vec<Way>>,
    /// The order in which the feed must visit its points; those left out
    /// follow in the best order.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub order: Vec<PointId>,
    /// Points that must be fed as spurs, and from where.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub spurs: Vec<Spur>,
    /// Places that legs must pass through.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub pins: Vec<Pin>,
    /// The phase it is on, 1 to 3, where there is more than one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub phase: Option<u8>,
    /// The residual-current device it shares with others, by name.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub rcd_group: String,
}

impl Circuit {
    /// A chain under this number, with nothing else decided.
    #[must_use]
    pub const fn new(number: u16, usage: CircuitUse) -> Self {
        Self {
            number,
            name: String::new(),
            board: None,
            usage,
            cable: None,
            device: None,
            wiring: Wiring::Chain,
            loop_at: None,
            ways: None,
            order: Vec::new(),
            spurs: Vec::new(),
            pins: Vec::new(),
            phase: None,
            rcd_group: String::new(),
        }
    }
}

/// What a circuit feeds.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum CircuitUse {
    /// Socket-outlets.
    Sockets,
    /// Lights and small fixed loads on the lighting circuit.
    Lighting,
    /// Interlinked smoke and heat alarms.
    Alarms,
    /// One or more fixed appliances.
    Fixed,
    /// Another board, an outbuilding.
    Submain,
}

/// A type of cable.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct Cable {
    /// How many insulated cores, the protective conductor not counted.
    pub cores: u8,
    /// Cross-section of each of them, mm².
    pub size: Csa,
    /// How it is made.
    #[serde(default)]
    pub make: CableMake,
}

impl Cable {
    /// The same cable with another number of cores.
    #[must_use]
    pub const fn with_cores(self, cores: u8) -> Self {
        Self { cores, ..self }
    }
}

impl std::fmt::Display for Cable {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let make = match self.make {
            CableMake::Flat => "flat",
            CableMake::Round => "round",
            CableMake::Armoured => "armoured",
            CableMake::SinglesInConduit => "singles in conduit",
        };
        write!(f, "{} × {} + E {make}", self.cores, self.size)
    }
}

/// How a cable is made.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum CableMake {
    /// Flat, sheathed, with a protective conductor.
    #[default]
    Flat,
    /// Round, sheathed, with a protective conductor.
    Round,
    /// Steel wire armoured.
    Armoured,
    /// Single cores drawn into conduit.
    SinglesInConduit,
}

impl CableMake {
    /// Its part of the code of a price.
    #[must_use]
    pub const fn code(self) -> &'static str {
        match self {
            Self::Flat => "flat",
            Self::Round => "round",
            Self::Armoured => "armoured",
            Self::SinglesInConduit => "singlesinconduit",
        }
    }
}

/// A protective device.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Device {
    /// Rated current, A.
    pub rating: Amps,
    /// Its instantaneous trip characteristic.
    pub curve: Curve,
    /// Rated residual current if it has one, A: 0.03 for 30 mA.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub residual: Option<Amps>,
}

/// The instantaneous trip characteristic of a circuit-breaker, IEC 60898.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
pub enum Curve {
    /// 3 to 5 times its rating.
    B,
    /// 5 to 10 times its rating.
    C,
    /// 10 to 20 times its rating.
    D,
}

impl Curve {
    /// Its letter, as the standard has it.
    #[must_use]
    pub const fn letter(self) -> char {
        match self {
            Self::B => 'B',
            Self::C => 'C',
            Self::D => 'D',
        }
    }
}

impl std::fmt::Display for Curve {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}", self.letter())
    }
}

impl std::fmt::Display for Device {
    /// `B16`, `B16, 30 mA`.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(f, "{}{}", self.curve, self.rating.0)?;
        match self.residual {
            Some(current) => write!(f, ", {}", crate::wording::residual(current)),
            None => Ok(()),
        }
    }
}

/// How the points of a circuit are joined.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Wiring {
    /// From the board from point to point.
    #[default]
    Chain,
    /// From the board from point to point and back to the board.
    Ring,
    /// A chain off which single points may hang where that saves cable.
    ChainWithSpurs,
    /// A cable of its own from the board to every point.
    Single,
}

/// Where the feed of a lighting circuit is looped.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum LoopAt {
    /// From light to light, with a cable down to each switch.
    Light,
    /// From switch to switch, with a cable up to each light.
    Switch,
}

/// A way that cables may take.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum Way {
    /// Through the void above.
    Overhead,
    /// Through the void below.
    Underfloor,
    /// Sideways inside walls.
    InWall,
    /// On the face of walls, in trunking or skirting.
    Surface,
    /// In the ground.
    Underground,
}

impl Way {
    /// Every way.
    pub const ALL: [Self; 5] =
        [Self::Overhead, Self::Underfloor, Self::InWall, Self::Surface, Self::Underground];
}

/// A point that hangs off another as a spur.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Spur {
    /// The point at the end of the spur.
    pub point: PointId,
    /// What it hangs off.
    pub from: End,
}

/// A leg that must pass through given places.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Pin {
    /// One end of the leg.
    pub from: End,
    /// The other end of the leg.
    pub to: End,
    /// The places, from the first end to the other.
    pub through: Vec<PinPlace>,
}

/// A place in a void that a leg must pass through.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(deny_unknown_fields)]
pub struct PinPlace {
    /// The void.
    pub void: VoidId,
    /// Where, seen from above.
    pub at: Point2,
}
