//! Volt drop at every point.
//!
//! **Looks at** how far the voltage falls from the board to each point, for
//! the load pattern chosen, the conductors as warm as they may get.
//! **Matters** because motors starved of volts run hot and lamps dim.
//! **Example:** 20 A over 30 m of 2.5 mm² drops 10.8 V, 4.7 %. **Remedy:** a
//! larger cable, a shorter way, two circuits. **Source:** Kirchhoff's laws;
//! the limit from table `volt_drop_limit`.

use super::super::electrics::next_size_that;
use super::super::words;
use super::{Judged, not_in_plan};
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "volt-drop";
/// From this share of the limit a drop is worth a word.
const CLOSE: f64 = 0.9;

pub(super) fn judge(judged: &Judged<'_>, findings: &mut Vec<Finding>) {
    let (case, electrics) = (judged.case, judged.electrics);
    let subject = Subject::Circuit(case.id);
    let what = format!("{}: volt drop", case.name());
    let Some(drops) = &electrics.drops else {
        findings.push(not_in_plan(CODE, subject, &what, "it has no routed legs", "route it"));
        return;
    };
    let (limit, source) = electrics.drop_limit(case);
    let percent = electrics.drop_percent().unwrap_or(0.0);
    if percent <= limit * CLOSE {
        return;
    }
    let (severity, how) = if percent > limit + 1e-9 {
        (Severity::Fault, "more than")
    } else {
        (Severity::Warning, "close to")
    };
    let volts_max = limit / 100.0 * electrics.voltage.0;
    let past = drops.nodes.iter().filter(|drop| **drop > volts_max + 1e-9).count();
    let end = case.network.as_ref().map(|network| network.ends[drops.worst]);
    let place = end.map_or("", |end| case.house.label(end));
    let others = match past {
        0 | 1 => String::new(),
        past => format!(", and passes it at {past} ends in all"),
    };
    let message = format!(
        "{} drops {how} the limit at {place}: {:.1} V{others}",
        case.name(),
        drops.nodes[drops.worst]
    );
    let mut finding = Finding::new(CODE, severity, subject, message, mend(judged, limit)).against(
        words::percent(percent),
        words::percent(limit),
        source,
    );
    finding.place = end.and_then(|end| case.house.place(end));
    findings.push(finding);
}

fn mend(judged: &Judged<'_>, limit: f64) -> String {
    let (case, electrics) = (judged.case, judged.electrics);
    let larger =
        next_size_that(case, electrics, judged.company, |larger| larger.drops_within(case));
    let percent = electrics.drop_percent().unwrap_or(0.0);
    let shorter = if percent > limit {
        format!("; or a way {:.0} % shorter", libm::ceil((1.0 - limit / percent) * 100.0))
    } else {
        String::new()
    };
    match larger {
        Some(larger) => format!(
            "{} brings it to {}{shorter}",
            larger.cable.size,
            words::percent(larger.drop_percent().unwrap_or(0.0)),
        ),
        None => format!("split it into two circuits{shorter}"),
    }
}
