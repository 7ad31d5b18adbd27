//! The tables of a regime, each with its own type.

use std::collections::BTreeSet;

use super::read::{Rows, read};
use super::spec::{
    Balance, BreakerRating, CableOutline, CapacityLaw, CircuitArea, CircuitStandard, Clearance,
    ConductorResistance, CurrentCapacity, Custom, Demand, DisconnectionTime, EarthConductor,
    Grouping, Height, InstallationMethod, InsulationLength, InsulationTest, Joist, JoistCover,
    LetThrough, LightsSpread, Placing, PointLoad, PointsPerCircuit, PointsPerRoom, Reactance,
    ResidualGrouping, ResidualRating, ResidualTripTime, Ring, SetHeight, SocketContribution, Soil,
    SoilResistivity, SurroundingTemperature, Temperature, Terminal, TouchVoltage, TripDuration,
    TripMultiple, TypicalLoad, VoltDrop, VoltDropLimit, VoltageFactor, WallZone,
};
use super::table::Gathered;
use super::{Complete, Listed, Owner, Row, RuleError, Spec, Table};

/// Whether a regime that inherits nothing must have a table.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scope {
    /// They must.
    Everywhere,
    /// Only some regimes have it.
    Somewhere,
}

macro_rules! tables {
    ($($scope:ident $field:ident $Kind:ident<$Row:ident>)*) => {
        /// What every table is, and whether it must be there.
        pub const SPECS: &[(Spec, Scope)] = &[$((<$Row as Row>::SPEC, Scope::$scope)),*];

        /// The tables of a regime over those that it inherits.
        #[derive(Clone, Debug, PartialEq)]
        pub struct Tables {
            $(
                #[doc = concat!("`", stringify!($field), "`.")]
                pub $field: $Kind<$Row>,
            )*
        }

        /// The tables that a regime has itself.
        #[derive(Clone, Debug, Default, PartialEq)]
        pub(super) struct Own {
            /// The names of those that were read.
            read: BTreeSet<&'static str>,
            $($field: Rows<$Row>,)*
        }

        impl Tables {
            /// Of the rows of a regime, those that it inherits among them.
            pub(super) fn of(folder: &str, rows: &Own) -> Result<Self, RuleError> {
                Ok(Self { $($field: $Kind::gather(folder, &rows.$field)?,)* })
            }
        }

        impl Own {
            /// Reads a table over what is there: same key, the new row.
            pub(super) fn add(
                &mut self,
                name: &str,
                file: &str,
                text: &str,
                owner: Owner,
            ) -> Result<(), RuleError> {
                $(if name == <$Row as Row>::SPEC.name {
                    self.read.insert(<$Row as Row>::SPEC.name);
                    self.$field.extend(read::<$Row>(file, text, owner)?);
                    return Ok(());
                })*
                Err(unknown(name, file))
            }

            /// Its own rows first, then those of another for which it has none.
            pub(super) fn over(&self, base: &Self) -> Self {
                let mut all = self.clone();
                $(fill(&mut all.$field, &base.$field);)*
                all
            }

            /// Every table that was read, as texts.
            pub(super) fn listed(&self) -> Vec<Listed> {
                let all = [$(Listed::of(self.$field.values())),*];
                all.into_iter().filter(|table| self.read.contains(table.spec.name)).collect()
            }
        }
    };
}

impl Own {
    /// That no table is missing which must be there.
    pub(super) fn check_all_there(&self, folder: &str) -> Result<(), RuleError> {
        for (spec, scope) in SPECS {
            if *scope == Scope::Everywhere && !self.read.contains(spec.name) {
                let file = format!("{folder}/{}.csv", spec.name);
                return Err(RuleError::MissingTable { file });
            }
        }
        Ok(())
    }
}

fn fill<R: Row>(rows: &mut Rows<R>, base: &Rows<R>) {
    for (key, row) in base {
        if !rows.contains_key(key) {
            rows.insert(key.clone(), row.clone());
        }
    }
}

fn unknown(name: &str, file: &str) -> RuleError {
    let names = SPECS.iter().map(|(spec, _)| spec.name);
    let nearest = names.min_by_key(|known| strsim::levenshtein(known, name)).unwrap_or("");
    RuleError::UnknownTable { file: file.to_owned(), name: name.to_owned(), nearest }
}

tables! {
    Everywhere balance Complete<Balance>
    Everywhere breaker_rating Table<BreakerRating>
    Everywhere cable_outline Table<CableOutline>
    Everywhere capacity_law Table<CapacityLaw>
    Somewhere circuit_area Table<CircuitArea>
    Everywhere circuit_standard Complete<CircuitStandard>
    Everywhere clearance Complete<Clearance>
    Everywhere conductor_resistance Table<ConductorResistance>
    Everywhere current_capacity Table<CurrentCapacity>
    Everywhere custom Complete<Custom>
    Everywhere demand Table<Demand>
    Everywhere disconnection_time Complete<DisconnectionTime>
    Everywhere earth_conductor Table<EarthConductor>
    Everywhere grouping Table<Grouping>
    Somewhere height Table<Height>
    Everywhere installation_method Complete<InstallationMethod>
    Everywhere insulation_length Table<InsulationLength>
    Everywhere insulation_test Complete<InsulationTest>
    Everywhere joist Complete<Joist>
    Everywhere joist_cover Complete<JoistCover>
    Everywhere let_through Table<LetThrough>
    Everywhere lights_spread Complete<LightsSpread>
    Everywhere placing Complete<Placing>
    Everywhere point_load Table<PointLoad>
    Everywhere points_per_circuit Table<PointsPerCircuit>
    Everywhere points_per_room Table<PointsPerRoom>
    Everywhere reactance Table<Reactance>
    Somewhere residual_grouping Table<ResidualGrouping>
    Everywhere residual_rating Table<ResidualRating>
    Everywhere residual_trip_time Table<ResidualTripTime>
    Somewhere ring Table<Ring>
    Everywhere set_height Complete<SetHeight>
    Somewhere socket_contribution Table<SocketContribution>
    Everywhere soil Table<Soil>
    Everywhere soil_resistivity Complete<SoilResistivity>
    Everywhere surrounding_temperature Complete<SurroundingTemperature>
    Everywhere temperature Complete<Temperature>
    Everywhere terminal Complete<Terminal>
    Everywhere touch_voltage Table<TouchVoltage>
    Everywhere trip_duration Complete<TripDuration>
    Everywhere trip_multiple Complete<TripMultiple>
    Everywhere typical_load Complete<TypicalLoad>
    Somewhere volt_drop Table<VoltDrop>
    Everywhere volt_drop_limit Complete<VoltDropLimit>
    Everywhere voltage_factor Complete<VoltageFactor>
    Everywhere wall_zone Complete<WallZone>
}
