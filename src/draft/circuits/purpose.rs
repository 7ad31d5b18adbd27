//! What a circuit is for.

use crate::plan::{CircuitUse, PointKind};
use crate::rules::words::PurposeOf;

/// What a circuit is for, as the table names it, and its order at the board.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Purpose {
    Lighting,
    Sockets,
    Kitchen,
    Wet,
    Fixed(PointKind),
    Alarms,
}

impl Purpose {
    /// As the table of usual circuits has it.
    pub(super) const fn of(self) -> PurposeOf {
        match self {
            Self::Lighting => PurposeOf::Lighting,
            Self::Sockets => PurposeOf::Sockets,
            Self::Kitchen => PurposeOf::Kitchen,
            Self::Wet => PurposeOf::Wet,
            Self::Fixed(PointKind::Oven) => PurposeOf::Oven,
            Self::Fixed(PointKind::Cooktop) => PurposeOf::Cooktop,
            Self::Fixed(PointKind::AirConditioner) => PurposeOf::AirConditioner,
            Self::Fixed(_) => PurposeOf::Appliance,
            Self::Alarms => PurposeOf::Alarms,
        }
    }

    pub(super) const fn usage(self) -> CircuitUse {
        match self {
            Self::Lighting => CircuitUse::Lighting,
            Self::Sockets | Self::Kitchen | Self::Wet => CircuitUse::Sockets,
            Self::Fixed(_) => CircuitUse::Fixed,
            Self::Alarms => CircuitUse::Alarms,
        }
    }

    pub(super) fn name(self) -> String {
        match self {
            Self::Lighting => "Lights".to_owned(),
            Self::Sockets => "Sockets".to_owned(),
            Self::Kitchen => "Kitchen sockets".to_owned(),
            Self::Wet => "Laundry and bath sockets".to_owned(),
            Self::Fixed(kind) => {
                let name = kind.name();
                let mut letters = name.chars();
                letters.next().map_or_else(String::new, |first| {
                    first.to_uppercase().collect::<String>() + letters.as_str()
                })
            }
            Self::Alarms => "Alarms".to_owned(),
        }
    }
}
