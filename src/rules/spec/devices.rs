//! Devices: what they trip at and let through, and what is joined to them.

use super::table;
use crate::plan::Curve;
use crate::rules::words::{ResidualGroup, ResidualUse, TerminalOf, TripTime, TripType};
use crate::rules::{AmpsSquaredSeconds, Count, Kiloamps};
use crate::units::{Amps, Csa, Milliseconds, Seconds};

table! {
    /// A rating in which breakers are made.
    BreakerRating "breaker_rating"
    by {
        /// The rating.
        rating "rating_a" Amps,
    }
    holds {}
}

table! {
    /// The energy that a breaker lets through, by its class.
    LetThrough "let_through"
    by {
        /// Its curve.
        curve "curve" Curve,
        /// Its rating, and any below.
        rating "rating_a" Amps,
        /// The fault current, and any below.
        fault "fault_ka" Kiloamps,
    }
    holds {
        /// At most.
        energy "energy_a2s" AmpsSquaredSeconds,
    }
    trend Rising { "rating_a" "energy_a2s" }
}

table! {
    /// How circuits share residual-current devices.
    ResidualGrouping "residual_grouping"
    by {
        /// What is counted.
        what "what" ResidualGroup,
    }
    holds {
        /// The limit.
        count "count" Count,
    }
}

table! {
    /// The residual current at which a circuit must trip.
    ResidualRating "residual_rating"
    by {
        /// What it feeds.
        usage "use" ResidualUse,
    }
    holds {
        /// At most.
        residual "residual_a" Amps,
    }
}

table! {
    /// How long a residual-current device may take.
    ResidualTripTime "residual_trip_time"
    by {
        /// How it trips.
        trips "type" TripType,
        /// The current, in multiples of its rating.
        multiple "multiple" f64,
    }
    holds {
        /// At most.
        time "time_ms" Milliseconds,
    }
}

table! {
    /// What the cable of a ring must carry.
    Ring "ring"
    by {
        /// The device of the ring.
        rating "rating_a" Amps,
    }
    holds {
        /// At least.
        capacity "capacity_a" Amps,
    }
}

table! {
    /// What a terminal takes.
    Terminal "terminal"
    by {
        /// Of what.
        kind "kind" TerminalOf,
    }
    holds {
        /// The largest conductor.
        size "size_mm2_max" Csa,
        /// All conductors together.
        total "total_mm2_max" Csa,
        /// How many conductors.
        ends "ends_max" Count,
    }
}

table! {
    /// How long a breaker takes that opens at once.
    TripDuration "trip_duration"
    by {
        /// How it opens.
        what "what" TripTime,
    }
    holds {
        /// At most.
        time "time_s" Seconds,
    }
}

table! {
    /// At how many times its rating a breaker opens at once.
    TripMultiple "trip_multiple"
    by {
        /// Its curve.
        curve "curve" Curve,
    }
    holds {
        /// Not below this.
        at_least "at_least" f64,
        /// Surely from this on.
        at_most "at_most" f64,
        /// What the loop is held to.
        disconnection "disconnection" f64,
    }
}
