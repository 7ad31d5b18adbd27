//! Inside walls a cable turns from one into the next only where the two meet,
//! where the circuit can use no void from one of them, and level with an
//! accessory of either or in the ceiling strip.

use wirewend::plan::{Wall, WallId};
use wirewend::runs::{Heading, Segment};

use super::complaint::{Code, Complaints};
use super::house::{on_wall, reaches_void};
use super::medium::Medium;
use super::shape::{NEAR, Spot, distance_to_line};
use super::walk::Walk;
use super::zones::in_row;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, segments, media) in walk.pairs() {
        let [Medium::Wall(one), Medium::Wall(other)] = media else { continue };
        if one == other {
            continue;
        }
        if let Some(text) = fault(walk, segments, one, other) {
            book.segment(Code::Corner, walk.leg, at + 1, format!("from {one} to {other}: {text}"));
        }
    }
}

fn fault(walk: &Walk, segments: [&Segment; 2], one: WallId, other: WallId) -> Option<&'static str> {
    let (wall_1, wall_2) = (walk.plan.walls.get(&one)?, walk.plan.walls.get(&other)?);
    let place = segments[0].to;
    if wall_1.level != wall_2.level || !meet(wall_1, wall_2) {
        return Some("they do not meet");
    }
    if reaches_void(walk, one, wall_1) && reaches_void(walk, other, wall_2) {
        return Some("the circuit can use a void from both");
    }
    // In line with an accessory right at the corner a cable turns from upright.
    if segments.iter().all(|segment| segment.heading != Heading::Sideways) {
        return Some("not sideways");
    }
    let in_row_of = |wall, id| in_row(walk.plan, wall, id, on_wall(walk.plan, wall, place).y);
    if !in_row_of(wall_1, one) && !in_row_of(wall_2, other) {
        return Some("level with nothing");
    }
    None
}

/// How far beyond the half thickness of another wall an end still meets it, mm.
pub(crate) const MEETING: f64 = 20.0;

/// Whether two walls meet: an end of one lies in the other, or nearly so.
fn meet(one: &Wall, other: &Wall) -> bool {
    let (a, b) = (Spot::of(one.a), Spot::of(one.b));
    let (c, d) = (Spot::of(other.a), Spot::of(other.b));
    let touches = |place, from, to, wall: &Wall| {
        distance_to_line(place, from, to) <= wall.thickness.to_f64() / 2.0 + MEETING + NEAR
    };
    touches(a, c, d, other)
        || touches(b, c, d, other)
        || touches(c, a, b, one)
        || touches(d, a, b, one)
        || crosses(a, b, c, d)
}

/// Whether two lines cross between their ends.
fn crosses(a: Spot, b: Spot, c: Spot, d: Spot) -> bool {
    let side = |p: Spot, q: Spot, r: Spot| {
        let (line, step) = (q.minus(p), r.minus(p));
        line.x * step.y - line.y * step.x
    };
    side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0
}
