//! How many ways a board has.

use super::super::kit::Kit;
use crate::plan::{BoardId, Subject};

/// A board of so many circuits with a quarter to spare.
pub(super) fn ways_of(kit: &mut Kit<'_>, board: BoardId, used: usize) {
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
