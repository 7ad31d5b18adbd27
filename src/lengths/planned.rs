//! Every leg as planned: what lists that come back are held against.

use super::Lengths;
use crate::plan::{Plan, PlannedLeg, labels};
use crate::runs::Runs;

/// The legs of a plan with their numbers, ends and planned lengths.
#[must_use]
pub fn planned_legs(plan: &Plan, runs: &Runs, lengths: &Lengths) -> Vec<PlannedLeg> {
    let marks = labels(plan);
    let mut planned = Vec::new();
    for (id, run) in &runs.circuits {
        let lengths = lengths.circuits.get(id).map_or(&[][..], |legs| legs.as_slice());
        let Some(circuit) = plan.circuits.get(id) else { continue };
        planned.extend(run.legs.iter().zip(lengths).map(|(leg, length)| PlannedLeg {
            circuit: *id,
            number: marks.leg(circuit, leg.number),
            from: leg.from,
            to: leg.to,
            cut: length.cut.value,
        }));
    }
    planned
}
