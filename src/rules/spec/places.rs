//! Places: how high, how far from water and heat, how deep in walls and wood.

use super::table;
use crate::rules::Millimetres;
use crate::rules::words::{ClearanceOf, HeightOf, JoistRule, JoistSide, ZoneRule};

table! {
    /// How far things keep from water and heat.
    Clearance "clearance"
    by {
        /// What keeps from what.
        what "what" ClearanceOf,
    }
    holds {
        /// At least.
        distance "distance_mm" Millimetres,
    }
}

table! {
    /// Between what heights a thing is set.
    Height "height"
    by {
        /// The thing.
        kind "kind" HeightOf,
    }
    holds {
        /// Above the floor.
        least "height_min_mm" Option<Millimetres>,
        /// Above the floor.
        most "height_max_mm" Option<Millimetres>,
    }
}

table! {
    /// What may be taken out of a joist.
    Joist "joist"
    by {
        /// How.
        what "what" JoistRule,
    }
    holds {
        /// Of the depth, or of the diameter.
        ratio "ratio" f64,
    }
}

table! {
    /// How deep a cable lies in a joist.
    JoistCover "joist_cover"
    by {
        /// From where.
        what "what" JoistSide,
    }
    holds {
        /// At least.
        distance "distance_mm" Millimetres,
    }
}

table! {
    /// Where people expect a cable in a wall.
    WallZone "wall_zone"
    by {
        /// What of the wall.
        what "what" ZoneRule,
    }
    holds {
        /// So wide, or so deep.
        distance "distance_mm" Millimetres,
    }
}
