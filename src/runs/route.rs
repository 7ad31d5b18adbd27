//! From a plan to its runs: the front door of this room.

use super::chain::Effort;
use super::circuit::route_circuit;
use super::house::House;
use super::{Runs, beside};
use crate::plan::{Finding, Plan, Severity, Subject, labels};
use crate::space::Space;

/// Routes every circuit of a plan. The same plan gives the same runs, on every
/// machine; what cannot be routed becomes a finding that says why.
#[must_use]
pub fn route(plan: &Plan, space: &Space, effort: &Effort) -> Runs {
    let marks = labels(plan);
    let house = House::of(plan, space);
    let mut runs = Runs::default();
    for (id, point) in &plan.points {
        if point.circuit.is_none() {
            runs.findings.push(Finding::new(
                "point-without-circuit",
                Severity::Missing,
                Subject::Point(*id),
                format!("{} is on no circuit, so no cable leads to it", marks.point(*id)),
                "put it on a circuit",
            ));
        }
    }
    for id in plan.circuits.keys() {
        let (run, findings) = route_circuit(plan, space, &house, &marks, *id, effort);
        runs.circuits.insert(*id, run);
        runs.findings.extend(findings);
    }
    beside::count(&mut runs);
    runs
}
