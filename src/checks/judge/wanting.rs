//! Whether anything can be worked out at all.
//!
//! **Looks at** the board, the voltage and the cable of a circuit.
//! **Matters** because without them no other check of it is made.
//! **Example:** circuit 3 has no cable yet. **Remedy:** enter what is missing,
//! or take the suggestion. **Source:** none; a matter of arithmetic.

use super::super::context::Case;
use super::super::electrics::Wanting;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "circuit-unfinished";

pub(super) fn judge(case: &Case<'_>, wanting: &Wanting) -> Finding {
    let name = case.name();
    let (what, remedy) = match wanting {
        Wanting::Board => ("it comes from no board".to_owned(), "choose its board"),
        Wanting::Voltage => (
            "the supply of its board has no voltage".to_owned(),
            "enter the voltage from phase to neutral at the board",
        ),
        Wanting::Cable => ("it has no cable".to_owned(), "choose a cable, or take the suggestion"),
        Wanting::Figure(absent) => (absent.to_string(), "enter the figure in your own rule tables"),
    };
    let message =
        format!("{name}: rating, volt drop, loop and let-through cannot be checked: {what}");
    Finding::new(CODE, Severity::Missing, Subject::Circuit(case.id), message, remedy)
}
