//! How many ways a board has.

use super::super::kit::Kit;
use crate::plan::{BoardId, Subject};

/// A board with a quarter to spare.
pub(super) fn ways_of(kit: &mut Kit<'_>, board: BoardId) {
    let used = kit.plan.circuits.values().filter(|circuit| circuit.board == Some(board)).count();
    let ways = (used * 5).div_ceil(4).next_multiple_of(2);
    if let Some(drawn) = kit.plan.boards.get_mut(&board)
        && drawn.ways.is_none()
    {
        drawn.ways = u16::try_from(ways).ok();
        kit.reason(
            Subject::Board(board),
            format!("{ways} ways"),
            format!("{used} circuits and a quarter to spare (common practice)"),
        );
    }
}
