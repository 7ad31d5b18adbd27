//! Cables and devices that pass the checks where they lie.

use super::kit::Kit;
use super::planned::Planned;
use crate::checks::{check, suggest_each};
use crate::lengths::measure;
use crate::plan::{Cable, CircuitId, Device, End, Plan, PointId, Severity, Subject};
use crate::rules::RuleBook;
use crate::runs::chain::Effort;
use crate::runs::route;
use crate::space::Space;

/// Routes the planned circuits, and gives those that fail a check the cheapest
/// cable and device that pass.
pub(super) fn fit(plan: &mut Plan, rules: &RuleBook, planned: &mut [Planned]) {
    let ids: Vec<CircuitId> =
        (plan.next_id..).zip(planned.iter()).map(|(id, _)| CircuitId(id)).collect();
    for (id, one) in ids.iter().zip(planned.iter()) {
        plan.circuits.insert(*id, one.circuit.clone());
        for point in &one.points {
            if let Some(point) = plan.points.get_mut(point) {
                point.circuit = Some(*id);
            }
        }
    }
    for (id, best) in better(plan, rules, &ids).0 {
        let Some(index) = ids.iter().position(|other| *other == id) else { continue };
        let one = &mut planned[index];
        one.because.push_str(&said(best.as_ref()));
        if let Some((cable, device)) = best {
            (one.circuit.cable, one.circuit.device) = (Some(cable), Some(device));
        }
    }
}

/// As [`fit`], for circuits that are in the plan already, with their
/// neighbours' cables beside them; points that turn out to be out of reach.
pub(super) fn together(kit: &mut Kit<'_>, ids: &[CircuitId]) -> Vec<PointId> {
    let (found, lost) = better(&kit.plan, kit.rules, ids);
    for (id, best) in found {
        let because = said(best.as_ref());
        if let (Some((cable, device)), Some(circuit)) = (best, kit.plan.circuits.get_mut(&id)) {
            (circuit.cable, circuit.device) = (Some(cable), Some(device));
            let name = circuit.name.clone();
            let because = because.trim_start_matches("; ").to_owned();
            kit.reason(Subject::Circuit(id), format!("{name}, beside its neighbours'"), because);
        }
    }
    lost
}

fn said(best: Option<&(Cable, Device)>) -> String {
    best.map_or_else(
        || "; no cable passes the checks where it lies".to_owned(),
        |(cable, device)| {
            let amps = device.rating.0;
            format!("; {cable} and {amps} A, as the usual does not pass the checks where it lies")
        },
    )
}

type Better = (CircuitId, Option<(Cable, Device)>);

/// For every circuit that fails, what passes, None where nothing does; and the
/// points that no leg reaches.
fn better(plan: &Plan, rules: &RuleBook, ids: &[CircuitId]) -> (Vec<Better>, Vec<PointId>) {
    let space = Space::of(plan);
    let runs = route(plan, &space, &Effort::default());
    let lost: Vec<PointId> = runs
        .findings
        .iter()
        .filter_map(|finding| match (finding.code, finding.subject) {
            ("no-way", Subject::Leg { to: End::Point(id), .. }) => Some(id),
            _ => None,
        })
        .collect();
    let lengths = measure(plan, &runs);
    let checked = check(plan, &runs, &lengths, rules);
    let mut failing: Vec<CircuitId> = Vec::new();
    for finding in checked.findings.iter().filter(|finding| finding.severity == Severity::Fault) {
        if let Subject::Circuit(id) | Subject::Leg { circuit: id, .. } = finding.subject
            && ids.contains(&id)
            && !failing.contains(&id)
        {
            failing.push(id);
        }
    }
    if failing.is_empty() {
        return (Vec::new(), lost);
    }
    let usual = |id: &CircuitId| plan.circuits.get(id).and_then(|circuit| circuit.cable);
    let found = suggest_each(plan, &runs, &lengths, rules, &failing)
        .into_iter()
        .map(|(id, suggestion)| {
            let best = suggestion.best.map(|best| {
                // Not thinner than usual: it passes all the better.
                let thick = usual(&id).filter(|usual| usual.size > best.cable.size);
                (thick.unwrap_or(best.cable), best.device)
            });
            (id, best)
        })
        .collect();
    (found, lost)
}
