//! What is called otherwise after numbering anew.

use super::Runs;
use crate::plan::{End, Labels, Plan, labels};

/// A thing that is called otherwise.
#[derive(Clone, Debug, PartialEq, Eq, serde::Serialize)]
pub struct Renumbered {
    /// `point`, `board`, `circuit` or `leg`.
    pub what: &'static str,
    /// What papers said.
    pub old: String,
    /// What they say now.
    pub new: String,
}

/// Everything that is called otherwise in the second of two plans of the same
/// things: its legs are those of the first, in the same order.
#[must_use]
pub fn renumbered(old: (&Plan, &Runs), new: (&Plan, &Runs)) -> Vec<Renumbered> {
    let marks = [labels(old.0), labels(new.0)];
    let mut all = Vec::new();
    let mut add = |what, old: String, new: String| {
        if old != new {
            all.push(Renumbered { what, old, new });
        }
    };
    let mark = |of: &Labels, end| of.end(end).to_owned();
    let boards = old.0.boards.keys().map(|id| ("board", End::Board(*id)));
    for (what, end) in boards.chain(old.0.points.keys().map(|id| ("point", End::Point(*id)))) {
        add(what, mark(&marks[0], end), mark(&marks[1], end));
    }
    for (id, was) in &old.0.circuits {
        let Some(is) = new.0.circuits.get(id) else { continue };
        add("circuit", marks[0].number(was), marks[1].number(is));
        let legs = |runs: &Runs| {
            runs.circuits
                .get(id)
                .map_or(Vec::new(), |run| run.legs.iter().map(|leg| leg.number).collect())
        };
        for (before, now) in legs(old.1).into_iter().zip(legs(new.1)) {
            add("leg", marks[0].leg(was, before), marks[1].leg(is, now));
        }
    }
    all
}
