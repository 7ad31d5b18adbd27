//! In walls a cable goes upright only in line with an accessory or in a corner
//! strip, and sideways only level with an accessory, in the ceiling strip or
//! within the corner strips.

use wirewend::plan::{Plan, Wall, WallId};

use super::complaint::{Code, Complaints};
use super::house::{accessories, on_wall};
use super::medium::Medium;
use super::shape::{NEAR, Spot};
use super::strips::{all_in_strips, corner_strips, in_strip};
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, segment, medium) in walk.pieces() {
        let Medium::Wall(id) = medium else { continue };
        let Some(wall) = walk.plan.walls.get(&id) else { continue };
        let (from, to) =
            (on_wall(walk.plan, wall, segment.from), on_wall(walk.plan, wall, segment.to));
        let strips = corner_strips(walk.plan, id);
        if (from.x - to.x).abs() <= NEAR {
            if !in_line(walk.plan, id, from) && !in_strip(&strips, from.x) {
                let text = format!("upright {:.0} along {id}", from.x);
                book.segment(Code::UprightZone, walk.leg, at, text);
            }
        } else if !in_row(walk.plan, wall, id, from.y) && !all_in_strips(&strips, from.x, to.x) {
            let text = format!("sideways {:.0} above the floor of {id}", from.y);
            book.segment(Code::SidewaysZone, walk.leg, at, text);
        }
    }
}

/// Whether a place on a wall is in line with one of its accessories.
fn in_line(plan: &Plan, wall: WallId, place: Spot) -> bool {
    accessories(plan, wall).iter().any(|one| (one.x - place.x).abs() <= NEAR)
}

/// Whether a height on a wall is level with one of its accessories, or in the
/// ceiling strip.
pub(crate) fn in_row(plan: &Plan, wall: &Wall, id: WallId, height: f64) -> bool {
    let ceiling = plan.levels.get(&wall.level).map_or(0.0, |level| level.height.to_f64());
    height >= ceiling - plan.habits.zones.strip.to_f64()
        || accessories(plan, id).iter().any(|one| (one.y - height).abs() <= 1.0)
}
