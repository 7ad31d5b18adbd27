//! The rooms of a layout, and what they are used for.

use super::form::FormRoom;
use super::{LayoutReport, NoteKind, next_id};
use crate::plan::{LevelId, Plan, Room, RoomId, RoomUse};
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

/// Beginnings of words by which rooms are known in English, German, French,
/// Italian, Spanish and Dutch. The first that fits counts, so that compounds
/// come before what they are made of.
const WORDS: [(&str, RoomUse); 70] = [
    ("staircase", RoomUse::Stair),
    ("stair", RoomUse::Stair),
    ("treppe", RoomUse::Stair),
    ("escalier", RoomUse::Stair),
    ("escalera", RoomUse::Stair),
    ("scala", RoomUse::Stair),
    ("trap", RoomUse::Stair),
    ("bathroom", RoomUse::Bathroom),
    ("bath", RoomUse::Bathroom),
    ("bad", RoomUse::Bathroom),
    ("dusche", RoomUse::Bathroom),
    ("shower", RoomUse::Bathroom),
    ("salle de bain", RoomUse::Bathroom),
    ("bagno", RoomUse::Bathroom),
    ("baño", RoomUse::Bathroom),
    ("douche", RoomUse::Bathroom),
    ("toilet", RoomUse::Toilet),
    ("toilette", RoomUse::Toilet),
    ("wc", RoomUse::Toilet),
    ("aseo", RoomUse::Toilet),
    ("kitchen", RoomUse::Kitchen),
    ("küche", RoomUse::Kitchen),
    ("kueche", RoomUse::Kitchen),
    ("cuisine", RoomUse::Kitchen),
    ("cucina", RoomUse::Kitchen),
    ("cocina", RoomUse::Kitchen),
    ("keuken", RoomUse::Kitchen),
    ("bedroom", RoomUse::Bedroom),
    ("schlaf", RoomUse::Bedroom),
    ("kinder", RoomUse::Bedroom),
    ("chambre", RoomUse::Bedroom),
    ("camera", RoomUse::Bedroom),
    ("dormitorio", RoomUse::Bedroom),
    ("slaapkamer", RoomUse::Bedroom),
    ("living", RoomUse::Living),
    ("lounge", RoomUse::Living),
    ("wohn", RoomUse::Living),
    ("séjour", RoomUse::Living),
    ("salon", RoomUse::Living),
    ("salón", RoomUse::Living),
    ("soggiorno", RoomUse::Living),
    ("woonkamer", RoomUse::Living),
    ("dining", RoomUse::Dining),
    ("esszimmer", RoomUse::Dining),
    ("comedor", RoomUse::Dining),
    ("hallway", RoomUse::Hall),
    ("hall", RoomUse::Hall),
    ("corridor", RoomUse::Hall),
    ("foyer", RoomUse::Hall),
    ("entrance", RoomUse::Hall),
    ("landing", RoomUse::Hall),
    ("diele", RoomUse::Hall),
    ("flur", RoomUse::Hall),
    ("couloir", RoomUse::Hall),
    ("corridoio", RoomUse::Hall),
    ("pasillo", RoomUse::Hall),
    ("gang", RoomUse::Hall),
    ("utility", RoomUse::Laundry),
    ("laundry", RoomUse::Laundry),
    ("wasch", RoomUse::Laundry),
    ("study", RoomUse::Study),
    ("office", RoomUse::Study),
    ("arbeit", RoomUse::Study),
    ("garage", RoomUse::Garage),
    ("storeroom", RoomUse::Store),
    ("abstell", RoomUse::Store),
    ("balcon", RoomUse::Outdoor),
    ("balkon", RoomUse::Outdoor),
    ("loggia", RoomUse::Outdoor),
    ("terrass", RoomUse::Outdoor),
];

/// What a room is used for, by its type or else by its name.
pub(in crate::store) fn usage(kind: &str, name: &str) -> RoomUse {
    [kind, name]
        .into_iter()
        .map(str::to_lowercase)
        .find_map(|text| {
            let begins = |word: &str| {
                text.match_indices(word)
                    .any(|(at, _)| !text[..at].ends_with(|before: char| before.is_alphabetic()))
            };
            WORDS.iter().find(|(word, _)| begins(word)).map(|(_, usage)| *usage)
        })
        .unwrap_or_default()
}
