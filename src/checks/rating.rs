//! How much current a stretch of cable can carry where it lies.

use super::ambient::{ambient_factor, temperature_factor};
use super::between_rows::{line_between, power_between};
use crate::plan::{Cable, CableMake, Regime};
use crate::rules::spec::InstallationMethod;
use crate::rules::words::{
    Around, Arrangement, InstalledMake, InsulationCover, Laid, Site, TemperatureOf,
};
use crate::rules::{Absent, Column, Method, RuleBook, Tables};
use crate::runs::Surrounding;
use crate::units::{Celsius, Mm};

/// What decides the rating of a stretch of cable.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stretch {
    /// The cable.
    pub cable: Cable,
    /// How many of its cores carry the load: 2, or 3 in three phases.
    pub loaded: u8,
    /// What it runs through.
    pub through: Surrounding,
    /// Thickness of the insulation around it.
    pub insulation: Mm,
    /// How far it runs within insulation, where it only passes through some.
    pub passing: Option<Mm>,
    /// How many loaded circuits lie together, itself included.
    pub circuits: u32,
}

/// The rating of a stretch, with what made it.
#[derive(Clone, Debug, PartialEq)]
pub struct Rating {
    /// What it can carry, A.
    pub capacity: f64,
    /// The installation method, as the regime's tables call it.
    pub method: String,
    /// Before correction, A.
    pub base: f64,
    /// Where that comes from.
    pub base_source: String,
    /// Whether it is an estimate by stated physics.
    pub estimated: bool,
    /// What is around it, °C.
    pub around: Celsius,
    /// For the temperature around it. 1 where the base already knows it.
    pub ambient: f64,
    /// For the company it lies in.
    pub grouping: f64,
    /// For a short way through insulation.
    pub passing: f64,
    /// For soil other than the reference.
    pub soil: f64,
}

/// Rates a stretch of cable.
///
/// Iz = base · ambient · grouping · passing · soil
///
/// The base is the row of `current_capacity` for method and size, or else the
/// law I = a·Sⁿ of `capacity_law`, brought to the temperatures of the regime:
/// an estimate. Three loaded conductors give off half as much heat again as
/// two, so carry √(2/3) of it: on the safe side of the tables, which have
/// 0.87 to 0.92.
///
/// # Errors
/// [`Absent`] where a table has no row for it.
pub fn rate(stretch: &Stretch, rules: &RuleBook, regime: Regime) -> Result<Rating, Absent> {
    let tables = rules.of(regime);
    let how = method(stretch, tables);
    let ground = stretch.through == Surrounding::Ground;
    let conductor = tables.temperature.row(TemperatureOf::Conductor).temperature;
    let reference = match ground {
        true => TemperatureOf::ReferenceGround,
        false => TemperatureOf::ReferenceAir,
    };
    let reference = tables.temperature.row(reference).temperature;
    let around = tables.surrounding_temperature.row(stretch.through.into()).temperature;
    let (base, base_source, estimated) =
        match tables.current_capacity.row((how.method.clone(), stretch.cable.size)) {
            Ok(row) => (row.capacity.0, row.credit(), false),
            Err(_) => by_law(&how.method, stretch, tables, conductor, reference)?,
        };
    let base = if stretch.loaded >= 3 { base * (2.0f64 / 3.0).sqrt() } else { base };
    let ambient = ambient_factor(conductor, around, reference);
    let grouping = grouping_factor(how.grouping, stretch.circuits, tables)?;
    let passing = passing_factor(stretch.passing, tables);
    let soil = if ground { soil_factor(&how.method, tables)? } else { 1.0 };
    Ok(Rating {
        capacity: base * ambient * grouping * passing * soil,
        method: how.method.name().to_owned(),
        base,
        base_source,
        estimated: estimated || stretch.loaded >= 3,
        around,
        ambient,
        grouping,
        passing,
        soil,
    })
}

/// The row that says by which method a stretch is rated. A cable that only
/// passes through insulation is rated as if there were none, and corrected for
/// the way it takes.
fn method<'r>(stretch: &Stretch, tables: &'r Tables) -> &'r InstallationMethod {
    let make = match stretch.cable.make {
        CableMake::Flat | CableMake::Round => InstalledMake::Sheathed,
        CableMake::Armoured => InstalledMake::Armoured,
        CableMake::SinglesInConduit => InstalledMake::Conduit,
    };
    let insulation = match stretch.insulation.get() {
        _ if stretch.passing.is_some() => InsulationCover::None,
        ..=0 => InsulationCover::None,
        1..=100 => InsulationCover::UpTo100,
        _ => InsulationCover::Over100,
    };
    tables.installation_method.row((stretch.through.into(), make, insulation))
}

fn by_law(
    method: &Method,
    stretch: &Stretch,
    tables: &Tables,
    conductor: Celsius,
    reference: Celsius,
) -> Result<(f64, String, bool), Absent> {
    let law = tables.capacity_law.row(method.clone())?;
    let given = law.coefficient.0 * libm::pow(stretch.cable.size.mm2(), law.exponent);
    let factor = temperature_factor(conductor, reference, law.conductor, law.ambient);
    Ok((given * factor, law.credit(), true))
}

fn grouping_factor(
    arrangement: Arrangement,
    circuits: u32,
    tables: &Tables,
) -> Result<f64, Absent> {
    if circuits <= 1 {
        return Ok(1.0);
    }
    let rows = tables.grouping.rows().filter(|row| row.arrangement == arrangement);
    let rows = rising(rows.map(|row| (row.circuits.figure(), row.factor)));
    power_between(&rows, f64::from(circuits))
        .ok_or_else(|| tables.grouping.lacks(arrangement.text()))
}

/// The factor for a short way through insulation; half for 500 mm or more.
fn passing_factor(passing: Option<Mm>, tables: &Tables) -> f64 {
    let Some(length) = passing else { return 1.0 };
    let rows = tables.insulation_length.rows().map(|row| (row.length.exact(), row.factor));
    let rows = rising(std::iter::once((0.0, 1.0)).chain(rows));
    line_between(&rows, length.to_f64()).unwrap_or(0.5)
}

fn soil_factor(method: &Method, tables: &Tables) -> Result<f64, Absent> {
    let site = tables.soil_resistivity.row(Site::Site).resistivity;
    let laid = Laid::by(method);
    let rows = tables.soil.rows().filter(|row| row.laid == laid);
    let rows = rising(rows.map(|row| (row.resistivity.0, row.factor)));
    line_between(&rows, site.0).ok_or_else(|| tables.soil.lacks(laid.text()))
}

/// Pairs of numbers, the first of them rising.
fn rising(pairs: impl Iterator<Item = (f64, f64)>) -> Vec<(f64, f64)> {
    let mut pairs: Vec<(f64, f64)> = pairs.collect();
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    pairs
}

impl From<Surrounding> for Around {
    fn from(through: Surrounding) -> Self {
        match through {
            Surrounding::RoofSpace => Self::RoofSpace,
            Surrounding::BetweenFloors => Self::BetweenFloors,
            Surrounding::Subfloor => Self::Subfloor,
            Surrounding::Ground => Self::Ground,
            Surrounding::HollowWall => Self::HollowWall,
            Surrounding::Chase => Self::Chase,
            Surrounding::Cavity => Self::Cavity,
            Surrounding::Surface => Self::Surface,
            Surrounding::Plate => Self::Plate,
            Surrounding::Post => Self::Post,
        }
    }
}
