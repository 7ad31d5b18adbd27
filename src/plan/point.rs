//! Points: anything a cable ends at.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{BoardId, CircuitId, Face, LevelId, PointId, WallId};
use crate::units::{Mm, Point2, Watts};

/// Anything a cable ends at, other than a board.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Point {
    /// What it is.
    pub kind: PointKind,
    /// Where it is. None: not placed yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub place: Option<Place>,
    /// The circuit that feeds it. None: not decided yet.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub circuit: Option<CircuitId>,
    /// The unique mark by which drawings and cable ends name it. Empty: made
    /// from its room, kind and id.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub label: String,
    /// How many sockets, switches or lamps share the plate.
    #[serde(default = "one", skip_serializing_if = "is_one")]
    pub gangs: u8,
    /// The load to design for, W. None: the regime's figure for its kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub load: Option<Watts>,
    /// Cable left at its box, mm. None: the allowance for its kind.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub tail: Option<Mm>,
    /// Whether the client may still leave it out.
    #[serde(default, skip_serializing_if = "is_false")]
    pub optional: bool,
    /// A word for whoever installs it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub note: String,
}

impl Point {
    /// One gang of a kind, neither placed nor on a circuit.
    #[must_use]
    pub const fn new(kind: PointKind) -> Self {
        Self {
            kind,
            place: None,
            circuit: None,
            label: String::new(),
            gangs: 1,
            load: None,
            tail: None,
            optional: false,
            note: String::new(),
        }
    }
}

fn one() -> u8 {
    1
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the signature serde calls")]
fn is_one(count: &u8) -> bool {
    *count == 1
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "the signature serde calls")]
fn is_false(flag: &bool) -> bool {
    !*flag
}

/// What can be placed: the kit.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum PointKind {
    /// Socket-outlet.
    Socket,
    /// Socket-outlet that stands rain.
    WeatherproofSocket,
    /// Luminaire on the ceiling.
    Luminaire,
    /// Luminaire set into the ceiling.
    Downlight,
    /// Luminaire on a wall.
    WallLight,
    /// Long luminaire, such as a batten.
    LinearLight,
    /// Switch for lights.
    Switch,
    /// Switch for lights that also dims them.
    Dimmer,
    /// Switch pulled by a cord.
    PullCord,
    /// Isolating switch or connection unit for something fixed.
    Isolator,
    /// Smoke alarm.
    SmokeAlarm,
    /// Heat alarm.
    HeatAlarm,
    /// Exhaust fan.
    ExhaustFan,
    /// Oven.
    Oven,
    /// Cooktop or range.
    Cooktop,
    /// Range hood.
    RangeHood,
    /// Dishwasher, fixed wiring.
    Dishwasher,
    /// Electric shower.
    Shower,
    /// Storage or instantaneous water heater.
    WaterHeater,
    /// Room heater.
    Heater,
    /// Air conditioner.
    AirConditioner,
    /// Charging point for a car.
    CarCharger,
    /// Gate or garage-door motor.
    DoorMotor,
    /// Pump.
    Pump,
    /// Any other fixed appliance.
    Appliance,
    /// Junction box.
    JunctionBox,
}

/// The families by which kinds are treated alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Family {
    /// Socket-outlets.
    Sockets,
    /// Luminaires of every kind.
    Lights,
    /// Switches for lights.
    Switches,
    /// Smoke and heat alarms.
    Alarms,
    /// Fixed appliances and their isolators.
    Fixed,
    /// Junction boxes.
    Junctions,
}

impl PointKind {
    /// Every kind, in the order of the kit.
    pub const ALL: [Self; 26] = [
        Self::Socket,
        Self::WeatherproofSocket,
        Self::Luminaire,
        Self::Downlight,
        Self::WallLight,
        Self::LinearLight,
        Self::Switch,
        Self::Dimmer,
        Self::PullCord,
        Self::Isolator,
        Self::SmokeAlarm,
        Self::HeatAlarm,
        Self::ExhaustFan,
        Self::Oven,
        Self::Cooktop,
        Self::RangeHood,
        Self::Dishwasher,
        Self::Shower,
        Self::WaterHeater,
        Self::Heater,
        Self::AirConditioner,
        Self::CarCharger,
        Self::DoorMotor,
        Self::Pump,
        Self::Appliance,
        Self::JunctionBox,
    ];

    /// The family it is treated with.
    #[must_use]
    pub const fn family(self) -> Family {
        match self {
            Self::Socket | Self::WeatherproofSocket => Family::Sockets,
            Self::Luminaire | Self::Downlight | Self::WallLight | Self::LinearLight => {
                Family::Lights
            }
            Self::Switch | Self::Dimmer | Self::PullCord => Family::Switches,
            Self::SmokeAlarm | Self::HeatAlarm => Family::Alarms,
            Self::JunctionBox => Family::Junctions,
            _ => Family::Fixed,
        }
    }

    /// The trade's word for it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Socket => "socket-outlet",
            Self::WeatherproofSocket => "weatherproof socket-outlet",
            Self::Luminaire => "ceiling light",
            Self::Downlight => "downlight",
            Self::WallLight => "wall light",
            Self::LinearLight => "linear light",
            Self::Switch => "switch",
            Self::Dimmer => "dimmer",
            Self::PullCord => "pull-cord switch",
            Self::Isolator => "isolating switch",
            Self::SmokeAlarm => "smoke alarm",
            Self::HeatAlarm => "heat alarm",
            Self::ExhaustFan => "exhaust fan",
            Self::Oven => "oven",
            Self::Cooktop => "cooktop",
            Self::RangeHood => "range hood",
            Self::Dishwasher => "dishwasher",
            Self::Shower => "electric shower",
            Self::WaterHeater => "water heater",
            Self::Heater => "heater",
            Self::AirConditioner => "air conditioner",
            Self::CarCharger => "car charging point",
            Self::DoorMotor => "gate or door motor",
            Self::Pump => "pump",
            Self::Appliance => "fixed appliance",
            Self::JunctionBox => "junction box",
        }
    }

    /// The letters with which a mark begins.
    #[must_use]
    pub const fn letters(self) -> &'static str {
        match self {
            Self::Socket => "SO",
            Self::WeatherproofSocket => "WS",
            Self::Luminaire => "LT",
            Self::Downlight => "DL",
            Self::WallLight => "WL",
            Self::LinearLight => "LL",
            Self::Switch => "SW",
            Self::Dimmer => "DM",
            Self::PullCord => "PC",
            Self::Isolator => "IS",
            Self::SmokeAlarm => "SA",
            Self::HeatAlarm => "HA",
            Self::ExhaustFan => "EF",
            Self::Oven => "OV",
            Self::Cooktop => "CT",
            Self::RangeHood => "RH",
            Self::Dishwasher => "DW",
            Self::Shower => "SH",
            Self::WaterHeater => "WH",
            Self::Heater => "HT",
            Self::AirConditioner => "AC",
            Self::CarCharger => "EV",
            Self::DoorMotor => "DO",
            Self::Pump => "PU",
            Self::Appliance => "AP",
            Self::JunctionBox => "JB",
        }
    }
}

/// Where a point or a board is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Place {
    /// On a face of a wall.
    Wall(OnWall),
    /// On a ceiling.
    Ceiling(OnLevel),
    /// On a floor.
    Floor(OnLevel),
    /// On a post outdoors, fed from the ground.
    Post(OnPost),
}

/// A place on a face of a wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OnWall {
    /// The wall.
    pub wall: WallId,
    /// From the wall's end `a` to the centre of the box, mm.
    pub along: Mm,
    /// From the floor to the centre of the box, mm.
    pub height: Mm,
    /// The face it is on.
    pub face: Face,
}

/// A place on a ceiling or a floor.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OnLevel {
    /// The level.
    pub level: LevelId,
    /// Where, seen from above.
    pub at: Point2,
}

/// A place on a post outdoors.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OnPost {
    /// The level whose ground it stands in.
    pub level: LevelId,
    /// Where, seen from above.
    pub at: Point2,
    /// From the ground to the centre of the box, mm.
    pub height: Mm,
}

/// What a leg of cable ends at.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(rename_all = "snake_case")]
pub enum End {
    /// A board.
    Board(BoardId),
    /// A point.
    Point(PointId),
}

impl std::fmt::Display for End {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        match self {
            Self::Board(id) => id.fmt(f),
            Self::Point(id) => id.fmt(f),
        }
    }
}

/// Which switches work which lights: one switch is one-way, two are two-way,
/// and any between the first and the last are intermediate.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Control {
    /// The lights (or the fan) that are switched together.
    pub lights: Vec<PointId>,
    /// The switches; with three or more, the order along the strappers is
    /// chosen by length unless `in_order` is set.
    pub switches: Vec<PointId>,
    /// Whether the strappers must visit the switches as listed.
    #[serde(default, skip_serializing_if = "is_false")]
    pub in_order: bool,
}
