//! Let-through energy against conductor and earth.
//!
//! **Looks at** the heat that a fault puts into the phase and the protective
//! conductor: at the board, where the current is greatest and the breaker
//! limits it, and at the far end, where it lasts longest. **Matters** because
//! a burnt earth leaves the next fault without a way back. **Example:** 200 A
//! for 0.4 s needs 1.1 mm². **Remedy:** a larger earth, a breaker of lower
//! let-through. **Source:** IEC 60364-5-54 cl. 543.1.2; EN 60898-1.

use super::super::electrics::next_size_that;
use super::super::words;
use super::{Judged, not_in_plan, not_in_tables};
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "let-through";

pub(super) fn judge(judged: &Judged<'_>, findings: &mut Vec<Finding>) {
    let (case, electrics) = (judged.case, judged.electrics);
    let subject = Subject::Circuit(case.id);
    let what = format!("{}: let-through energy", case.name());
    let sections = match electrics.sections(case) {
        Some(Ok(sections)) => sections,
        Some(Err(absent)) => {
            findings.push(not_in_tables(CODE, subject, &what, &absent));
            return;
        }
        None => {
            let supply = case.board.map(|(_, board)| board.supply);
            let wanting = match supply {
                _ if electrics.device.is_none() => "it has no device",
                _ if electrics.loops.is_none() => "it has no routed legs",
                Some(supply) if supply.fault_current.is_none() => {
                    "the prospective fault current at its board is not known"
                }
                _ => "the external loop impedance of its board is not known",
            };
            let remedy = "enter the device, and the supply as measured or as the supplier says";
            findings.push(not_in_plan(CODE, subject, &what, wanting, remedy));
            return;
        }
    };
    let has = electrics.conductors.earth_mm2.min(electrics.cable.size.mm2());
    if sections.least() <= has + 1e-9 {
        return;
    }
    let (where_to, because, source) = if sections.at_board >= sections.at_end {
        let energy = format!("{:.0} A²s at the board", sections.energy);
        ("at the board", energy, sections.energy_source.clone())
    } else {
        let long = format!("{} for {} s", words::amps(sections.end_current), sections.end_time);
        ("at its far end", long, "IEC 60364-5-54 cl. 543.1.2".to_owned())
    };
    let message = format!(
        "{}: a fault {where_to} would burn its earth of {has} mm²: {because}, k = {:.0}",
        case.name(),
        sections.k
    );
    let stands =
        |larger: &super::super::electrics::Electrics| larger.stands_faults(case) == Some(true);
    let remedy = match next_size_that(case, electrics, judged.company, stands) {
        Some(larger) => format!(
            "{} has an earth of {} mm²; or a breaker that lets less through: enter its maker's figure",
            larger.cable.size, larger.conductors.earth_mm2
        ),
        None => "a breaker that lets less through: enter its maker's figure".to_owned(),
    };
    findings.push(Finding::new(CODE, Severity::Fault, subject, message, remedy).against(
        format!("{has} mm²"),
        format!("{:.2} mm²", sections.least()),
        source,
    ));
}
