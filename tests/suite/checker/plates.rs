//! What goes through a plate, a ceiling or a floor, down a post or up a riser
//! joins what is at both of its ends.

use wirewend::plan::{End, Place, VoidId, VoidKind};
use wirewend::runs::Segment;

use super::complaint::{Code, Complaints};
use super::house::{covers, kept_out};
use super::medium::Medium;
use super::shape::{NEAR, Spot};
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, segment, medium) in walk.pieces() {
        match medium {
            Medium::Plate(_, void) | Medium::Passage(void) => {
                judge_mouth(walk, at, segment, void, book);
            }
            Medium::Riser(one, other) => {
                judge_mouth(walk, at, segment, one, book);
                judge_mouth(walk, at, segment, other, book);
            }
            Medium::Post => judge_post(walk, at, segment, book),
            Medium::Concrete => {
                book.segment(Code::Concrete, walk.leg, at, "its level names no void there");
            }
            Medium::BadPlate => {
                let text = "joins no wall's top or foot, ceiling or floor with a void there";
                book.segment(Code::Plate, walk.leg, at, text);
            }
            _ => {}
        }
    }
}

/// Where a passage comes out, the void is there and nothing keeps it out.
fn judge_mouth(walk: &Walk, at: usize, segment: &Segment, void: VoidId, book: &mut Complaints) {
    let place = Spot::under(segment.from);
    if !covers(walk.plan, void, place) {
        book.segment(Code::OutsideVoid, walk.leg, at, format!("{void} does not reach there"));
    } else if kept_out(walk.plan, void, place) {
        let text = format!("comes out inside a keep-out of {void}");
        book.segment(Code::KeepOut, walk.leg, at, text);
    }
}

/// A post segment stands on the line of a post at one end of the leg, between
/// its head and the ground.
fn judge_post(walk: &Walk, at: usize, segment: &Segment, book: &mut Complaints) {
    let fits = [walk.leg.from, walk.leg.to].into_iter().any(|end| on_post(walk, segment, end));
    if !fits {
        let text = "not between the head of a post of this leg and the ground under it";
        book.segment(Code::Post, walk.leg, at, text);
    }
}

fn on_post(walk: &Walk, segment: &Segment, end: End) -> bool {
    let Some(Place::Post(post)) = walk.plan.place_of(end) else { return false };
    let Some(level) = walk.plan.levels.get(&post.level) else { return false };
    let ground = level.below.iter().filter_map(|id| walk.plan.voids.get(id).map(|v| (id, v)));
    let line = Spot::of(post.at);
    let (low, high) = (segment.from.z.min(segment.to.z), segment.from.z.max(segment.to.z));
    let upright = [segment.from, segment.to]
        .into_iter()
        .all(|place| Spot::under(place).distance(line) <= NEAR);
    upright
        && high <= level.floor + post.height
        && ground
            .filter(|(_, void)| void.kind == VoidKind::Ground)
            .any(|(id, void)| low >= void.z && covers(walk.plan, *id, line))
}
