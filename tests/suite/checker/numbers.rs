//! The legs of a run are numbered from 1 in the order of the list.

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    for (leg, number) in case.run.legs.iter().zip(1_u32..) {
        if leg.number != number {
            book.leg(Code::Numbers, leg, format!("stands at {number} in the list"));
        }
    }
}
