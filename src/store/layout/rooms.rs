//! The rooms of a layout, and what they are used for.

use super::form::FormRoom;
use super::{LayoutReport, NoteKind, next_id};
use crate::plan::{LevelId, Plan, Room, RoomId, RoomUse, room_word};
use crate::units::Point2;

/// Adds the rooms of a level.
pub(super) fn add(plan: &mut Plan, level: LevelId, rooms: &[FormRoom], report: &mut LayoutReport) {
    for room in rooms {
        let part = room.part.clone();
        if room.kind.eq_ignore_ascii_case("slab") {
            report.note(NoteKind::LeftOut, part, "the outline of a slab is no room");
            continue;
        }
        let outline = outline(room);
        if outline.len() < room.polygon.len() {
            let dropped = room.polygon.len() - outline.len();
            let message = format!("{dropped} of its corners add nothing");
            report.note(NoteKind::Changed, part.clone(), message);
        }
        let usage = usage(&room.kind, &room.name);
        let name = if room.name.is_empty() { room.kind.clone() } else { room.name.clone() };
        if usage == RoomUse::Other {
            let message = format!("nothing says what \"{name}\" is used for");
            report.note(NoteKind::Assumed, part, message);
        }
        let id = RoomId(next_id(plan));
        plan.rooms.insert(id, Room { level, name, usage, outline });
    }
}

/// The corners without repeats; empty where they enclose nothing.
fn outline(room: &FormRoom) -> Vec<Point2> {
    let mut corners: Vec<Point2> = room.polygon.iter().map(|corner| corner.0).collect();
    corners.dedup();
    while corners.len() > 1 && corners.first() == corners.last() {
        corners.pop();
    }
    if corners.len() < 3 { Vec::new() } else { corners }
}

/// What a room is used for, by its type or else by its name.
pub(in crate::store) fn usage(kind: &str, name: &str) -> RoomUse {
    let told = |text: &str| room_word(text).and_then(|word| word.usage);
    told(kind).or_else(|| told(name)).unwrap_or_default()
}
