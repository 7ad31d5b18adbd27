//! What a circuit is for.

use crate::plan::{CircuitUse, PointKind};

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
    pub(super) const fn key(self) -> &'static str {
        match self {
            Self::Lighting => "lighting",
            Self::Sockets => "sockets",
            Self::Kitchen => "kitchen",
            Self::Wet => "wet",
            Self::Fixed(PointKind::Oven) => "oven",
            Self::Fixed(PointKind::Cooktop) => "cooktop",
            Self::Fixed(PointKind::AirConditioner) => "air_conditioner",
            Self::Fixed(_) => "appliance",
            Self::Alarms => "alarms",
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
