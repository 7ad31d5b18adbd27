//! The words that stand in tables: what a column may hold where it is no
//! number. A word that is none of these is refused when the table is read.

mod checks;
mod draft;
mod surroundings;

pub use checks::{
    BalanceOf, DemandGroup, DropUse, EarthingSystem, Fault, HeightOf, JoistRule, Phases,
    ResidualGroup, ResidualUse, SupplyFrom, TerminalOf, TripTime, TripType, VoltageFactorOf,
};
pub use draft::{
    ClearanceOf, CustomOf, LightsRule, LoopStandard, MountedAt, PlacingOf, PurposeOf, RingOrRadial,
    RoomOrEntrance, Standard, TypicalOf, YesNo,
};
pub use surroundings::{
    Around, Arrangement, InstalledMake, InsulationCover, JoistSide, Laid, OutlineMake, Site,
    Strand, TemperatureOf, ZoneRule,
};

/// Words of a column as a type: how they are written, and which there are.
macro_rules! words {
    ($(
        $(#[$doc:meta])*
        $Name:ident { $first:ident $first_text:literal $(, $word:ident $text:literal)* $(,)? }
    )*) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
            pub enum $Name {
                #[doc = concat!("`", $first_text, "`.")]
                $first,
                $(
                    #[doc = concat!("`", $text, "`.")]
                    $word,
                )*
            }

            $crate::rules::words::written!($Name { $first $first_text $(, $word $text)* });
        )*
    };
}

/// How words are written, for a type that there is already.
macro_rules! written {
    ($Name:ident { $first:ident $first_text:literal $(, $word:ident $text:literal)* }) => {
        impl $crate::rules::Column for $Name {
            const EXPECTED: &'static str =
                concat!("one of ", $first_text $(, ", ", $text)*);

            fn read(text: &str) -> Option<Self> {
                match $crate::rules::column::canonical(text).as_str() {
                    $first_text => Some(Self::$first),
                    $($text => Some(Self::$word),)*
                    _ => None,
                }
            }

            fn text(&self) -> String {
                match self {
                    Self::$first => $first_text,
                    $(Self::$word => $text,)*
                }
                .to_owned()
            }
        }

        impl $crate::rules::Every for $Name {
            const COUNT: usize = [$first_text $(, $text)*].len();

            fn ordinal(&self) -> usize {
                *self as usize
            }

            fn every() -> Vec<Self> {
                vec![Self::$first $(, Self::$word)*]
            }
        }
    };
}

use {words, written};
