//! How much current a stretch of cable can carry where it lies.

use super::ambient::{ambient_factor, temperature_factor};
use super::between_rows::{line_between, power_between};
use super::conductor::size_key;
use crate::plan::{Cable, CableMake, Regime};
use crate::rules::{Absent, Row, RuleBook};
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
    let how = method(stretch, rules, regime)?;
    let ground = stretch.through == Surrounding::Ground;
    let temperature =
        |what| rules.row(regime, "temperature", &[what]).map(|row| Celsius(row.value()));
    let conductor = temperature("conductor")?;
    let reference = temperature(if ground { "reference_ground" } else { "reference_air" })?;
    let around =
        rules.row(regime, "surrounding_temperature", &[surrounding_key(stretch.through)])?;
    let around = Celsius(around.value());
    let size = size_key(stretch.cable.size.mm2());
    let (base, base_source, estimated) =
        match rules.row(regime, "current_capacity", &[how.text(0), &size]) {
            Ok(row) => (row.value(), row.credit(), false),
            Err(_) => by_law(how.text(0), stretch, rules, regime, conductor, reference)?,
        };
    let base = if stretch.loaded >= 3 { base * (2.0f64 / 3.0).sqrt() } else { base };
    let ambient = ambient_factor(conductor, around, reference);
    let grouping = grouping_factor(how.text(1), stretch.circuits, rules, regime)?;
    let passing = passing_factor(stretch.passing, rules, regime);
    let soil = if ground { soil_factor(how.text(0), rules, regime)? } else { 1.0 };
    Ok(Rating {
        capacity: base * ambient * grouping * passing * soil,
        method: how.text(0).to_owned(),
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
fn method<'r>(stretch: &Stretch, rules: &'r RuleBook, regime: Regime) -> Result<&'r Row, Absent> {
    let make = match stretch.cable.make {
        CableMake::Flat | CableMake::Round => "sheathed",
        CableMake::Armoured => "armoured",
        CableMake::SinglesInConduit => "conduit",
    };
    let insulation = match stretch.insulation.get() {
        _ if stretch.passing.is_some() => "none",
        ..=0 => "none",
        1..=100 => "up_to_100",
        _ => "over_100",
    };
    let keys = [surrounding_key(stretch.through), make, insulation];
    rules.row(regime, "installation_method", &keys)
}

fn by_law(
    method: &str,
    stretch: &Stretch,
    rules: &RuleBook,
    regime: Regime,
    conductor: Celsius,
    reference: Celsius,
) -> Result<(f64, String, bool), Absent> {
    let law = rules.row(regime, "capacity_law", &[method])?;
    let part = |column| law.number(column).unwrap_or(0.0);
    let given = part(0) * libm::pow(stretch.cable.size.mm2(), part(1));
    let (given_conductor, given_around) = (Celsius(part(2)), Celsius(part(3)));
    let factor = temperature_factor(conductor, reference, given_conductor, given_around);
    Ok((given * factor, law.credit(), true))
}

fn grouping_factor(
    arrangement: &str,
    circuits: u32,
    rules: &RuleBook,
    regime: Regime,
) -> Result<f64, Absent> {
    if circuits <= 1 {
        return Ok(1.0);
    }
    let rows = pairs(rules, regime, "grouping", arrangement);
    power_between(&rows, f64::from(circuits)).ok_or_else(|| Absent {
        regime: crate::rules::regime_folder(regime),
        table: "grouping",
        key: arrangement.to_owned(),
    })
}

/// The factor for a short way through insulation; half for 500 mm or more.
fn passing_factor(passing: Option<Mm>, rules: &RuleBook, regime: Regime) -> f64 {
    let Some(length) = passing else { return 1.0 };
    let mut rows: Vec<(f64, f64)> = rules
        .rows(regime, "insulation_length")
        .filter_map(|row| Some((row.key_number(0)?, row.value())))
        .collect();
    rows.insert(0, (0.0, 1.0));
    rows.sort_by(|a, b| a.0.total_cmp(&b.0));
    line_between(&rows, length.to_f64()).unwrap_or(0.5)
}

fn soil_factor(method: &str, rules: &RuleBook, regime: Regime) -> Result<f64, Absent> {
    let site = rules.row(regime, "soil_resistivity", &["site"])?.value();
    let laid = if matches!(method, "D2" | "ground_direct") { "direct" } else { "duct" };
    Ok(line_between(&pairs(rules, regime, "soil", laid), site).unwrap_or(1.0))
}

/// The numbers of a table of two keys, the first of them given.
fn pairs(rules: &RuleBook, regime: Regime, table: &'static str, first: &str) -> Vec<(f64, f64)> {
    let mut pairs: Vec<(f64, f64)> = rules
        .rows(regime, table)
        .filter(|row| row.keys.first().is_some_and(|key| key == first))
        .filter_map(|row| Some((row.key_number(1)?, row.value())))
        .collect();
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    pairs
}

/// A surrounding as the key of a table.
pub(super) const fn surrounding_key(through: Surrounding) -> &'static str {
    match through {
        Surrounding::RoofSpace => "roof_space",
        Surrounding::BetweenFloors => "between_floors",
        Surrounding::Subfloor => "subfloor",
        Surrounding::Ground => "ground",
        Surrounding::HollowWall => "hollow_wall",
        Surrounding::Chase => "chase",
        Surrounding::Cavity => "cavity",
        Surrounding::Surface => "surface",
        Surrounding::Plate => "plate",
        Surrounding::Post => "post",
    }
}
