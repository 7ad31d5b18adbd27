//! A leg starts and ends exactly where its ends are.

use wirewend::plan::End;

use super::complaint::{Code, Complaints};
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    let place = |end: End| walk.plan.place_of(end).and_then(|place| walk.plan.position(&place));
    let (Some(from), Some(to)) = (place(walk.leg.from), place(walk.leg.to)) else {
        book.leg(Code::Ends, walk.leg, "an end of it is not placed");
        return;
    };
    let segments = &walk.leg.route.segments;
    let (Some(first), Some(last)) = (segments.first(), segments.last()) else {
        // Back to back on one wall two points are one place on its centre line.
        if from != to {
            book.leg(Code::Ends, walk.leg, format!("no way, but {from:?} is not {to:?}"));
        }
        return;
    };
    if first.from != from {
        book.segment(Code::Ends, walk.leg, 0, format!("starts at {:?}, not {from:?}", first.from));
    }
    if last.to != to {
        let at = segments.len() - 1;
        book.segment(Code::Ends, walk.leg, at, format!("ends at {:?}, not {to:?}", last.to));
    }
}
