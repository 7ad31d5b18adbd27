//! The cheapest cable and device that pass everything.

use serde::Serialize;

use super::bunching::LightCompany;
use super::check::company;
use super::context::{Case, House};
use super::electrics::{Electrics, sizes};
use super::options::Options;
use super::words;
use crate::lengths::Lengths;
use crate::plan::{Cable, CableMake, CircuitId, CircuitUse, Curve, Device, Plan};
use crate::rules::RuleBook;
use crate::runs::Runs;
use crate::units::{Amps, Mm};

/// What a circuit could be wired in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Suggestion {
    /// The cheapest that passes. None: nothing made passes.
    pub best: Option<Suggested>,
    /// The next one up, and what it buys.
    pub next_up: Option<Suggested>,
    /// What the next one up buys, in words.
    pub buys: String,
    /// What was cheaper but did not pass, and why.
    pub rejected: Vec<Rejected>,
    /// What the choice goes by: price, or copper where prices are unknown.
    pub by: &'static str,
    /// Checks that could not be made for want of data.
    pub unchecked: Vec<&'static str>,
}

/// A cable and a device with their figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Suggested {
    /// The cable.
    pub cable: Cable,
    /// The device.
    pub device: Device,
    /// What the cable carries, A.
    pub capacity: f64,
    /// The greatest volt drop, percent.
    pub volt_drop_percent: f64,
    /// The greatest loop, Ω; None where the supply's is not known.
    pub loop_ohms: Option<f64>,
    /// What it was compared by: cents, or hundredths of a mm² times metres.
    pub cost: f64,
}

/// A choice that did not pass.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Rejected {
    /// The cable.
    pub cable: Cable,
    /// Its device.
    pub device: Device,
    /// Why not.
    pub why: String,
}

/// Sizes a circuit: the cheapest cable and device that pass everything that
/// can be judged, and the next one up. None where the plan has no such
/// circuit.
#[must_use]
pub fn suggest(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    rules: &RuleBook,
    circuit: CircuitId,
) -> Option<Suggestion> {
    let house = House::new(plan, runs, lengths, rules, Options::default());
    let cases = house.cases();
    let company = company(&house, &cases);
    let case = cases.iter().find(|case| case.id == circuit)?;
    Some(size(case, &company))
}

/// As [`suggest`], for several circuits at once.
#[must_use]
pub fn suggest_each(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    rules: &RuleBook,
    circuits: &[CircuitId],
) -> Vec<(CircuitId, Suggestion)> {
    let house = House::new(plan, runs, lengths, rules, Options::default());
    let cases = house.cases();
    let company = company(&house, &cases);
    let asked = cases.iter().filter(|case| circuits.contains(&case.id));
    asked.map(|case| (case.id, size(case, &company))).collect()
}

fn size(case: &Case<'_>, company: &LightCompany) -> Suggestion {
    let mut passing: Vec<Suggested> = Vec::new();
    let mut rejected = Vec::new();
    let cables = cables(case);
    let priced = cables.iter().all(|cable| price_per_metre(case, *cable).is_some());
    for cable in cables {
        let mut why = String::new();
        let mut last = None;
        let found = devices(case).into_iter().find_map(|device| {
            let electrics = Electrics::of(case, cable, Some(device), company).ok()?;
            last = Some(device);
            if electrics.passes(case) {
                return suggested(case, &electrics, device, priced);
            }
            // The first device that carries the load says why best.
            if why.is_empty() && electrics.design.total.0 <= device.rating.0 + 1e-9 {
                why = reason(case, &electrics);
            }
            None
        });
        match (found, last) {
            (Some(found), _) => passing.push(found),
            (None, Some(device)) => {
                let why = if why.is_empty() { "no device carries the load".into() } else { why };
                rejected.push(Rejected { cable, device, why });
            }
            (None, None) => {}
        }
    }
    passing.sort_by(|a, b| a.cost.total_cmp(&b.cost));
    let mut passing = passing.into_iter();
    let best = passing.next();
    let next_up = best.as_ref().and_then(|best| passing.find(|up| up.cable.size > best.cable.size));
    let buys = best.as_ref().zip(next_up.as_ref()).map_or_else(String::new, buys);
    let by = if priced { "price" } else { "copper" };
    Suggestion { best, next_up, buys, rejected, by, unchecked: unchecked(case) }
}

fn cables(case: &Case<'_>) -> Vec<Cable> {
    let usual = case.circuit.cable;
    let cores = usual.map_or(2, |cable| cable.cores);
    let make = usual.map_or(CableMake::Flat, |cable| cable.make);
    sizes(case)
        .into_iter()
        .filter(|size| size.mm2() >= least_size(case.circuit.usage))
        .map(|size| Cable { cores, size, make })
        .collect()
}

/// Smaller than this is not used for the purpose, mm² (common practice).
const fn least_size(usage: CircuitUse) -> f64 {
    match usage {
        CircuitUse::Sockets => 2.5,
        CircuitUse::Submain => 6.0,
        _ => 1.0,
    }
}

/// Devices to try: the ratings that breakers are made in, of the circuit's own
/// curve and residual current. Sockets are tried from the greatest rating
/// their own device allows, since their load is what the device lets them take.
fn devices(case: &Case<'_>) -> Vec<Device> {
    let own = case.circuit.device;
    let curve = own.map_or(Curve::C, |device| device.curve);
    let needs = case.house.tables().residual_rating.row(case.circuit.usage.into()).ok();
    let needs = needs.filter(|_| case.circuit.rcd_group.is_empty()).map(|row| row.residual);
    let residual = own.and_then(|device| device.residual).or(needs);
    let least = match (case.circuit.usage, own) {
        (CircuitUse::Sockets, Some(device)) => device.rating.0,
        (CircuitUse::Sockets, None) => 16.0,
        _ => 0.0,
    };
    let mut ratings: Vec<f64> = case
        .house
        .tables()
        .breaker_rating
        .rows()
        .map(|row| row.rating.0)
        .filter(|rating| *rating >= least)
        .collect();
    ratings.sort_by(f64::total_cmp);
    ratings.into_iter().map(|rating| Device { rating: Amps(rating), curve, residual }).collect()
}

fn suggested(
    case: &Case<'_>,
    electrics: &Electrics,
    device: Device,
    priced: bool,
) -> Option<Suggested> {
    let metres: f64 = (0..case.legs().len()).map(|leg| cut(case, leg).metres()).sum();
    let each = if priced {
        price_per_metre(case, electrics.cable)?
    } else {
        electrics.cable.size.mm2() * f64::from(electrics.cable.cores)
            + electrics.conductors.earth_mm2
    };
    Some(Suggested {
        cable: electrics.cable,
        device,
        capacity: electrics.capacity.amps()?,
        volt_drop_percent: electrics.drop_percent()?,
        loop_ohms: electrics.worst_loop(case).map(|ohms| ohms.0),
        cost: each * metres,
    })
}

fn cut(case: &Case<'_>, leg: usize) -> Mm {
    case.lengths.get(leg).map_or_else(|| case.length(leg), |length| length.cut_or_measured())
}

/// The least that a metre of a cable costs by the drum, cents.
fn price_per_metre(case: &Case<'_>, cable: Cable) -> Option<f64> {
    case.house
        .plan
        .stock
        .drums
        .iter()
        .filter(|drum| drum.cable == cable && drum.length.get() > 0)
        .filter_map(|drum| Some(cents(drum.price?.get()) / drum.length.metres()))
        .min_by(f64::total_cmp)
}

#[expect(clippy::cast_precision_loss, reason = "a price of a drum is far below 2^53 cents")]
const fn cents(cents: i64) -> f64 {
    cents as f64
}

fn reason(case: &Case<'_>, electrics: &Electrics) -> String {
    if !electrics.carries(case) {
        let carries = electrics.capacity.amps().map_or_else(|| "nothing".into(), words::amps);
        return format!("carries {carries} where it lies");
    }
    if !electrics.drops_within(case) {
        return format!("drops {}", words::percent(electrics.drop_percent().unwrap_or(0.0)));
    }
    if electrics.loop_within(case) == Some(false) {
        let ohms = electrics.worst_loop(case).map_or(0.0, |ohms| ohms.0);
        return format!("its loop comes to {}", words::ohms(ohms));
    }
    "a fault would burn its earth".to_owned()
}

fn buys((best, up): (&Suggested, &Suggested)) -> String {
    let drop = words::percent(up.volt_drop_percent);
    let mut text = format!(
        "{} carries {} instead of {} and drops {drop} instead of {}",
        up.cable.size,
        words::amps(up.capacity),
        words::amps(best.capacity),
        words::percent(best.volt_drop_percent),
    );
    if let (Some(best), Some(up)) = (best.loop_ohms, up.loop_ohms) {
        text.push_str(&format!(
            "; its loop is {} instead of {}",
            words::ohms(up),
            words::ohms(best)
        ));
    }
    if best.cost > 0.0 {
        text.push_str(&format!(
            "; for {} of the cost",
            words::percent(up.cost / best.cost * 100.0)
        ));
    }
    text
}

fn unchecked(case: &Case<'_>) -> Vec<&'static str> {
    let supply = case.board.map(|(_, board)| board.supply).unwrap_or_default();
    let mut unchecked = Vec::new();
    if supply.voltage.is_none() {
        unchecked.push("everything: the supply has no voltage");
    }
    if supply.loop_impedance.is_none() {
        unchecked.push("earth-fault loop: the supply's is not known");
    }
    if supply.fault_current.is_none() {
        unchecked.push("let-through: the prospective fault current is not known");
    }
    unchecked
}
