//! Whether a leg was built about as long as planned.
//!
//! **Looks at** measured lengths against the cut lengths planned. **Matters**
//! because a leg much longer went another way, and one shorter than its way
//! cannot lie where it is drawn. **Example:** 14.2 m measured, 10.1 m planned.
//! **Remedy:** draw it as it lies. **Source:** common practice: a tenth and
//! half a metre.

use super::super::context::Case;
use super::super::words;
use crate::plan::{Finding, Severity, Subject};
use crate::units::Mm;

const CODE: &str = "measured-differs";
/// What tape and hand may account for, mm.
const SLACK: Mm = Mm::new(500);
/// And as thousandths of the planned length.
const SLACK_PERMILLE: i64 = 100;

pub(super) fn judge(case: &Case<'_>, findings: &mut Vec<Finding>) {
    for (index, (leg, length)) in case.legs().iter().zip(case.lengths).enumerate() {
        let Some(measured) = length.measured else { continue };
        let planned = length.cut.value;
        let by = measured - planned;
        if by.abs() <= SLACK.max(planned.permille_up(SLACK_PERMILLE)) {
            continue;
        }
        let (word, remedy) = if by > Mm::ZERO {
            ("longer", "see which way it went, and draw it so")
        } else {
            ("shorter", "measure it again, or see which way it went and draw it so")
        };
        let message = format!(
            "{} of {} was built {} {word} than planned",
            case.leg_name(index),
            case.name(),
            words::metres(by.abs().metres()),
        );
        let subject = Subject::Leg { circuit: case.id, from: leg.from, to: leg.to };
        findings.push(Finding::new(CODE, Severity::Note, subject, message, remedy).against(
            words::metres(measured.metres()),
            words::metres(planned.metres()),
            "common practice: 0.5 m or a tenth",
        ));
    }
}
