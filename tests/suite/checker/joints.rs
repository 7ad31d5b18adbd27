//! From one segment to the next a cable passes only where the two surroundings
//! are joined. Corners from wall to wall are judged apart.

use wirewend::plan::{VoidId, VoidKind, WallId};
use wirewend::units::Point3;

use super::complaint::{Code, Complaints};
use super::house::level_with;
use super::medium::Medium;
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, [one, _], [before, after]) in walk.pairs() {
        if !joined(walk, one.to, before, after) {
            let text = format!("{before:?} is not joined to {after:?} there");
            book.segment(Code::Joint, walk.leg, at + 1, text);
        }
    }
}

fn joined(walk: &Walk, place: Point3, before: Medium, after: Medium) -> bool {
    use Medium::{Passage, Plate, Post, Riser, Void, Wall};
    if before.is_wrong() || after.is_wrong() {
        return true;
    }
    match (before, after) {
        (Wall(_), Wall(_)) | (Post, Post) => true,
        // In at the top or the foot of a wall and out again into another void.
        (Plate(one, _), Plate(other, _)) if one == other => true,
        (Wall(wall), Plate(plate, _)) | (Plate(plate, _), Wall(wall)) => wall == plate,
        (Wall(wall), Void(void)) | (Void(void), Wall(wall)) => flush(walk, place, wall, void),
        (Post, Void(void)) | (Void(void), Post) => in_ground(walk, void),
        (Void(one), other) | (other, Void(one)) => other.opens_into(one),
        (Plate(_, void) | Passage(void), other) | (other, Plate(_, void) | Passage(void)) => {
            other.opens_into(void)
        }
        (Riser(one, two), other) => other.opens_into(one) || other.opens_into(two),
        _ => false,
    }
}

fn in_ground(walk: &Walk, void: VoidId) -> bool {
    walk.plan.voids.get(&void).is_some_and(|void| void.kind == VoidKind::Ground)
}

/// Whether a void lies right on the top or the foot of a wall, so that the
/// plate between them has no length of its own.
pub(crate) fn flush(walk: &Walk, place: Point3, wall: WallId, void: VoidId) -> bool {
    let level = walk.plan.walls.get(&wall).and_then(|wall| walk.plan.levels.get(&wall.level));
    let at = walk.plan.voids.get(&void).is_some_and(|void| level_with(void.z, place.z));
    level.is_some_and(|level| {
        at && ((level_with(place.z, level.ceiling()) && level.above.contains(&void))
            || (level_with(place.z, level.floor) && level.below.contains(&void)))
    })
}
