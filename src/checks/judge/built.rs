//! Whether a plan that is called as built was measured.
//!
//! **Looks at** plans that are called as built, without a person saying that
//! all was built as planned. **Matters** because whoever opens a wall trusts an
//! as-built drawing, and a leg that nobody measured lies where it was meant to.
//! **Example:** 0 of 77 legs measured. **Remedy:** measure the others, or state
//! who says that all was built as planned. **Source:** none; a matter of
//! counting.

use super::super::context::House;
use crate::plan::{Finding, Severity, Stage, Status, Subject};
use crate::runs::built;

const CODE: &str = "built-in-part";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    let built = built(house.plan, house.runs);
    if house.plan.project.status != Status::AsBuilt || built.stage != Stage::InPart {
        return;
    }
    let message = format!(
        "the plan is called as built, and {} of its {} legs and {} of its points were never \
         measured",
        built.missing.len(),
        built.legs,
        built.points.len()
    );
    let remedy = "measure them (wirewend measured lists which), or let whoever built it state that \
                  it is built as planned";
    findings.push(Finding::new(CODE, Severity::Missing, Subject::Plan, message, remedy).against(
        built.because().unwrap_or_default(),
        "every leg",
        "plan",
    ));
}
