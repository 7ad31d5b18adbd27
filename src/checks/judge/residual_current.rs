//! Residual-current protection.
//!
//! **Looks at** whether a circuit that must have it has a residual-current
//! device, and whether that trips at little enough. **Matters** because it is
//! what saves someone who touches a live part. **Example:** sockets on a plain
//! breaker. **Remedy:** a device with residual-current protection of its own,
//! or one shared in a group. **Source:** table `residual_rating`.

use super::super::context::Case;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "residual-current";

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Ok(row) = case.house.tables().residual_rating.row(case.circuit.usage.into()) else {
        return;
    };
    if case.circuit.device.is_none() {
        return;
    }
    let limit = row.residual.0;
    let own = case.circuit.device.and_then(|device| device.residual);
    let milli = |amps: f64| format!("{:.0} mA", amps * 1000.0);
    let (measured, message) = match own {
        Some(own) if own.0 <= limit + 1e-12 => return,
        Some(own) => (milli(own.0), "trips only at too high a residual current"),
        None if !case.circuit.rcd_group.is_empty() => return,
        None => ("none".to_owned(), "has no residual-current protection"),
    };
    findings.push(
        Finding::new(
            CODE,
            Severity::Fault,
            Subject::Circuit(case.id),
            format!("{} {message}", case.name()),
            format!("a device that also trips at {}, or a group behind one", milli(limit)),
        )
        .against(measured, milli(limit), row.credit()),
    );
}
