//! Loads: what points take, and how much of it at once.

use super::table;
use crate::plan::{CircuitUse, PointKind};
use crate::rules::words::{DemandGroup, TypicalOf};
use crate::rules::{Count, Percent};
use crate::units::{Amps, Watts};

table! {
    /// How much of a group is likely to be taken at once.
    Demand "demand"
    by {
        /// The group.
        group "group" DemandGroup,
    }
    holds {
        /// How many points the first step covers.
        count_first "count_first" Option<Count>,
        /// For those.
        current_first "current_first_a" Option<Amps>,
        /// How many more points a further step covers.
        count_step "count_step" Option<Count>,
        /// For each further step.
        current_step "current_step_a" Option<Amps>,
        /// What of a load counts in full.
        full "full_a" Option<Amps>,
        /// Of what is beyond, or of the others.
        rest "rest_percent" Option<Percent>,
        /// Of the largest load.
        largest "largest_percent" Option<Percent>,
    }
}

table! {
    /// The load to design a kind of point for.
    PointLoad "point_load"
    by {
        /// The kind.
        kind "kind" PointKind,
    }
    holds {
        /// Of one.
        load "load_w" Watts,
    }
}

table! {
    /// How many points a circuit takes.
    PointsPerCircuit "points_per_circuit"
    by {
        /// Its use.
        usage "use" CircuitUse,
        /// Its device.
        rating "rating_a" Amps,
    }
    holds {
        /// At most.
        points "points" Count,
    }
    trend Rising { "rating_a" "points" }
}

table! {
    /// What a socket on a mixed circuit counts for.
    SocketContribution "socket_contribution"
    by {
        /// How many outlets it has.
        gangs "gangs" Count,
    }
    holds {
        /// For all of it.
        current "current_a" Amps,
    }
}

table! {
    /// What an appliance typically takes.
    TypicalLoad "typical_load"
    by {
        /// The appliance.
        kind "kind" TypicalOf,
    }
    holds {
        /// By its plate.
        load "load_w" Watts,
    }
}
