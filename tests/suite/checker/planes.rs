//! A segment lies in the plane that it says it lies in.

use wirewend::plan::{VoidId, WallId};
use wirewend::runs::Segment;
use wirewend::units::{Mm, Point3};

use super::complaint::{Code, Complaints};
use super::corners::MEETING;
use super::headings::along_joists;
use super::house::{along_and_across, covers_line};
use super::medium::Medium;
use super::shape::{NEAR, Spot};
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, segment, medium) in walk.pieces() {
        match medium {
            Medium::Wall(wall) => judge_wall(walk, at, segment, wall, book),
            Medium::Void(void) => judge_void(walk, at, segment, void, book),
            Medium::Unknown => book.segment(Code::NoPlane, walk.leg, at, "lies in no plane"),
            _ => {}
        }
    }
}

fn judge_wall(walk: &Walk, at: usize, segment: &Segment, id: WallId, book: &mut Complaints) {
    let wall = walk.plan.walls.get(&id);
    let level = wall.and_then(|wall| walk.plan.levels.get(&wall.level));
    let (Some(wall), Some(level)) = (wall, level) else {
        book.segment(Code::OffWall, walk.leg, at, format!("{id} is not in the plan"));
        return;
    };
    for end in [segment.from, segment.to] {
        let (along, across) = along_and_across(wall, Spot::under(end));
        let open = if turns_at(walk, end) { reach(walk) } else { NEAR };
        let beside = across.abs() > open || along < -open || along > wall.length() + open;
        let above = end.z < level.floor || end.z > level.ceiling();
        if beside || above {
            let text = format!(
                "{end:?} is {along:.0} along {id}, {across:.0} off its centre line, {} above its floor",
                end.z - level.floor
            );
            book.segment(Code::OffWall, walk.leg, at, text);
            return;
        }
    }
}

/// Whether the leg turns from one wall into another at a place.
fn turns_at(walk: &Walk, place: Point3) -> bool {
    walk.pairs().any(|(_, segments, media)| {
        matches!(media, [Medium::Wall(one), Medium::Wall(other)] if one != other)
            && segments[0].to == place
    })
}

/// How far a meeting of two walls may lie off the centre line of one: an end
/// that stops at the other's face, as drawings often have it.
fn reach(walk: &Walk) -> f64 {
    let walls = walk.plan.walls.values();
    walls.map(|wall| wall.thickness.to_f64() / 2.0).fold(0.0, f64::max) + MEETING + NEAR
}

fn judge_void(walk: &Walk, at: usize, segment: &Segment, id: VoidId, book: &mut Complaints) {
    let Some(void) = walk.plan.voids.get(&id) else {
        book.segment(Code::OffVoid, walk.leg, at, format!("{id} is not in the plan"));
        return;
    };
    if (segment.from.z - void.z).abs() > Mm::ZERO || (segment.to.z - void.z).abs() > Mm::ZERO {
        let text = format!("{id} is at {}, not at {}", void.z, segment.from.z);
        book.segment(Code::OffVoid, walk.leg, at, text);
    }
    let (from, to) = (Spot::under(segment.from), Spot::under(segment.to));
    if !covers_line(walk.plan, id, from, to) {
        book.segment(Code::OutsideVoid, walk.leg, at, format!("leaves {id}"));
    }
    if let Some((along, across)) = along_joists(walk, segment, id)
        && along.abs().min(across.abs()) > NEAR
    {
        let text = format!("{along:.1} along the joists of {id} and {across:.1} across");
        book.segment(Code::Askew, walk.leg, at, text);
    }
}
