//! Words for cables and what is around them.

use super::words;
use crate::rules::Method;

words! {
    /// What a cable runs through.
    Around {
        RoofSpace "roof_space",
        BetweenFloors "between_floors",
        Subfloor "subfloor",
        Ground "ground",
        HollowWall "hollow_wall",
        Chase "chase",
        Cavity "cavity",
        Surface "surface",
        Plate "plate",
        Post "post",
    }

    /// How a cable is made, as far as its rating goes.
    InstalledMake { Sheathed "sheathed", Armoured "armoured", Conduit "conduit" }

    /// Thermal insulation around a cable, by its thickness in millimetres.
    InsulationCover { None "none", UpTo100 "up_to_100", Over100 "over_100" }

    /// How cables lie together.
    Arrangement { Bunched "bunched", Layer "layer" }

    /// How a cable lies in the ground.
    Laid { Duct "duct", Direct "direct" }

    /// Where soil is asked for.
    Site { Site "site" }

    /// How a conductor is made.
    Strand { Fixed "fixed", Flexible "flexible" }

    /// The outline of a cable.
    OutlineMake { Flat "flat", Round "round" }

    /// Which side of a joist is covered.
    JoistSide { Face "face" }

    /// What of a wall hides a cable.
    ZoneRule {
        Strip "strip",
        Depth "depth",
        ThinWall "thin_wall",
        ChaseDepth "chase_depth",
    }

    /// What a temperature is of.
    TemperatureOf {
        Conductor "conductor",
        ReferenceAir "reference_air",
        ReferenceGround "reference_ground",
        ZeroResistance "zero_resistance",
        FaultEnd "fault_end",
        Resistance "resistance",
        Test "test",
    }
}

impl Laid {
    /// How a cable lies that is rated by a method.
    #[must_use]
    pub fn by(method: &Method) -> Self {
        match method.name() {
            "D2" | "ground_direct" => Self::Direct,
            _ => Self::Duct,
        }
    }
}
