//! Conductors per terminal.
//!
//! **Looks at** how many conductor ends meet at a point, and of what size,
//! against what its terminals take. **Matters** because a strand left out or
//! crushed runs hot. **Example:** four 2.5 mm² ends at one socket.
//! **Remedy:** a junction box, a deeper box with connectors, another order.
//! **Source:** table `terminal`; mostly common practice.

use super::super::context::Case;
use crate::plan::{End, Family, Finding, PointKind, Severity, Subject};
use crate::rules::words::TerminalOf;

const CODE: &str = "terminal-crowded";

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    let Some(network) = &case.network else { return };
    let mut meeting = vec![(0u32, 0.0f64, 0.0f64); network.ends.len()];
    for leg in case.legs() {
        let Some(size) = leg.cable.or(case.circuit.cable).map(|cable| cable.size.mm2()) else {
            return;
        };
        for node in [leg.from, leg.to].into_iter().filter_map(|end| network.node(end)) {
            let (ends, total, largest) = meeting[node];
            meeting[node] = (ends + 1, total + size, largest.max(size));
        }
    }
    for (id, point) in &case.points {
        let Some(node) = network.node(End::Point(*id)) else { continue };
        let (ends, total, largest) = meeting[node];
        let Some(terminal) = terminal_of(point.kind) else { continue };
        let row = case.house.tables().terminal.row(terminal);
        let (most, all, each) = (row.ends.0, row.total.mm2(), row.size.mm2());
        let fits = ends <= most && total <= all + 1e-9 && largest <= each + 1e-9;
        if fits {
            continue;
        }
        let limit = format!("{most} ends, {all} mm² in all, {each} mm² each");
        let end = End::Point(*id);
        let message = format!(
            "{ends} ends of up to {largest} mm² meet in each terminal of {} ({})",
            case.house.label(end),
            point.kind.name()
        );
        let mut finding = Finding::new(
            CODE,
            Severity::Warning,
            Subject::Point(*id),
            message,
            "join them in a connector beside it and lead one end in, or choose another order",
        )
        .against(format!("{ends} ends, {total} mm² in all"), limit, row.credit());
        finding.place = case.house.place(end);
        findings.push(finding);
    }
}

const fn terminal_of(kind: PointKind) -> Option<TerminalOf> {
    match (kind.family(), kind) {
        (_, PointKind::Downlight) => Some(TerminalOf::Downlight),
        (Family::Sockets, _) => Some(TerminalOf::Socket),
        (Family::Lights, _) => Some(TerminalOf::Light),
        (Family::Switches, _) => Some(TerminalOf::Switch),
        (Family::Fixed, _) => Some(TerminalOf::Fixed),
        _ => None,
    }
}
