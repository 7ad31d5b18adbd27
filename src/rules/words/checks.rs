//! Words of the tables that checks go by.

use super::{words, written};
use crate::plan::{CircuitUse, Curve};

words! {
    /// What is compared across phases.
    BalanceOf { HeaviestOverMean "heaviest_over_mean" }

    /// What is likely to be on together.
    DemandGroup {
        Lighting "lighting",
        Sockets "sockets",
        Sockets15A "sockets_15a",
        Cooking "cooking",
        Heating "heating",
        WaterStorage "water_storage",
        Other "other",
    }

    /// How an installation is earthed, as far as the tables tell it apart.
    EarthingSystem { Tn "TN", Tt "TT" }

    /// Which circuits a disconnection time is for.
    Fault { Final "final", Other "other" }

    /// Where the supply comes from.
    SupplyFrom { Public "public", Private "private" }

    /// What a volt drop is allowed for.
    DropUse { Lighting "lighting", Other "other" }

    /// Loaded phases of a cable.
    Phases { One "1", Three "3" }

    /// What heights are asked of.
    HeightOf { Socket "socket", Switch "switch", Board "board" }

    /// What a hole or a notch in a joist keeps to.
    JoistRule {
        HoleDiameter "hole_diameter",
        HoleSpacing "hole_spacing",
        NotchDepth "notch_depth",
    }

    /// How circuits share residual-current devices.
    ResidualGroup {
        CircuitsMax "circuits_max",
        DevicesMin "devices_min",
        LightingCircuitsMin "lighting_circuits_min",
    }

    /// What must have residual-current protection.
    ResidualUse {
        Sockets "sockets",
        Lighting "lighting",
        Alarms "alarms",
        Fixed "fixed",
        Submain "submain",
        Concealed "concealed",
    }

    /// What conductors end in.
    TerminalOf {
        Socket "socket",
        Light "light",
        Downlight "downlight",
        Switch "switch",
        Fixed "fixed",
    }

    /// How fast a breaker opens at once.
    TripTime { Instantaneous "instantaneous", HalfWave "half_wave" }

    /// How a residual-current device trips.
    TripType { General "general", Selective "selective" }

    /// What a share of the voltage is for.
    VoltageFactorOf {
        Fault "fault",
        MeasuredCold "measured_cold",
        Conventional "conventional",
    }
}

written!(Curve { B "B", C "C", D "D" });

impl From<CircuitUse> for ResidualUse {
    fn from(usage: CircuitUse) -> Self {
        match usage {
            CircuitUse::Sockets => Self::Sockets,
            CircuitUse::Lighting => Self::Lighting,
            CircuitUse::Alarms => Self::Alarms,
            CircuitUse::Fixed => Self::Fixed,
            CircuitUse::Submain => Self::Submain,
        }
    }
}
