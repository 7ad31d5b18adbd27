//! Whether a measured leg is one of those that are routed.
//!
//! **Looks at** measured lengths whose ends no leg of the plan joins.
//! **Matters** because they count for nothing: cuts, drop and loop are
//! reckoned from other legs. **Example:** a cable pulled from S1 to S3 where
//! the plan goes by S2. **Remedy:** give the circuit the order in which it was
//! wired. **Source:** none; a matter of arithmetic.

use super::super::context::House;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "measured-elsewhere";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    for it in &house.plan.measured {
        let ends = [it.from, it.to];
        let run = house.runs.circuits.get(&it.circuit);
        let legs = run.map_or(&[][..], |run| &run.legs);
        let is_routed =
            legs.iter().any(|leg| ends == [leg.from, leg.to] || ends == [leg.to, leg.from]);
        if is_routed {
            continue;
        }
        let (from, to) = (house.label(it.from), house.label(it.to));
        let circuit = house.plan.circuits.get(&it.circuit);
        let circuit = circuit.map_or_else(|| it.circuit.to_string(), |it| house.circuit_name(it));
        let message = format!(
            "the leg measured from {from} to {to} of {circuit} is none of its legs as \
             routed, and counts for nothing"
        );
        let subject = Subject::Leg { circuit: it.circuit, from: it.from, to: it.to };
        let remedy = "give the circuit the order in which it was wired, or remove the measurement";
        findings.push(Finding::new(CODE, Severity::Warning, subject, message, remedy).against(
            it.length.to_string(),
            "a leg of the plan",
            "plan",
        ));
    }
}
