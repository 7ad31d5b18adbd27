//! Finding things by their names.

use crate::plan::{Plan, Subject, labels};

/// A thing of the plan with what it is called.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// Its name or its mark.
    pub name: String,
    /// A word about what it is and where.
    pub aside: String,
    /// The thing.
    pub subject: Subject,
}

/// Every board, point and circuit by its name.
pub fn things(plan: &Plan) -> Vec<Named> {
    let marks = labels(plan);
    let mut all: Vec<Named> = Vec::new();
    let mut add = |name: &str, aside: &str, subject: Subject| {
        all.push(Named { name: name.to_owned(), aside: aside.to_owned(), subject });
    };
    for id in plan.boards.keys() {
        add(marks.board(*id), "board", Subject::Board(*id));
    }
    for (id, point) in &plan.points {
        let room = point.place.and_then(|place| plan.room_of(&place));
        let room = room.and_then(|room| plan.rooms.get(&room)).map_or("", |room| &room.name);
        let aside = format!("{}, {room}", point.kind.name());
        add(marks.point(*id), aside.trim_end_matches(", "), Subject::Point(*id));
    }
    for (id, circuit) in &plan.circuits {
        add(&circuit.name, &marks.circuit(circuit), Subject::Circuit(*id));
    }
    all
}

/// Those whose name and the word beside it hold all words of a text, first those
/// whose name begins with it.
///
/// ```
/// use wirewend::session::search::matching;
/// let all = vec![("double socket", ""), ("socket", "SO"), ("light", "LT")];
/// let found = matching(all, "Socket", |one| (one.0.to_owned(), one.1.to_owned()));
/// assert_eq!(found, [("socket", "SO"), ("double socket", "")]);
/// ```
pub fn matching<T>(all: Vec<T>, text: &str, words: impl Fn(&T) -> (String, String)) -> Vec<T> {
    let wanted = text.trim().to_lowercase();
    let mut all = all;
    all.retain(|one| {
        let (name, aside) = words(one);
        let name = format!("{name} {aside}").to_lowercase();
        wanted.split_whitespace().all(|word| name.contains(word))
    });
    all.sort_by_key(|one| !words(one).0.to_lowercase().starts_with(&wanted));
    all
}
