//! What rooms are used for, guessed from their names, areas and doors.

use std::sync::LazyLock;

use super::kit::Kit;
use super::outline::area_m2;
use super::use_key;
use crate::plan::{LevelId, Room, RoomId, RoomUse, Subject, WallBuild};
use crate::units::Point2;

/// Words and what they stand for; None for shafts.
static WORDS: LazyLock<Vec<(String, Option<RoomUse>, String)>> = LazyLock::new(|| {
    let text = include_str!("../../assets/room_words.csv");
    let mut reader = csv::ReaderBuilder::new().comment(Some(b'#')).from_reader(text.as_bytes());
    let row = |row: csv::StringRecord| {
        let cell = |index: usize| row.get(index).unwrap_or("").to_owned();
        (cell(0), named(&cell(1)), cell(2))
    };
    reader.records().filter_map(Result::ok).map(row).collect()
});

fn named(word: &str) -> Option<RoomUse> {
    ALL.into_iter().find(|usage| use_key(*usage) == word)
}

const ALL: [RoomUse; 13] = [
    RoomUse::Living,
    RoomUse::Dining,
    RoomUse::Kitchen,
    RoomUse::Bedroom,
    RoomUse::Bathroom,
    RoomUse::Toilet,
    RoomUse::Laundry,
    RoomUse::Hall,
    RoomUse::Stair,
    RoomUse::Study,
    RoomUse::Garage,
    RoomUse::Store,
    RoomUse::Outdoor,
];

/// The word of the table with which some word of a name begins; the longest
/// counts.
fn word_of(name: &str) -> Option<&'static (String, Option<RoomUse>, String)> {
    let name = name.to_lowercase();
    WORDS.iter().find(|(word, ..)| {
        name.match_indices(word.as_str())
            .any(|(at, _)| !name[..at].ends_with(|before: char| before.is_alphabetic()))
    })
}

/// Guesses the use of every room that says none.
pub(super) fn guess(kit: &mut Kit<'_>) {
    whole_levels(kit);
    let ids: Vec<RoomId> = kit.plan.rooms.keys().copied().collect();
    for id in ids {
        let room = kit.plan.rooms[&id].clone();
        let word = word_of(&room.name);
        if let Some((word, None, _)) = word {
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
            Some((word, Some(usage), language)) => {
                (*usage, format!("\"{word}\" is {} ({language})", use_key(*usage)))
            }
            _ => by_area(area),
        };
        kit.plan.rooms[&id].usage = usage;
        let chosen = format!("{} taken as {}", shown(&room.name), use_key(usage));
        kit.reason(Subject::Room(id), chosen, because);
    }
}

fn shown(name: &str) -> &str {
    if name.is_empty() { "a room without a name" } else { name }
}

/// A room whose name says nothing.
fn by_area(area: f64) -> (RoomUse, String) {
    let usage = match area {
        small if small < 2.5 => RoomUse::Store,
        hall if hall < 6.0 => RoomUse::Hall,
        bed if bed < 18.0 => RoomUse::Bedroom,
        living if living < 60.0 => RoomUse::Living,
        _ => RoomUse::Other,
    };
    (usage, format!("its name says nothing; {area:.1} m² is common for that"))
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_many_languages_are_known_and_the_longer_one_counts() {
        let usage = |name: &str| word_of(name).and_then(|word| word.1);
        for (name, expected) in [
            ("Bedroom 2", RoomUse::Bedroom),
            ("Schlafzimmer", RoomUse::Bedroom),
            ("Salle à manger", RoomUse::Dining),
            ("SALLE DE BAIN", RoomUse::Bathroom),
            ("Küche", RoomUse::Kitchen),
            ("cocina", RoomUse::Kitchen),
            ("Badezimmer", RoomUse::Bathroom),
            ("Bad", RoomUse::Bathroom),
            ("Sala de jantar", RoomUse::Dining),
            ("Olohuone", RoomUse::Living),
            ("Garderoba", RoomUse::Store),
            ("Upper landing", RoomUse::Hall),
        ] {
            assert_eq!(usage(name), Some(expected), "{name}");
        }
        assert!(word_of("Raum 3").is_none(), "says nothing");
        assert_eq!(word_of("Elevator 1").map(|word| word.1), Some(None), "a shaft");
        assert!(
            WORDS.iter().all(|word| word.1.is_some() || word_is_shaft(&word.0)),
            "every use is known"
        );
    }

    fn word_is_shaft(word: &str) -> bool {
        include_str!("../../assets/room_words.csv").contains(&format!("\n{word},shaft,"))
    }
}
