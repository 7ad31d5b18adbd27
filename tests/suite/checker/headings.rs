//! A segment goes the way it says.

use wirewend::plan::Plane;
use wirewend::runs::{Heading, Segment};

use super::complaint::{Code, Complaints};
use super::shape::{NEAR, Spot};
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    // One without length goes no way, which is said elsewhere; of one as short
    // as the roundings of its ends none can tell.
    for (at, segment, _) in walk.pieces().filter(|(_, one, _)| one.from.distance(one.to) > 3.0) {
        let seen = seen(walk, segment);
        if seen != Some(segment.heading) {
            let text = format!("says {:?}, goes {seen:?}", segment.heading);
            book.segment(Code::Heading, walk.leg, at, text);
        }
    }
}

/// Which way a segment goes by its ends. None: neither upright nor level, or
/// level in no plane.
fn seen(walk: &Walk, segment: &Segment) -> Option<Heading> {
    let (from, to) = (Spot::under(segment.from), Spot::under(segment.to));
    let rise = (segment.to.z - segment.from.z).to_f64();
    if from.distance(to) <= NEAR && rise.abs() > from.distance(to) {
        return Some(if rise > 0.0 { Heading::Up } else { Heading::Down });
    }
    if rise != 0.0 {
        return None;
    }
    match segment.plane? {
        Plane::Wall(_) => Some(Heading::Sideways),
        Plane::Void(void) => {
            let (along, across) = along_joists(walk, segment, void)?;
            let ahead = along.abs() >= across.abs();
            Some(if ahead { Heading::AlongJoists } else { Heading::AcrossJoists })
        }
    }
}

/// How far a segment goes along the joists of a void, and across them.
pub(crate) fn along_joists(
    walk: &Walk,
    segment: &Segment,
    void: wirewend::plan::VoidId,
) -> Option<(f64, f64)> {
    let turn = walk.plan.voids.get(&void)?.direction.millidegrees();
    let radians = (f64::from(turn) / 1000.0).to_radians();
    let (cos, sin) = (libm::cos(radians), libm::sin(radians));
    let step = Spot::under(segment.to).minus(Spot::under(segment.from));
    Some((step.x * cos + step.y * sin, step.y * cos - step.x * sin))
}
