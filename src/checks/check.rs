//! The front door.

use std::cmp::Reverse;

use super::bunching::{LightCompany, light_company};
use super::context::{Case, House};
use super::electrics::Electrics;
use super::expected_tests;
use super::judge;
use super::options::Options;
use super::readings::judge_readings;
use super::result::{
    CAUTIONS, Checked, CircuitFigures, GoverningStretch, LegFigures, PointFigures, TAKEN_APART,
};
use crate::lengths::Lengths;
use crate::plan::{CircuitId, Finding, Plan};
use crate::rules::RuleBook;
use crate::runs::{LegRole, Runs};
use crate::units::{Ohms, Volts};

/// Checks a routed plan against the rules of its regime.
#[must_use]
pub fn check(plan: &Plan, runs: &Runs, lengths: &Lengths, rules: &RuleBook) -> Checked {
    check_with(plan, runs, lengths, rules, Options::default())
}

/// Checks a routed plan, with what the person checking has chosen.
#[must_use]
pub fn check_with(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    rules: &RuleBook,
    options: Options,
) -> Checked {
    let house = House::new(plan, runs, lengths, rules, options);
    let cases = house.cases();
    let company = company(&house, &cases);
    let mut checked = Checked::default();
    for case in &cases {
        let electrics = Electrics::as_drawn(case, &company);
        judge::circuit(case, &electrics, &company, &mut checked.findings);
        let figures = electrics
            .map_or_else(|_| CircuitFigures::default(), |electrics| figures(case, &electrics));
        checked.circuits.insert(case.id, figures);
    }
    judge::house(&house, &cases, &mut checked);
    if !plan.readings.is_empty() {
        let expected = expected_tests::of_cases(&house, &cases);
        let (judged, findings) = judge_readings(plan, &expected);
        checked.readings = judged;
        checked.findings.extend(findings);
    }
    worst_first(&mut checked.findings);
    checked.cautions = CAUTIONS.iter().map(|caution| (*caution).to_owned()).collect();
    if plan.habits.keep_apart {
        checked.cautions.push(TAKEN_APART.to_owned());
    }
    checked
}

/// Who lies beside whom without warming them: switch legs, and legs whose
/// circuit takes no more than 30 % of half its cable's plain rating.
pub(super) fn company(house: &House<'_>, cases: &[Case<'_>]) -> LightCompany {
    let none = LightCompany::new();
    let mut light: Vec<(CircuitId, bool)> = Vec::new();
    if house
        .runs
        .circuits
        .values()
        .flat_map(|run| &run.legs)
        .any(|leg| leg.route.segments.iter().any(|segment| segment.beside > 0))
    {
        for case in cases {
            let is_light = Electrics::as_drawn(case, &none).is_ok_and(|electrics| {
                let alone = electrics.capacity.legs.iter().flatten();
                let least = alone
                    .map(|leg| leg.rating.capacity / leg.rating.grouping)
                    .fold(f64::INFINITY, f64::min);
                electrics.design.total.0 <= 0.3 * 0.5 * least
            });
            light.push((case.id, is_light));
        }
    }
    light_company(house.runs, |circuit, leg| {
        let switches = house.runs.circuits.get(&circuit).is_some_and(|run| {
            matches!(run.legs[leg].role, LegRole::SwitchLeg | LegRole::Strappers)
        });
        switches || light.iter().any(|(id, light)| *id == circuit && *light)
    })
}

fn worst_first(findings: &mut [Finding]) {
    findings.sort_by_key(|finding| Reverse(finding.severity));
}

fn figures(case: &Case<'_>, electrics: &Electrics) -> CircuitFigures {
    let legs = case.legs().iter().zip(&electrics.capacity.legs).map(|(leg, rating)| LegFigures {
        number: leg.number,
        capacity: rating.as_ref().map(|rating| crate::units::Amps(rating.rating.capacity)),
        segment: rating.as_ref().map(|rating| rating.segment),
    });
    let outside = case.board.and_then(|(_, board)| board.supply.loop_impedance);
    let limit = electrics.loop_limit(case).and_then(Result::ok);
    let longest_m = match (&limit, outside) {
        (Some(limit), Some(outside)) => {
            let cold = electrics.conductors.core + electrics.conductors.earth;
            let hot = electrics.loops.as_ref().map_or(1.2, |loops| loops.hot);
            Some(super::longest_by_loop(limit.value, outside, cold, hot))
        }
        _ => None,
    };
    let drops = electrics.drops.as_ref();
    let loops = electrics.loops.as_ref();
    CircuitFigures {
        design_current: Some(electrics.design.worked(case)),
        device: electrics.device.map(|device| device.rating),
        capacity: electrics.capacity.worked(case),
        estimated: electrics.capacity.governing().is_some_and(|leg| leg.rating.estimated),
        governing: governing(case, electrics),
        volt_drop: drops.map(|drops| drops.worked(case, drops.worst, &electrics.conductors)),
        volt_drop_percent: electrics.drop_percent(),
        volt_drop_limit_percent: Some(electrics.drop_limit(case).0),
        loop_impedance: loops.zip(outside).map(|(loops, outside)| {
            loops.worked(case, loops.worst, outside, &electrics.conductors)
        }),
        loop_limit: limit,
        longest_m,
        least_section_mm2: electrics
            .sections(case)
            .and_then(Result::ok)
            .map(|sections| sections.least()),
        legs: legs.collect(),
        points: points(case, electrics, outside),
    }
}

fn governing(case: &Case<'_>, electrics: &Electrics) -> Option<GoverningStretch> {
    let leg = electrics.capacity.worst?;
    let segment = electrics.capacity.governing()?.segment;
    let of = &case.legs()[leg];
    let part = &of.route.segments[segment];
    Some(GoverningStretch { leg: of.number, segment, from: part.from, to: part.to })
}

fn points(case: &Case<'_>, electrics: &Electrics, outside: Option<Ohms>) -> Vec<PointFigures> {
    let (Some(network), Some(drops), Some(loops)) =
        (&case.network, &electrics.drops, &electrics.loops)
    else {
        return Vec::new();
    };
    network
        .ends
        .iter()
        .enumerate()
        .skip(1)
        .map(|(node, end)| PointFigures {
            end: *end,
            volt_drop: Volts(drops.nodes[node]),
            volt_drop_percent: drops.nodes[node] / electrics.voltage.0 * 100.0,
            r1_r2: Ohms(loops.cold[node]),
            loop_impedance: outside.map(|outside| loops.at(node, outside)),
        })
        .collect()
}
