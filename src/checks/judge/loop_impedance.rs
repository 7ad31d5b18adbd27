//! Earth-fault loop impedance at every point.
//!
//! **Looks at** the loop from the supply through the phase conductor to each
//! point and back by the earth, at working temperature, against what the
//! device needs to trip at once. **Matters** because until it trips, every
//! metal case on the circuit is live. **Example:** 2.1 Ω behind a B 32 that
//! needs 1.37 Ω. **Remedy:** a larger cable, a shorter way, a device that
//! trips at less. **Source:** IEC 60364-4-41 cl. 411; table `trip_multiple`.

use super::super::electrics::next_size_that;
use super::super::longest_by_loop;
use super::super::words;
use super::{Judged, not_in_plan, not_in_tables};
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "loop-impedance";

pub(super) fn judge(judged: &Judged<'_>, findings: &mut Vec<Finding>) {
    let (case, electrics) = (judged.case, judged.electrics);
    let subject = Subject::Circuit(case.id);
    let what = format!("{}: earth-fault loop", case.name());
    let missing = |wanting, remedy| not_in_plan(CODE, subject, &what, wanting, remedy);
    let Some(limit) = electrics.loop_limit(case) else {
        findings.push(missing("it has no device", "choose a device, or take the suggestion"));
        return;
    };
    let limit = match limit {
        Ok(limit) => limit,
        Err(absent) => {
            findings.push(not_in_tables(CODE, subject, &what, &absent));
            return;
        }
    };
    let outside = case.board.and_then(|(_, board)| board.supply.loop_impedance);
    let Some(outside) = outside else {
        findings.push(missing(
            "the external loop impedance of its board is not known",
            "measure it at the board, or ask the supplier",
        ));
        return;
    };
    let (Some(loops), Some(worst)) = (&electrics.loops, electrics.worst_loop(case)) else {
        findings.push(missing("it has no routed legs", "route it"));
        return;
    };
    if worst.0 <= limit.value.0 + 1e-9 {
        return;
    }
    let end = case.network.as_ref().map(|network| network.ends[loops.worst]);
    let residual = electrics.device.is_some_and(|device| device.residual.is_some())
        || !case.circuit.rcd_group.is_empty();
    let (severity, rest) = if residual {
        (Severity::Warning, "; only its residual-current device cuts off in time")
    } else {
        (Severity::Fault, "; its device would not cut off in time")
    };
    let message = format!(
        "{} has too high a loop at {}{rest}",
        case.name(),
        end.map_or("", |end| case.house.label(end)),
    );
    let conductors = &electrics.conductors;
    let longest =
        longest_by_loop(limit.value, outside, conductors.core + conductors.earth, loops.hot);
    let source = limit.working.terms.get(2).map_or(String::new(), |term| term.source.clone());
    let mut finding = Finding::new(CODE, severity, subject, message, mend(judged, longest))
        .against(words::ohms(worst.0), words::ohms(limit.value.0), source);
    finding.place = end.and_then(|end| case.house.place(end));
    findings.push(finding);
}

fn mend(judged: &Judged<'_>, longest: f64) -> String {
    let (case, electrics) = (judged.case, judged.electrics);
    let within =
        |larger: &super::super::electrics::Electrics| larger.loop_within(case) == Some(true);
    let shorter = match longest {
        metres if metres > 0.0 => format!("a way of at most {} to it", words::metres(metres)),
        _ => "a device that trips at less: the supply alone passes the limit".to_owned(),
    };
    match next_size_that(case, electrics, judged.company, within) {
        Some(larger) => format!(
            "{} brings it to {}; or {shorter}",
            larger.cable.size,
            words::ohms(larger.worst_loop(case).map_or(0.0, |ohms| ohms.0)),
        ),
        None => format!("{shorter}; or a residual-current device"),
    }
}
