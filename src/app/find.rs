//! Finding a point, a circuit or an action by its name.

use std::path::PathBuf;

use wirewend::plan::{PointKind, Subject, labels};

use super::desk::Desk;
use super::keys::{self, Command};

/// Where a hit leads.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Goes {
    /// To something in the plan.
    To(Subject),
    /// To an action.
    Do(Command),
    /// To another kind of what is chosen.
    Kind(PointKind),
    /// To another plan.
    Open(PathBuf),
}

/// Something that was found.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Hit {
    pub(super) name: String,
    /// A key, or a word about what it is.
    pub(super) aside: String,
    pub(super) goes: Goes,
}

/// How many hits are shown.
pub(super) const MOST: usize = 9;

/// What a text finds: things whose name begins with it first, then those that
/// hold all its words.
pub(super) fn hits(desk: &Desk, text: &str) -> Vec<Hit> {
    let wanted = text.trim().to_lowercase();
    let mut all = everything(desk);
    all.retain(|hit| {
        let name = format!("{} {}", hit.name, hit.aside).to_lowercase();
        wanted.split_whitespace().all(|word| name.contains(word))
    });
    all.sort_by_key(|hit| !hit.name.to_lowercase().starts_with(&wanted));
    all.truncate(MOST);
    all
}

fn everything(desk: &Desk) -> Vec<Hit> {
    let plan = &desk.plan;
    let marks = labels(plan);
    let mut all: Vec<Hit> = Vec::new();
    let mut add = |name: &str, aside: &str, goes: Goes| {
        all.push(Hit { name: name.to_owned(), aside: aside.to_owned(), goes });
    };
    for bound in keys::all() {
        add(bound.does, bound.key, Goes::Do(bound.command));
    }
    for id in plan.boards.keys() {
        add(marks.board(*id), "board", Goes::To(Subject::Board(*id)));
    }
    for (id, point) in &plan.points {
        let room = point.place.and_then(|place| plan.room_of(&place));
        let room = room.and_then(|room| plan.rooms.get(&room)).map_or("", |room| &room.name);
        let aside = format!("{}, {room}", point.kind.name());
        add(marks.point(*id), aside.trim_end_matches(", "), Goes::To(Subject::Point(*id)));
    }
    for (id, circuit) in &plan.circuits {
        let aside = marks.circuit(circuit);
        add(&circuit.name, &aside, Goes::To(Subject::Circuit(*id)));
    }
    all
}
