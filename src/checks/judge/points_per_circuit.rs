//! Points per circuit.
//!
//! **Looks at** how many points of a kind a circuit feeds, a double socket
//! counting as two. **Matters** because too many trip their device in daily
//! use. **Example:** 26 sockets on 20 A. **Remedy:** a second circuit.
//! **Source:** table `points_per_circuit`; guidance rather than a limit.

use super::super::context::Case;
use super::super::design_current::takes_load;
use super::residual_current::use_key;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "points-per-circuit";

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(device) = case.circuit.device else { return };
    let key = super::super::conductor::size_key(device.rating.0);
    let keys = [use_key(case.circuit.usage), key.as_str()];
    let Ok(row) = case.house.rules.row(case.house.regime, "points_per_circuit", &keys) else {
        return;
    };
    let points: u32 = case
        .points
        .iter()
        .filter(|(_, point)| takes_load(point.kind))
        .map(|(_, point)| u32::from(point.gangs))
        .sum();
    if f64::from(points) <= row.value() {
        return;
    }
    findings.push(
        Finding::new(
            CODE,
            Severity::Warning,
            Subject::Circuit(case.id),
            format!("{} feeds many points for {} A", case.name(), device.rating.0),
            format!("move {} of them to another circuit", f64::from(points) - row.value()),
        )
        .against(points.to_string(), format!("{}", row.value()), row.credit()),
    );
}
