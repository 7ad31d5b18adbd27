//! Supply: volt drop, faults to earth, phases, and how it is tested.

use super::table;
use crate::rules::words::{
    BalanceOf, DropUse, EarthingSystem, Fault, Phases, SupplyFrom, VoltageFactorOf,
};
use crate::rules::{MillivoltsPerAmpMetre, Percent};
use crate::units::{Csa, Megohms, Seconds, Volts};

table! {
    /// How far phases may differ.
    Balance "balance"
    by {
        /// What is compared.
        what "what" BalanceOf,
    }
    holds {
        /// At most.
        factor "factor" f64,
    }
}

table! {
    /// In what time a fault to earth is cut off.
    DisconnectionTime "disconnection_time"
    by {
        /// How the installation is earthed.
        earthing "earthing" EarthingSystem,
        /// Which circuits.
        usage "use" Fault,
    }
    holds {
        /// At most.
        time "time_s" Seconds,
    }
}

table! {
    /// How insulation is tested.
    InsulationTest "insulation_test"
    by {}
    holds {
        /// The voltage of the test.
        voltage "voltage_v" Volts,
        /// What it must read, at least.
        resistance "resistance_mohm" Megohms,
    }
}

table! {
    /// The voltage that may stay on what is touched.
    TouchVoltage "touch_voltage"
    by {
        /// How the installation is earthed.
        earthing "earthing" EarthingSystem,
    }
    holds {
        /// At most.
        voltage "voltage_v" Volts,
    }
}

table! {
    /// Volt drop as a standard prints it.
    VoltDrop "volt_drop"
    by {
        /// Loaded phases.
        phases "phases" Phases,
        /// The conductors.
        size "size_mm2" Csa,
    }
    holds {
        /// By current and length.
        drop "drop_mv_per_a_m" MillivoltsPerAmpMetre,
    }
    trend Falling { "size_mm2" "drop_mv_per_a_m" }
}

table! {
    /// How much of the voltage may be lost.
    VoltDropLimit "volt_drop_limit"
    by {
        /// Where the supply comes from.
        supply "supply" SupplyFrom,
        /// What is fed.
        usage "use" DropUse,
    }
    holds {
        /// At most.
        limit "limit_percent" Percent,
    }
}

table! {
    /// Shares of the voltage, or of a limit.
    VoltageFactor "voltage_factor"
    by {
        /// For what.
        what "what" VoltageFactorOf,
    }
    holds {
        /// Of the whole.
        factor "factor" f64,
    }
}
