//! Where things are, and how far they moved.

use super::told::Side;
use super::words::metres;
use crate::plan::{LevelId, Place, Point};
use crate::units::Mm;

impl Side<'_> {
    /// The room that a place looks into; `outside` where there is none.
    pub(super) fn room(&self, place: Option<Place>) -> String {
        let Some(place) = place else { return "not placed".to_owned() };
        let room = self.plan.room_of(&place).and_then(|id| self.plan.rooms.get(&id));
        match room.map(|room| room.name.as_str()) {
            None => "outside".to_owned(),
            Some("") => "a room without a name".to_owned(),
            Some(name) => name.to_owned(),
        }
    }

    /// `Kitchen, W4, 0.30 m up`.
    pub(super) fn place(&self, place: &Place) -> String {
        let room = self.room(Some(*place));
        match place {
            Place::Wall(on) => format!("{room}, {}, {} up", on.wall, metres(&on.height)),
            Place::Ceiling(_) => format!("{room}, ceiling"),
            Place::Floor(_) => format!("{room}, floor"),
            Place::Post(on) => format!("{room}, on a post, {} up", metres(&on.height)),
        }
    }

    /// The same with its level, where that matters.
    fn place_on_level(&self, place: &Place) -> String {
        let level = self.plan.level_of(place).map(|id| self.level(id));
        let words = self.place(place);
        level.map_or(words.clone(), |level| format!("{words}, {level}"))
    }

    /// What people call a level.
    pub(super) fn level(&self, id: LevelId) -> String {
        match self.plan.levels.get(&id) {
            Some(level) if !level.name.is_empty() => level.name.clone(),
            _ => format!("level {id}"),
        }
    }

    /// `double socket-outlet`.
    pub(super) fn kind(point: &Point) -> String {
        match point.gangs {
            0 | 1 => point.kind.name().to_owned(),
            2 => format!("double {}", point.kind.name()),
            gangs => format!("{gangs}-gang {}", point.kind.name()),
        }
    }
}

/// From where to where something moved and how far, seen from above. None where
/// it stayed: a wall that it is on may have moved under it.
pub(super) fn moved(
    (old, was): (&Side<'_>, Option<Place>),
    (new, is): (&Side<'_>, Option<Place>),
) -> Option<String> {
    let (was, is) = match (was, is) {
        (None, None) => return None,
        (None, Some(is)) => return Some(format!("placed: {}", new.place(&is))),
        (Some(was), None) => return Some(format!("no longer placed, was {}", old.place(&was))),
        (Some(was), Some(is)) => (was, is),
    };
    let (from, to) = (old.plan.position_on_face(&was), new.plan.position_on_face(&is));
    let apart = from.zip(to).map(|(from, to)| from.on_floor().distance(to.on_floor()));
    let by = apart.and_then(|apart| Mm::from_f64(apart).ok()).filter(|by| *by > Mm::ZERO);
    if was == is && by.is_none() {
        return None;
    }
    let step = by.map_or_else(|| "moved".to_owned(), |by| format!("moved {}", metres(&by)));
    let words = if old.plan.level_of(&was) == new.plan.level_of(&is) {
        Side::place
    } else {
        Side::place_on_level
    };
    let (from, to) = (words(old, &was), words(new, &is));
    Some(match (was == is, from == to) {
        (true, _) => format!("{step} with what it is on: {to}"),
        (false, true) if by.is_some() => format!("{step}: {to}"),
        (false, true) => format!("set otherwise at its place: {to}"),
        (false, false) => format!("{step}, from {from} to {to}"),
    })
}
