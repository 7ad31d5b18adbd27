//! Ways of a board.
//!
//! **Looks at** how many ways the circuits take, three for a three-phase one,
//! and whether two circuits claim the same number. **Matters** because the
//! last circuit must still fit. **Example:** 14 circuits on a 12-way board.
//! **Remedy:** a larger board. **Source:** the board itself.

use super::super::context::{Case, House};
use super::super::result::Checked;
use super::not_in_plan;
use crate::plan::{End, Finding, Severity, Subject};

const CODE: &str = "board-ways";

pub(super) fn judge(house: &House<'_>, cases: &[Case<'_>], checked: &mut Checked) {
    for (id, board) in &house.plan.boards {
        let on_board = cases.iter().filter(|case| case.circuit.board == Some(*id));
        let used: u16 = on_board
            .map(|case| match case.circuit.cable {
                Some(cable) if case.three_phase(cable) => 3,
                _ => 1,
            })
            .sum();
        checked.boards.entry(*id).or_default().ways_used = used;
        let name = house.label(End::Board(*id));
        let subject = Subject::Board(*id);
        match board.ways {
            None if used > 0 => checked.findings.push(not_in_plan(
                CODE,
                subject,
                &format!("{name}: ways"),
                "how many ways it has is not known",
                &format!("enter it; the circuits take {used}"),
            )),
            Some(ways) if used > ways => checked.findings.push(
                Finding::new(
                    CODE,
                    Severity::Fault,
                    subject,
                    format!("{name} has too few ways for its circuits"),
                    format!("a board of at least {used} ways, or fewer circuits"),
                )
                .against(used.to_string(), ways.to_string(), "the board as drawn"),
            ),
            _ => {}
        }
    }
}
