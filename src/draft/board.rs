//! Boards: by the entrance, or where asked.

use super::dwellings::Dwelling;
use super::kit::Kit;
use super::options::{BoardPlace, DraftError, Side};
use super::outline::area_m2;
use super::spans::{Clear, nearest, seen, usable};
use super::survey::{Door, Span, Survey};
use crate::plan::{Board, BoardId, OnWall, OpeningKind, Place, RoomId, RoomUse, Subject, Supply};
use crate::rules::words::{MountedAt, PlacingOf};
use crate::units::{Mm, Volts};

/// Gives every dwelling its board.
pub(super) fn place_all(
    kit: &mut Kit<'_>,
    survey: &Survey,
    dwellings: &mut Vec<Dwelling>,
) -> Result<(), DraftError> {
    if let Some(drawn) = kit.plan.boards.keys().next().copied() {
        for dwelling in dwellings {
            dwelling.board = Some(drawn);
        }
        if kit.plan.boards[&drawn].place.is_some() {
            return Ok(());
        }
        let rooms: Vec<RoomId> = survey.rooms().collect();
        let (place, because) = find(kit, survey, &rooms)?;
        kit.plan.boards[&drawn].place = Some(place);
        kit.reason(Subject::Board(drawn), "the board, which had no place", because);
        return Ok(());
    }
    for dwelling in dwellings.iter_mut() {
        let (place, because) = match find(kit, survey, &dwelling.rooms) {
            Ok(found) => found,
            // Told below: it hangs on another board.
            Err(DraftError::NoWalls) => continue,
            Err(error) => return Err(error),
        };
        if let Place::Wall(on) = &place {
            kit.take(on);
        }
        let id = BoardId(kit.next_id());
        let supply = Supply { voltage: Some(Volts(230.0)), phases: Some(1), ..Supply::default() };
        let board = Board { label: String::new(), place: Some(place), supply, ways: None };
        kit.plan.boards.insert(id, board);
        dwelling.board = Some(id);
        kit.reason(Subject::Board(id), "a board", because);
        kit.reason(
            Subject::Board(id),
            "230 V, one phase",
            "taken for granted; enter what the supplier says",
        );
    }
    let first = dwellings.iter().find_map(|dwelling| dwelling.board).ok_or(DraftError::NoWalls)?;
    for dwelling in dwellings {
        if dwelling.board.is_none() {
            dwelling.board = Some(first);
            hung_on(kit, dwelling, first);
        }
    }
    Ok(())
}

/// Rooms without a wall for a board hang on another.
fn hung_on(kit: &mut Kit<'_>, dwelling: &Dwelling, board: BoardId) {
    let Some(room) = dwelling.rooms.first().copied() else { return };
    let names: Vec<&str> = dwelling
        .rooms
        .iter()
        .filter_map(|room| kit.plan.rooms.get(room))
        .map(|room| room.name.as_str())
        .take(4)
        .collect();
    let more = if dwelling.rooms.len() > names.len() { " and more" } else { "" };
    kit.reason(
        Subject::Room(room),
        format!("no board of its own for {}{more}: fed from {board}", names.join(", ")),
        "no dry room there has a free wall for one; add a board by hand and draft again",
    );
}

fn find(kit: &Kit<'_>, survey: &Survey, rooms: &[RoomId]) -> Result<(Place, String), DraftError> {
    if let Some(asked) = &kit.options.board {
        let room = asked_room(kit, survey, asked)?;
        // Other dwellings get theirs by their own entrance.
        if rooms.contains(&room) {
            return as_asked(kit, survey, asked, room);
        }
    }
    let entrance = entrance(kit, survey, rooms);
    let room = entrance.map(|(room, _)| room);
    // The room of the entrance, then halls, then any dry room, largest first.
    let mut order: Vec<RoomId> = rooms.to_vec();
    let rank = |candidate: &RoomId| {
        let usage = kit.plan.rooms[candidate].usage;
        match usage {
            _ if Some(*candidate) == room && !is_wet(usage) => 0,
            RoomUse::Hall => 1,
            RoomUse::Store | RoomUse::Garage | RoomUse::Laundry | RoomUse::Stair => 2,
            _ if is_wet(usage) => 9,
            _ => 3,
        }
    };
    let area =
        |room: &RoomId| super::numbers::whole(area_m2(&kit.plan.rooms[room].outline) * 100.0);
    order.sort_by_key(|room| (rank(room), -area(room), *room));
    for candidate in order.iter().filter(|room| rank(room) < 9) {
        let door = match entrance {
            Some((room, door)) if room == *candidate => Some(door),
            _ => survey.doors_of(*candidate).first().copied(),
        };
        if let Some(place) = in_room(kit, survey, *candidate, door, |_| true) {
            let name = &kit.plan.rooms[candidate].name;
            let because = match entrance {
                Some((room, door)) if room == *candidate => {
                    format!("in {name}, by the entrance {}", door.opening)
                }
                _ => format!("in {name}; no free wall by the entrance"),
            };
            return Ok((place, because));
        }
    }
    Err(DraftError::NoWalls)
}

const fn is_wet(usage: RoomUse) -> bool {
    matches!(usage, RoomUse::Bathroom | RoomUse::Toilet | RoomUse::Kitchen | RoomUse::Outdoor)
}

/// The door by which people enter: out of all rooms of the dwelling, into a
/// hall if there is one, on the lowest level.
pub(super) fn entrance(kit: &Kit<'_>, survey: &Survey, rooms: &[RoomId]) -> Option<(RoomId, Door)> {
    let mut doors: Vec<(RoomId, Door)> = Vec::new();
    for room in rooms {
        let out = survey.doors_of(*room).iter().filter(|door| match door.beyond {
            None => true,
            Some(beyond) => {
                !rooms.contains(&beyond) && kit.plan.rooms[&beyond].usage != RoomUse::Outdoor
            }
        });
        doors.extend(out.map(|door| (*room, *door)));
    }
    let rank = |room: &RoomId| match kit.plan.rooms[room].usage {
        RoomUse::Hall => 0,
        RoomUse::Stair => 1,
        RoomUse::Living | RoomUse::Other => 2,
        RoomUse::Dining | RoomUse::Kitchen => 3,
        RoomUse::Laundry | RoomUse::Garage | RoomUse::Store => 4,
        RoomUse::Bedroom | RoomUse::Study => 5,
        RoomUse::Bathroom | RoomUse::Toilet | RoomUse::Outdoor => 6,
    };
    doors.into_iter().filter(|(_, door)| door.kind != OpeningKind::Plain).min_by_key(
        |(room, door)| {
            let sliding = door.kind == OpeningKind::SlidingDoor;
            let floor = kit.plan.levels[&kit.plan.rooms[room].level].floor;
            // A common stair beyond is the surest sign.
            let common = i32::from(door.beyond.is_none());
            (floor, sliding, common, rank(room), door.wall, door.from)
        },
    )
}

fn in_room(
    kit: &Kit<'_>,
    survey: &Survey,
    room: RoomId,
    door: Option<Door>,
    fits: impl Fn(&Span) -> bool,
) -> Option<Place> {
    let height = kit.height(kit.plan.rooms[&room].level, MountedAt::Board);
    let tries = [
        (kit.distance(PlacingOf::BoardClear), kit.distance(PlacingOf::BoardFromDoor)),
        (200, 250),
        (150, 150),
        (60, 60),
    ];
    for (corner, from_door) in tries {
        let clear = Clear { corner, door: from_door, window: corner, at_windows: false };
        let spans: Vec<Span> = usable(kit, survey, room, height, clear)
            .into_iter()
            .filter(|span| fits(span))
            .collect();
        let Some(first) = spans.first() else { continue };
        let to = door.map_or_else(
            || seen(kit, first.wall, first.face, (first.from + first.to).div_euclid(2)),
            |door| seen(kit, door.wall, door.face, (door.from + door.to).div_euclid(2)),
        );
        if let Some((wall, face, along)) = nearest(kit, &spans, height, to) {
            return Some(Place::Wall(OnWall { wall, along: Mm::new(along), height, face }));
        }
    }
    None
}

fn asked_room(kit: &Kit<'_>, survey: &Survey, asked: &BoardPlace) -> Result<RoomId, DraftError> {
    let is_named = |id: &RoomId| {
        id.to_string() == asked.room || kit.plan.rooms[id].name.eq_ignore_ascii_case(&asked.room)
    };
    let room = survey.rooms().find(is_named);
    room.ok_or_else(|| DraftError::NoRoom { asked: asked.room.clone() })
}

fn as_asked(
    kit: &Kit<'_>,
    survey: &Survey,
    asked: &BoardPlace,
    room: RoomId,
) -> Result<(Place, String), DraftError> {
    let door = survey.doors_of(room).first().copied();
    let fits = |span: &Span| match &asked.side {
        None => true,
        Some(Side::Wall(id)) => span.wall.to_string() == *id,
        Some(side) => {
            // Out of the face is into the room, away from the side.
            let (nx, ny) = kit.plan.walls[&span.wall].normal(span.face);
            match side {
                Side::North => ny < -0.7,
                Side::South => ny > 0.7,
                Side::East => nx < -0.7,
                _ => nx > 0.7,
            }
        }
    };
    let place = in_room(kit, survey, room, door, fits)
        .ok_or_else(|| DraftError::NoSpace { asked: kit.plan.rooms[&room].name.clone() })?;
    Ok((place, "asked for".to_owned()))
}
