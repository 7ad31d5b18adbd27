//! What may lie beyond a door behind which nothing is drawn: the open, a
//! landing, or a fall.

use super::dwellings::Dwelling;
use super::kit::Kit;
use super::spans::seen;
use super::survey::{Door, Survey};
use super::switches::other;
use crate::plan::{LevelId, RoomId};

/// A storey so much above the ground's is an upper one, mm.
const STOREY: i64 = 1500;
/// What faces a door across a landing is no further off, mm: *common practice*
/// for corridors and stairs, which are 1 to 3 m wide.
const LANDING: i64 = 3500;
/// Parts of names of upper storeys.
const UPPER: [&str; 8] =
    ["upper", "upstairs", "attic", "loft", "first floor", "second floor", "obergesch", "dachgesch"];

/// What a door without a room beyond it leads to.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Beyond {
    /// The open, as far as a drawing tells.
    Open,
    /// Not the open, or not at a height to stand on; why.
    NotOpen(String),
}

/// The floor of the storey on the ground, where rooms are drawn on it: the
/// nearest to the plan's zero, as cellars lie below it.
fn ground(kit: &Kit<'_>) -> Option<i64> {
    let floors = kit.plan.rooms.values().map(|room| kit.plan.levels[&room.level].floor.get());
    floors.min_by_key(|floor| (floor.abs(), *floor))
}

/// Whether a storey lies above the ground, by its height or by its name.
fn is_upper(kit: &Kit<'_>, level: LevelId) -> bool {
    let level = &kit.plan.levels[&level];
    let name = level.name.to_lowercase();
    ground(kit).is_some_and(|ground| level.floor.get() > ground + STOREY)
        || UPPER.iter().any(|word| name.contains(word))
}

/// What lies beyond a door of a room of a dwelling.
pub(super) fn beyond(
    kit: &Kit<'_>,
    survey: &Survey,
    dwellings: &[Dwelling],
    own: &Dwelling,
    (room, door): (RoomId, &Door),
) -> Beyond {
    let level = kit.plan.rooms[&room].level;
    if is_upper(kit, level) {
        let name = &kit.plan.levels[&level].name;
        return Beyond::NotOpen(format!(
            "{name} lies above the ground and nothing is drawn beyond the door: a landing, a balcony or a fall; draw what is there and draft again"
        ));
    }
    let across = across(kit, survey, level, door).filter(|met| !own.rooms.contains(met));
    match across.filter(|met| dwellings.iter().any(|other| other.rooms.contains(met))) {
        Some(met) => {
            let name = &kit.plan.rooms[&met].name;
            Beyond::NotOpen(format!(
                "{name} of another dwelling faces the door across less than {} m: taken for a landing that is not drawn; draw it as a hall and draft again",
                tenths(LANDING)
            ))
        }
        None => Beyond::Open,
    }
}

fn tenths(mm: i64) -> String {
    format!("{}.{}", mm.div_euclid(1000), mm.rem_euclid(1000).div_euclid(100))
}

/// The room that is met first on the way straight out of a door.
fn across(kit: &Kit<'_>, survey: &Survey, level: LevelId, door: &Door) -> Option<RoomId> {
    let out = other(door.face);
    let (x, y) = seen(kit, door.wall, out, (door.from + door.to).div_euclid(2));
    let (nx, ny) = kit.plan.walls[&door.wall].normal(out);
    (1..=LANDING.div_euclid(50)).find_map(|step| {
        let off = super::numbers::real(50 * step);
        survey.room_at(level, x + off * nx, y + off * ny)
    })
}
