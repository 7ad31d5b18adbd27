//! What rooms are used for, guessed from their names, areas and doors.

use super::kit::Kit;
use super::outline::{area_m2, depth, heart};
use crate::plan::{
    Face, LevelId, Room, RoomId, RoomUse, RoomWord, Subject, WallBuild, outline_holds, room_word,
};
use crate::units::Point2;

/// Guesses the use of every room that says none.
pub(super) fn guess(kit: &mut Kit<'_>) {
    whole_levels(kit);
    let ids: Vec<RoomId> = kit.plan.rooms.keys().copied().collect();
    for id in ids {
        let room = kit.plan.rooms[&id].clone();
        let word = room_word(&room.name);
        if let Some(RoomWord { word, usage: None, .. }) = word {
            kit.shafts.insert(id);
            kit.reason(
                Subject::Room(id),
                format!("{} gets nothing", room.name),
                format!("\"{word}\" stands for a shaft"),
            );
            continue;
        }
        if room.usage != RoomUse::Other {
            continue;
        }
        let area = area_m2(&room.outline);
        let (usage, because) = match word {
            Some(RoomWord { word, usage: Some(usage), language }) => {
                (*usage, format!("\"{word}\" is {} ({language})", usage.key()))
            }
            _ if has_railing(kit, &room) => {
                let because = "its name says nothing; a railing closes it on one side";
                (RoomUse::Outdoor, because.to_owned())
            }
            _ => by_shape(&room.outline, area),
        };
        kit.plan.rooms[&id].usage = usage;
        let chosen = format!("{} taken as {}", shown(&room.name), usage.key());
        kit.reason(Subject::Room(id), chosen, because);
    }
}

fn shown(name: &str) -> &str {
    if name.is_empty() { "a room without a name" } else { name }
}

/// Whether a railing or a fence closes a good part of a room towards the open.
/// Between two rooms it is a mere partition.
fn has_railing(kit: &Kit<'_>, room: &Room) -> bool {
    let level = room.level;
    let indoors = |x: f64, y: f64| {
        kit.plan
            .rooms
            .values()
            .any(|other| other.level == level && outline_holds(&other.outline, x, y))
    };
    let screens =
        kit.plan.walls.values().filter(|w| w.level == level && w.build == WallBuild::Screen);
    let mut closed = 0;
    for wall in screens {
        let (nx, ny) = wall.normal(Face::Left);
        let mut along = RAILING_STEP / 2.0;
        while along < wall.length() {
            let at = wall.at(along);
            let (x, y) = (at.x.to_f64(), at.y.to_f64());
            let sides =
                [1.0, -1.0].map(|side| indoors(x + side * nx * BESIDE, y + side * ny * BESIDE));
            let own = depth(&room.outline, x, y).abs() < RAILING_OFF;
            closed += i32::from(own && sides[0] != sides[1]);
            along += RAILING_STEP;
        }
    }
    let sides = room.outline.iter().zip(room.outline.iter().cycle().skip(1));
    let around: f64 = sides.map(|(from, to)| from.distance(*to)).sum();
    closed >= RAILING_STEPS_MIN && f64::from(closed) * RAILING_STEP >= RAILING_SHARE * around
}

/// A railing is looked at every so many mm, and lies so near the edge.
const RAILING_STEP: f64 = 250.0;
const RAILING_OFF: f64 = 250.0;
/// So far to its sides is looked for rooms, mm.
const BESIDE: f64 = 400.0;
/// A fifth of its edge: a thin piece of outer wall is not a balcony.
const RAILING_SHARE: f64 = 0.2;
/// A metre of it.
const RAILING_STEPS_MIN: i32 = 4;

/// No bed stands in a room that is nowhere wider than this, mm.
const NARROW: f64 = 1800.0;

/// A room whose name says nothing.
fn by_shape(outline: &[Point2], area: f64) -> (RoomUse, String) {
    let wide = heart(outline).map(|at| 2.0 * depth(outline, at.x.to_f64(), at.y.to_f64()));
    if let Some(wide) = wide.filter(|wide| *wide < NARROW && (2.5..40.0).contains(&area)) {
        let wide = wide / 1000.0;
        return (
            RoomUse::Hall,
            format!(
                "its name says nothing; nowhere wider than {}",
                crate::wording::metres_about(wide)
            ),
        );
    }
    let usage = match area {
        small if small < 2.5 => RoomUse::Store,
        hall if hall < 6.0 => RoomUse::Hall,
        bed if bed < 18.0 => RoomUse::Bedroom,
        living if living < 60.0 => RoomUse::Living,
        _ => RoomUse::Other,
    };
    (
        usage,
        format!(
            "its name says nothing; {} is common for that",
            crate::wording::square_metres(area)
        ),
    )
}

/// A level without rooms is taken as one.
fn whole_levels(kit: &mut Kit<'_>) {
    let levels: Vec<LevelId> = kit.plan.levels.keys().copied().collect();
    for level in levels {
        let has_rooms =
            kit.plan.rooms.values().any(|room| room.level == level && !room.outline.is_empty());
        let low = kit.plan.levels[&level].height < crate::units::Mm::new(1900);
        let walls = kit
            .plan
            .walls
            .values()
            .filter(|wall| wall.level == level && wall.build != WallBuild::Screen);
        let ends: Vec<Point2> = walls.flat_map(|wall| [wall.a, wall.b]).collect();
        let Some(first) = ends.first().filter(|_| !has_rooms && !low) else { continue };
        let least = ends
            .iter()
            .fold(*first, |low, end| Point2 { x: low.x.min(end.x), y: low.y.min(end.y) });
        let most = ends
            .iter()
            .fold(*first, |high, end| Point2 { x: high.x.max(end.x), y: high.y.max(end.y) });
        if least.x == most.x || least.y == most.y {
            continue;
        }
        let outline =
            vec![least, Point2 { x: most.x, y: least.y }, most, Point2 { x: least.x, y: most.y }];
        let id = RoomId(kit.next_id());
        let name = "Whole floor".to_owned();
        kit.plan.rooms.insert(id, Room { level, name, usage: RoomUse::Other, outline });
        kit.reason(
            Subject::Room(id),
            "the whole floor taken as one room",
            "no rooms are drawn on this level; draw them for a better draft",
        );
    }
}
