//! Load, device and cable: whether each is protected by the next.
//!
//! **Looks at** the design current against the device, and the device against
//! what the cable can carry on its worst stretch: insulation, company, heat.
//! **Matters** because a cable that carries more than it can shed bakes its
//! insulation for years before it fails. **Example:** 32 A on 2.5 mm² through
//! an insulated ceiling, good for 17 A. **Remedy:** a larger cable, a smaller
//! device, a cooler or freer way. **Source:** IEC 60364-4-43 cl. 433.1.

use super::super::electrics::next_size_that;
use super::super::words;
use super::{Judged, not_in_plan, not_in_tables};
use crate::plan::{Finding, Severity, Subject};

const DEVICE: &str = "device-below-load";
const CABLE: &str = "cable-below-device";
const SOURCE: &str = "IEC 60364-4-43 cl. 433.1: IB ≤ In ≤ Iz";

pub(super) fn judge(judged: &Judged<'_>, findings: &mut Vec<Finding>) {
    let (case, electrics) = (judged.case, judged.electrics);
    let subject = Subject::Circuit(case.id);
    let Some(device) = electrics.device else {
        findings.push(not_in_plan(
            CABLE,
            subject,
            &format!("{}: protection", case.name()),
            "it has no device",
            "choose a device, or take the suggestion",
        ));
        return;
    };
    if electrics.design.total.0 > device.rating.0 + 1e-9 {
        findings.push(
            Finding::new(
                DEVICE,
                Severity::Fault,
                subject,
                format!("{} is loaded beyond its device", case.name()),
                format!(
                    "move points to another circuit, or a device of at least {} with cable to match",
                    words::amps(electrics.design.total.0)
                ),
            )
            .against(words::amps(electrics.design.total.0), words::amps(device.rating.0), SOURCE),
        );
    }
    cable(judged, findings);
}

fn cable(judged: &Judged<'_>, findings: &mut Vec<Finding>) {
    let (case, electrics) = (judged.case, judged.electrics);
    let subject = Subject::Circuit(case.id);
    let what = format!("{}: capacity of its cable", case.name());
    if let Some(absent) = &electrics.capacity.absent {
        findings.push(not_in_tables(CABLE, subject, &what, absent));
    }
    let (Some(worst), Some(leg)) = (electrics.capacity.governing(), electrics.capacity.worst)
    else {
        if electrics.capacity.absent.is_none() {
            findings.push(not_in_plan(CABLE, subject, &what, "it has no routed legs", "route it"));
        }
        return;
    };
    let Some((wanted, source)) = electrics.rating_wanted(case) else { return };
    let capacity = worst.rating.capacity;
    if capacity + 1e-9 >= wanted {
        return;
    }
    let of = &case.legs()[leg];
    let about = if worst.rating.estimated { " (an estimate)" } else { "" };
    let message = format!(
        "{} can carry only {}{about} on {}, method {}",
        case.name(),
        words::amps(capacity),
        worst.place(case, leg),
        worst.rating.method,
    );
    let mut finding = Finding::new(
        CABLE,
        Severity::Fault,
        Subject::Leg { circuit: case.id, from: of.from, to: of.to },
        message,
        mend(judged),
    );
    finding.place = Some(of.route.segments[worst.segment].from);
    findings.push(finding.against(
        words::amps(capacity),
        words::amps(wanted),
        format!("{source}; {}", worst.rating.base_source),
    ));
}

fn mend(judged: &Judged<'_>) -> String {
    let (case, electrics) = (judged.case, judged.electrics);
    let larger = next_size_that(case, electrics, judged.company, |larger| larger.carries(case));
    let smaller = case
        .house
        .tables()
        .breaker_rating
        .rows()
        .map(|row| row.rating.0)
        .filter(|rating| electrics.capacity.amps().is_some_and(|capacity| *rating <= capacity))
        .fold(0.0, f64::max);
    let device = match smaller {
        rating if rating > 0.0 => format!("a {} device suits it as it lies", words::amps(rating)),
        _ => "no device suits it as it lies".to_owned(),
    };
    match larger {
        Some(larger) => format!(
            "{} carries {} there; or {device}; or a way clear of insulation and of other cables",
            larger.cable.size,
            words::amps(larger.capacity.amps().unwrap_or(0.0)),
        ),
        None => format!("{device}; or a way clear of insulation and of other cables"),
    }
}
