//! Segments hang together, have a length, and their lengths add up.

use wirewend::units::Mm;

use super::complaint::{Code, Complaints};
use super::shape::NEAR;
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    let route = &walk.leg.route;
    for (at, pair) in route.segments.windows(2).enumerate() {
        if pair[0].to != pair[1].from {
            let text = format!("begins at {:?}, not {:?}", pair[1].from, pair[0].to);
            book.segment(Code::Gap, walk.leg, at + 1, text);
        }
    }
    for (at, segment) in route.segments.iter().enumerate() {
        let distance = segment.from.distance(segment.to);
        if segment.from == segment.to || segment.length <= Mm::ZERO {
            book.segment(Code::ZeroSegment, walk.leg, at, "has no length");
        } else if (segment.length.to_f64() - distance).abs() > NEAR {
            let text = format!("says {}, its ends are {distance:.1} mm apart", segment.length);
            book.segment(Code::SegmentLength, walk.leg, at, text);
        }
    }
    let sum: Mm = route.segments.iter().map(|segment| segment.length).sum();
    if sum != route.length {
        let text = format!("says {}, its segments are {sum}", route.length);
        book.leg(Code::RouteLength, walk.leg, text);
    }
}
