//! Points per circuit.
//!
//! **Looks at** how many points of a kind a circuit feeds, a double socket
//! counting as two. **Matters** because too many trip their device in daily
//! use. **Example:** 26 sockets on 20 A. **Remedy:** a second circuit.
//! **Source:** table `points_per_circuit`; guidance rather than a limit.

use super::super::context::Case;
use super::super::design_current::takes_load;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "points-per-circuit";

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(device) = case.circuit.device else { return };
    let key = (case.circuit.usage, device.rating);
    let Ok(row) = case.house.tables().points_per_circuit.row(key) else { return };
    let points: u32 = case
        .points
        .iter()
        .filter(|(_, point)| takes_load(point.kind))
        .map(|(_, point)| u32::from(point.gangs))
        .sum();
    if points <= row.points.0 {
        return;
    }
    findings.push(
        Finding::new(
            CODE,
            Severity::Warning,
            Subject::Circuit(case.id),
            format!("{} feeds many points for {} A", case.name(), device.rating.0),
            format!("move {} of them to another circuit", points - row.points.0),
        )
        .against(points.to_string(), row.points.0.to_string(), row.credit()),
    );
}
