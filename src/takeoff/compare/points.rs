//! Points that came, went or changed, and how many of what in which room.

use std::collections::BTreeMap;

use serde::Serialize;

use super::places::moved;
use super::told::{Fate, Section, Side, ThingChange, Told, fates, once};
use super::words::{millimetres, or_open};
use crate::plan::{CircuitId, Point, PointId, Subject};

/// So many points of a kind that came into a room, or went from it. One that
/// moved or became another kind went from where it was and came to where it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct RoomCount {
    /// The room; `outside` where there is none.
    pub room: String,
    /// What they are: `double socket-outlet`.
    pub what: String,
    /// How many came.
    pub added: u32,
    /// How many went.
    pub removed: u32,
}

pub(super) fn points(old: &Side<'_>, new: &Side<'_>, changes: &mut Vec<ThingChange>) {
    for (id, fate) in fates(&old.plan.points, &new.plan.points) {
        changes.extend(match fate {
            Fate::Gone(was) => Some(whole(old, id, was, "removed")),
            Fate::Came(is) => Some(whole(new, id, is, "added")),
            Fate::Stayed { was, is } => changed((old, was), (new, is), id),
        });
    }
}

fn whole(side: &Side<'_>, id: PointId, point: &Point, fate: &str) -> ThingChange {
    let place = point.place.map_or("not placed".to_owned(), |place| side.place(&place));
    let kind = Side::kind(point);
    let what = format!("{fate}: {kind}, {place}, on {}", circuit(side, point.circuit));
    once(Section::Points, Some(Subject::Point(id)), side.marks.point(id), what)
}

fn circuit(side: &Side<'_>, id: Option<CircuitId>) -> String {
    let circuit = id.and_then(|id| side.plan.circuits.get(&id));
    circuit.map_or_else(|| "no circuit".to_owned(), |circuit| side.marks.circuit(circuit))
}

fn changed(
    (old, was): (&Side<'_>, &Point),
    (new, is): (&Side<'_>, &Point),
    id: PointId,
) -> Option<ThingChange> {
    // Named one by one, so that a field that is new to points cannot be missed.
    let Point { kind, place, circuit: on, label, gangs, load, tail, optional, note } = was;
    let mut told = Told::default();
    let (mark, marked) = (new.marks.point(id), old.marks.point(id));
    if mark != marked {
        told.say(format!("marked {mark}, was {marked}"));
    } else {
        told.text("label", label, &is.label);
    }
    if *kind != is.kind {
        told.say(format!("{}, was {}", is.kind.name(), kind.name()));
    }
    if let Some(moved) = moved((old, *place), (new, is.place)) {
        told.say(moved);
    }
    if *on != is.circuit {
        told.say(format!("on {}, was on {}", circuit(new, is.circuit), circuit(old, *on)));
    }
    told.field("gangs", gangs, &is.gangs, u8::to_string);
    let watts = |load: &Option<_>| {
        load.as_ref()
            .map_or("by its kind".to_owned(), |it: &crate::units::Watts| format!("{} W", it.0))
    };
    told.field("load", load, &is.load, watts);
    told.field("cable left at its box", tail, &is.tail, |it| {
        it.as_ref().map_or("as allowed for its kind".to_owned(), millimetres)
    });
    match (*optional, is.optional) {
        (false, true) => told.say("may now be left out"),
        (true, false) => told.say("no longer optional"),
        _ => {}
    }
    told.text("note", note, &is.note);
    told.of(Section::Points, Some(Subject::Point(id)), mark)
}

/// What came and went, by room and kind.
pub(super) fn by_room(old: &Side<'_>, new: &Side<'_>) -> Vec<RoomCount> {
    let key = |side: &Side<'_>, point: &Point| (side.room(point.place), Side::kind(point));
    let mut counts: BTreeMap<(String, String), (u32, u32)> = BTreeMap::new();
    for (_, fate) in fates(&old.plan.points, &new.plan.points) {
        let (gone, came) = match fate {
            Fate::Gone(was) => (Some(was), None),
            Fate::Came(is) => (None, Some(is)),
            Fate::Stayed { was, is } if key(old, was) != key(new, is) => (Some(was), Some(is)),
            Fate::Stayed { .. } => continue,
        };
        if let Some(was) = gone {
            counts.entry(key(old, was)).or_default().1 += 1;
        }
        if let Some(is) = came {
            counts.entry(key(new, is)).or_default().0 += 1;
        }
    }
    let count = |((room, what), (added, removed))| RoomCount { room, what, added, removed };
    counts.into_iter().map(count).collect()
}

/// Marks of points as a list.
pub(super) fn marks(side: &Side<'_>, points: &[PointId]) -> String {
    super::words::list(points, |id| side.marks.point(*id).to_owned())
}

/// `16 A`, or that it is not decided.
pub(super) fn amps(value: &Option<crate::units::Amps>) -> String {
    or_open(value, |it| format!("{} A", it.0))
}
