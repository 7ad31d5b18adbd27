//! Whether there are rules to check by at all.
//!
//! **Looks at** the regime that the plan names. **Matters** because without its
//! tables others stand in, whose limits may not be those that hold. **Example:**
//! `our_island`, whose folder was not given. **Remedy:** the folder of its
//! tables, or another regime.

use super::super::context::House;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "unknown-rules";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    if house.rules.knows(house.regime) {
        return;
    }
    let base = house.rules.local(house.rules.base()).standard;
    findings.push(Finding::new(
        CODE,
        Severity::Fault,
        Subject::Plan,
        format!("{}: all is checked by {base} instead", house.rules.no_regime(house.regime)),
        "give the folder of its tables with --rules, or choose rules that are there",
    ));
}
