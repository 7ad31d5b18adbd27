//! Whether the load of every point is known.
//!
//! **Looks at** points whose load neither the plan nor a table gives.
//! **Matters** because they count as nothing, so everything else about their
//! circuit reads too well. **Example:** an oven without its plate rating.
//! **Remedy:** enter the load from the rating plate. **Source:** none.

use super::Judged;
use crate::plan::{End, Finding, Severity, Subject};

const CODE: &str = "load-unknown";

pub(super) fn judge(judged: &Judged<'_>, findings: &mut Vec<Finding>) {
    let case = judged.case;
    let house = case.house;
    for id in &judged.electrics.design.unknown {
        let end = End::Point(*id);
        let message = format!(
            "{} of {} counts as no load: its power is not known",
            house.label(end),
            case.name()
        );
        let remedy = "enter its load from the rating plate";
        let mut finding =
            Finding::new(CODE, Severity::Missing, Subject::Point(*id), message, remedy);
        finding.place = house.place(end);
        findings.push(finding);
    }
}
