//! Words of the tables that a draft goes by.

use serde::{Deserialize, Serialize};

use super::{words, written};
use crate::plan::RoomUse;
use crate::rules::Column;

words! {
    /// Of what a thing keeps clear, and how far.
    ClearanceOf {
        BathSocket "bath_socket",
        BathSwitch "bath_switch",
        SinkSocket "sink_socket",
        CooktopSocket "cooktop_socket",
        CooktopHalfWidth "cooktop_half_width",
        BenchHeightMax "bench_height_max",
        ShowerRadius "shower_radius",
    }

    /// What is the custom in one regime and not in another.
    CustomOf {
        ResidualCoversZone "residual_covers_zone",
        PullCordInBathroom "pull_cord_in_bathroom",
        TwoGangBoxForDoubleSocket "two_gang_box_for_double_socket",
    }

    /// Whether something is so.
    YesNo { Yes "yes", No "no" }

    /// Back to the board, or not.
    RingOrRadial { Ring "ring", Radial "radial" }

    /// What says how lights are spread.
    LightsRule { LightsOnOneMax "lights_on_one_max" }

    /// Where the feed of a circuit is looped.
    LoopStandard { None "none", Light "light", Switch "switch" }

    /// What is set at a height of its own.
    MountedAt {
        Socket "socket",
        WeatherproofSocket "weatherproof_socket",
        BenchSocket "bench_socket",
        Switch "switch",
        WallLight "wall_light",
        Oven "oven",
        Cooktop "cooktop",
        RangeHood "range_hood",
        ExhaustFan "exhaust_fan",
        AirConditioner "air_conditioner",
        DoorMotor "door_motor",
        Board "board",
        BelowCeiling "below_ceiling",
    }

    /// What a distance of placing is from, or between.
    PlacingOf {
        Corner "corner",
        Door "door",
        Window "window",
        SwitchFromDoor "switch_from_door",
        SocketSpacing "socket_spacing",
        BenchSpacing "bench_spacing",
        BoardClear "board_clear",
        BoardFromDoor "board_from_door",
        AlarmFromWall "alarm_from_wall",
        AlarmFromLight "alarm_from_light",
        LightFromWall "light_from_wall",
        CooktopHalfWidth "cooktop_half_width",
        CooktopFromCorner "cooktop_from_corner",
        SmokeFromCooking "smoke_from_cooking",
        SmokeFromBathroom "smoke_from_bathroom",
        SocketApart "socket_apart",
        SocketApartLeast "socket_apart_least",
        EntranceLight "entrance_light",
        SmallKitchenSpacing "small_kitchen_spacing",
    }

    /// What a circuit is drafted for.
    PurposeOf {
        Sockets "sockets",
        Kitchen "kitchen",
        Wet "wet",
        Lighting "lighting",
        Alarms "alarms",
        Oven "oven",
        Cooktop "cooktop",
        AirConditioner "air_conditioner",
        Appliance "appliance",
    }

    /// What has a typical load.
    TypicalOf {
        Oven "oven",
        Cooktop "cooktop",
        AirConditioner "air_conditioner",
        Appliance "appliance",
    }
}

/// How much of everything a room gets.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Standard {
    /// What must be.
    Basic,
    /// What most people want.
    #[default]
    Good,
    /// What no one will ever wish more of.
    Generous,
}

impl Standard {
    /// As the tables name it.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Basic => "basic",
            Self::Good => "good",
            Self::Generous => "generous",
        }
    }
}

written!(Standard { Basic "basic", Good "good", Generous "generous" });

/// What is supplied: a room by its use, or an entrance from outside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RoomOrEntrance {
    /// A room.
    Room(RoomUse),
    /// The outside of an outer door.
    Entrance,
}

impl Column for RoomOrEntrance {
    const EXPECTED: &'static str = "the use of a room, or entrance";

    fn read(text: &str) -> Option<Self> {
        if text == "entrance" { Some(Self::Entrance) } else { RoomUse::read(text).map(Self::Room) }
    }

    fn text(&self) -> String {
        match self {
            Self::Room(usage) => usage.text(),
            Self::Entrance => "entrance".to_owned(),
        }
    }
}
