//! What a draft goes by: how many of what, where, and on which circuit.

use super::table;
use crate::plan::{Curve, PointKind, Wiring};
use crate::rules::words::{
    CustomOf, LightsRule, LoopStandard, MountedAt, PlacingOf, PurposeOf, RingOrRadial,
    RoomOrEntrance, Standard, YesNo,
};
use crate::rules::{Complete, Count, Millimetres, SquareMetres};
use crate::units::{Amps, Csa};

table! {
    /// The floor that the sockets of a circuit may serve.
    CircuitArea "circuit_area"
    by {
        /// How it is wired.
        wiring "wiring" RingOrRadial,
    }
    holds {
        /// At most.
        area "area_m2" SquareMetres,
    }
}

table! {
    /// How a circuit is usually made.
    CircuitStandard "circuit_standard"
    by {
        /// What it is for.
        purpose "purpose" PurposeOf,
    }
    holds {
        /// Its cable.
        size "size_mm2" Csa,
        /// Its device.
        rating "rating_a" Amps,
        /// The curve of its device.
        curve "curve" Curve,
        /// How it is wired.
        wiring "wiring" Wiring,
        /// Where its feed is looped.
        looped "loop" LoopStandard,
        /// What one circuit more is worth in cable.
        fixed "fixed_mm" Millimetres,
    }
}

table! {
    /// What is the custom in one regime and not in another.
    Custom "custom"
    by {
        /// The custom.
        what "what" CustomOf,
    }
    holds {
        /// Whether it is one.
        holds "holds" YesNo,
    }
}

table! {
    /// How many lights one circuit may leave dark.
    LightsSpread "lights_spread"
    by {
        /// What is counted.
        what "what" LightsRule,
    }
    holds {
        /// At most.
        count "count" Count,
    }
}

table! {
    /// A distance by which things are placed.
    Placing "placing"
    by {
        /// From what, or between what.
        what "what" PlacingOf,
    }
    holds {
        /// So far.
        distance "distance_mm" Millimetres,
    }
}

table! {
    /// How many of an item a room gets.
    PointsPerRoom "points_per_room"
    by {
        /// The use of the room.
        usage "use" RoomOrEntrance,
        /// How generously it is supplied.
        standard "standard" Standard,
        /// The item.
        item "item" PointKind,
        /// The floor from which on it holds.
        area_from "area_from_m2" SquareMetres,
    }
    holds {
        /// So many.
        count "count" Count,
    }
    trend Rising { "area_from_m2" "count" }
}

table! {
    /// The height at which a thing is set.
    SetHeight "set_height"
    by {
        /// The thing.
        kind "kind" MountedAt,
    }
    holds {
        /// Above the floor; below the ceiling where it says so.
        height "height_mm" Millimetres,
    }
}

impl Complete<Custom> {
    /// Whether something is the custom.
    #[must_use]
    pub fn has(&self, what: CustomOf) -> bool {
        self.row(what).holds == YesNo::Yes
    }
}
