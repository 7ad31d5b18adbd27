//! What tables there are, and what their columns hold: each is described
//! once, here, and everything else follows from that.

mod cables;
mod demand;
mod devices;
mod draft;
mod places;
mod supply;

pub use cables::{
    CableOutline, CapacityLaw, ConductorResistance, CurrentCapacity, EarthConductor, Grouping,
    InstallationMethod, InsulationLength, Reactance, Soil, SoilResistivity, SurroundingTemperature,
    Temperature,
};
pub use demand::{Demand, PointLoad, PointsPerCircuit, SocketContribution, TypicalLoad};
pub use devices::{
    BreakerRating, LetThrough, ResidualGrouping, ResidualRating, ResidualTripTime, Ring, Terminal,
    TripDuration, TripMultiple,
};
pub use draft::{
    CircuitArea, CircuitStandard, Custom, LightsSpread, Placing, PointsPerRoom, SetHeight,
};
pub use places::{Clearance, Height, Joist, JoistCover, WallZone};
pub use supply::{
    Balance, DisconnectionTime, InsulationTest, TouchVoltage, VoltDrop, VoltDropLimit,
    VoltageFactor,
};

/// A row as a type, and what its table is, from one description: its name, its
/// key columns, its value columns, each with its heading and what it holds,
/// and what physics says of it.
macro_rules! table {
    (
        $(#[$doc:meta])*
        $Row:ident $name:literal
        by { $($(#[$key_doc:meta])* $key:ident $key_heading:literal $Key:ty),* $(,)? }
        holds { $($(#[$doc_of:meta])* $value:ident $heading:literal $Value:ty),* $(,)? }
        $(trend $trend:ident { $by:literal $of:literal })?
    ) => {
        $(#[$doc])*
        #[derive(Clone, Debug, PartialEq)]
        pub struct $Row {
            $($(#[$key_doc])* pub $key: $Key,)*
            $($(#[$doc_of])* pub $value: $Value,)*
            /// Where it comes from.
            pub cited: $crate::rules::Cited,
        }

        const _: () = {
            $(assert!($crate::rules::Heading::of::<$Key>($key_heading).says_its_unit());)*
            $(assert!($crate::rules::Heading::of::<$Value>($heading).says_its_unit());)*
        };

        impl $Row {
            /// Where it comes from, how sure it is, and whose it is.
            #[must_use]
            pub fn credit(&self) -> String {
                self.cited.credit()
            }
        }

        impl $crate::rules::Row for $Row {
            type Key = $crate::rules::spec::parts!(type $($Key),*);
            const SPEC: $crate::rules::Spec = $crate::rules::Spec {
                name: $name,
                keys: &[$($crate::rules::Heading::of::<$Key>($key_heading)),*],
                values: &[$($crate::rules::Heading::of::<$Value>($heading)),*],
                trend: $crate::rules::spec::trend!($($trend $by $of)?),
            };

            fn read(
                cells: &mut $crate::rules::Cells<'_>,
            ) -> Result<Self, $crate::rules::RuleError> {
                Ok(Self {
                    $($key: cells.take()?,)*
                    $($value: cells.take()?,)*
                    cited: cells.cited()?,
                })
            }

            fn key(&self) -> Self::Key {
                $crate::rules::spec::parts!(value $(self.$key.clone()),*)
            }

            fn texts(&self) -> Vec<String> {
                vec![
                    $($crate::rules::Column::text(&self.$key),)*
                    $($crate::rules::Column::text(&self.$value),)*
                ]
            }

            fn cited(&self) -> &$crate::rules::Cited {
                &self.cited
            }
        }
    };
}

/// The trend of a table, where it has one.
macro_rules! trend {
    () => {
        None
    };
    ($trend:ident $by:literal $of:literal) => {
        Some($crate::rules::Trend::$trend { by: $by, value: $of })
    };
}

/// The key of one column is its cell, of several all of them.
macro_rules! parts {
    (type $one:ty) => {
        $one
    };
    (type $($part:ty),*) => {
        ($($part),*)
    };
    (value $one:expr) => {
        $one
    };
    (value $($part:expr),*) => {
        ($($part),*)
    };
}

use {parts, table, trend};
