//! Cables: what they oppose to current, and what they carry where they lie.

use super::table;
use crate::rules::words::{
    Around, Arrangement, InstalledMake, InsulationCover, Laid, OutlineMake, Site, Strand,
    TemperatureOf,
};
use crate::rules::{Count, Method, Millimetres, OhmsPerKm};
use crate::units::{Amps, Celsius, Csa, KelvinMetresPerWatt};

table! {
    /// How thick a cable is.
    CableOutline "cable_outline"
    by {
        /// Its shape.
        make "make" OutlineMake,
        /// Its conductors.
        size "size_mm2" Csa,
    }
    holds {
        /// Across.
        width "width_mm" Millimetres,
        /// Through; for a round one the same.
        thickness "thickness_mm" Millimetres,
    }
    trend Rising { "size_mm2" "width_mm" }
}

table! {
    /// A rating by a law: I = a · size^exponent, for two loaded conductors.
    CapacityLaw "capacity_law"
    by {
        /// How it is installed.
        method "method" Method,
    }
    holds {
        /// What 1 mm² carries.
        coefficient "coefficient_a" Amps,
        /// The power of the size.
        exponent "exponent" f64,
        /// The temperature of the conductor.
        conductor "conductor_c" Celsius,
        /// The temperature around it.
        ambient "ambient_c" Celsius,
    }
}

table! {
    /// What a conductor opposes to current at 20 °C.
    ConductorResistance "conductor_resistance"
    by {
        /// How it is made.
        conductor "conductor" Strand,
        /// Its cross-section.
        size "size_mm2" Csa,
    }
    holds {
        /// Of one conductor.
        resistance "resistance_20c_ohm_per_km" OhmsPerKm,
    }
    trend Falling { "size_mm2" "resistance_20c_ohm_per_km" }
}

table! {
    /// What a cable carries, two of its conductors loaded.
    CurrentCapacity "current_capacity"
    by {
        /// How it is installed.
        method "method" Method,
        /// Its conductors.
        size "size_mm2" Csa,
    }
    holds {
        /// At the reference temperatures, by itself.
        capacity "capacity_a" Amps,
    }
    trend Rising { "size_mm2" "capacity_a" }
}

table! {
    /// The protective conductor of a cable.
    EarthConductor "earth_conductor"
    by {
        /// Its live conductors.
        size "size_mm2" Csa,
    }
    holds {
        /// Its protective conductor.
        earth "earth_mm2" Csa,
    }
    trend Rising { "size_mm2" "earth_mm2" }
}

table! {
    /// What cables carry in company.
    Grouping "grouping"
    by {
        /// How they lie.
        arrangement "arrangement" Arrangement,
        /// How many there are.
        circuits "circuits" Count,
    }
    holds {
        /// Of what one carries by itself.
        factor "factor" f64,
    }
    trend Falling { "circuits" "factor" }
}

table! {
    /// By which method a cable is rated where it lies.
    InstallationMethod "installation_method"
    by {
        /// What it runs through.
        surrounding "surrounding" Around,
        /// How it is made.
        make "make" InstalledMake,
        /// Thermal insulation around it.
        insulation "insulation" InsulationCover,
    }
    holds {
        /// As the tables of ratings call it.
        method "method" Method,
        /// How others lie beside it.
        grouping "grouping" Arrangement,
    }
}

table! {
    /// What a cable carries that passes through insulation for a short way.
    InsulationLength "insulation_length"
    by {
        /// How far.
        length "length_mm" Millimetres,
    }
    holds {
        /// Of what it carries outside.
        factor "factor" f64,
    }
    trend Falling { "length_mm" "factor" }
}

table! {
    /// The reactance of a conductor.
    Reactance "reactance"
    by {
        /// Its cross-section.
        size "size_mm2" Csa,
    }
    holds {
        /// Of one conductor.
        reactance "reactance_ohm_per_km" OhmsPerKm,
    }
    trend Falling { "size_mm2" "reactance_ohm_per_km" }
}

table! {
    /// What a cable carries in soil other than the reference.
    Soil "soil"
    by {
        /// How it lies.
        laid "method" Laid,
        /// How badly the soil leads heat away.
        resistivity "resistivity_km_per_w" KelvinMetresPerWatt,
    }
    holds {
        /// Of what it carries in the reference.
        factor "factor" f64,
    }
    trend Falling { "resistivity_km_per_w" "factor" }
}

table! {
    /// The soil of the site.
    SoilResistivity "soil_resistivity"
    by {
        /// Where.
        place "where" Site,
    }
    holds {
        /// How badly it leads heat away.
        resistivity "resistivity_km_per_w" KelvinMetresPerWatt,
    }
}

table! {
    /// How warm it is around a cable.
    SurroundingTemperature "surrounding_temperature"
    by {
        /// What it runs through.
        surrounding "surrounding" Around,
    }
    holds {
        /// There.
        temperature "temperature_c" Celsius,
    }
}

table! {
    /// Temperatures that ratings and resistances are for.
    Temperature "temperature"
    by {
        /// Of what.
        what "what" TemperatureOf,
    }
    holds {
        /// Of that.
        temperature "temperature_c" Celsius,
    }
}
