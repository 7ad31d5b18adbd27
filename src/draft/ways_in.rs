//! The ways into a room that want a switch: doors, and open sides.

use super::gaps::Gap;
use super::kit::Kit;
use super::spans::seen;
use super::survey::{Door, Survey};
use crate::plan::{OpeningKind, RoomId, RoomUse};

/// Two ways in so near to each other need one switch, mm.
const NEAR: f64 = 2000.0;

/// A way into a room.
#[derive(Clone, Copy, Debug)]
pub(super) enum WayIn {
    /// Through a door or an opening in a wall.
    Door(Door),
    /// Over an open side.
    Gap(Gap),
}

impl WayIn {
    fn beyond(&self) -> Option<RoomId> {
        match self {
            Self::Door(door) => door.beyond,
            Self::Gap(gap) => Some(gap.beyond),
        }
    }

    fn middle(&self, kit: &Kit<'_>) -> (f64, f64) {
        match self {
            Self::Door(door) => {
                seen(kit, door.wall, door.face, (door.from + door.to).div_euclid(2))
            }
            Self::Gap(gap) => gap.middle(),
        }
    }

    fn has_leaf(&self) -> bool {
        matches!(self, Self::Door(door) if door.kind == OpeningKind::Door)
    }
}

/// The ways into a room that want a switch, most important first.
pub(super) fn of(kit: &Kit<'_>, survey: &Survey, room: RoomId) -> Vec<WayIn> {
    let usage = |room: Option<RoomId>| room.map(|room| kit.plan.rooms[&room].usage);
    let own = usage(Some(room));
    // From where people come in: lower is likelier.
    let rank = |way: &WayIn| match usage(way.beyond()) {
        Some(RoomUse::Hall) => 0,
        Some(RoomUse::Stair) => 1,
        None if way.has_leaf() => 2,
        Some(RoomUse::Living) => 3,
        Some(RoomUse::Dining | RoomUse::Kitchen | RoomUse::Other) => 4,
        Some(RoomUse::Bedroom | RoomUse::Study) => 5,
        Some(RoomUse::Laundry | RoomUse::Garage) => 6,
        None => 7,
        Some(RoomUse::Bathroom | RoomUse::Toilet | RoomUse::Store) => 8,
        Some(RoomUse::Outdoor) => 9,
    };
    let doors = survey.doors_of(room).iter().copied().map(WayIn::Door);
    let gaps = survey.gaps_of(room).iter().copied().map(WayIn::Gap);
    let mut ways: Vec<WayIn> = doors.chain(gaps).collect();
    // Into a hall people come from outdoors first.
    let hall = matches!(own, Some(RoomUse::Hall | RoomUse::Stair));
    // Doors before open sides; each in the order of the drawing.
    ways.sort_by_key(|way| {
        let rank = if hall && way.beyond().is_none() { -1 } else { rank(way) };
        match way {
            WayIn::Door(door) => (rank, Some((door.wall, door.from))),
            WayIn::Gap(_) => (rank, None),
        }
    });
    let Some(first) = ways.first().copied() else { return ways };
    let small = matches!(
        own,
        Some(RoomUse::Bathroom | RoomUse::Toilet | RoomUse::Store | RoomUse::Outdoor)
    );
    if small {
        return vec![first];
    }
    let away = |way: &WayIn| {
        let (a, b) = (first.middle(kit), way.middle(kit));
        libm::hypot(a.0 - b.0, a.1 - b.1)
    };
    // A second where one walks through: halls to their far end, rooms to
    // another room or outdoors by a door. An open side has no edge to feel for.
    let is_door = |way: &WayIn| matches!(way, WayIn::Door(_));
    let passes = |way: &&WayIn| if hall { rank(way) < 9 } else { rank(way) < 5 && is_door(way) };
    let second = ways[1..]
        .iter()
        .filter(passes)
        .filter(|way| away(way) > NEAR)
        .max_by(|a, b| away(a).total_cmp(&away(b)));
    std::iter::once(first).chain(second.copied()).collect()
}
