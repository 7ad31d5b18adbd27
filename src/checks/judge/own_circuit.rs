//! Fixed appliances on circuits of their own.
//!
//! **Looks at** large fixed appliances that share a circuit with other points.
//! **Matters** because their load is steady and leaves nothing for the rest.
//! **Example:** a water heater on the kitchen sockets. **Remedy:** a circuit
//! of its own. **Source:** common practice.

use super::super::context::Case;
use super::super::design_current::takes_load;
use crate::plan::{End, Finding, PointKind, Severity, Subject};

const CODE: &str = "appliance-shares-circuit";

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let shares = |kind| takes_load(kind) && kind != PointKind::Isolator;
    let loads = case.points.iter().filter(|(_, point)| shares(point.kind)).count();
    if loads < 2 {
        return;
    }
    let cooking = |kind| matches!(kind, PointKind::Oven | PointKind::Cooktop);
    let only_cooking =
        case.points.iter().all(|(_, point)| !shares(point.kind) || cooking(point.kind));
    for (id, point) in case.points.iter().filter(|(_, point)| large(point.kind)) {
        if only_cooking {
            continue;
        }
        let end = End::Point(*id);
        let message = format!(
            "{} ({}) shares {} with {} other points",
            case.house.label(end),
            point.kind.name(),
            case.name(),
            loads - 1
        );
        let mut finding = Finding::new(
            CODE,
            Severity::Warning,
            Subject::Point(*id),
            message,
            "give it a circuit of its own",
        )
        .against(loads.to_string(), "1", "common practice");
        finding.place = case.house.place(end);
        findings.push(finding);
    }
}

const fn large(kind: PointKind) -> bool {
    matches!(
        kind,
        PointKind::Oven
            | PointKind::Cooktop
            | PointKind::Shower
            | PointKind::WaterHeater
            | PointKind::AirConditioner
            | PointKind::CarCharger
    )
}
