//! The unique marks by which drawings, cut cards and cable ends name things.

use std::collections::{BTreeMap, BTreeSet};

use indexmap::IndexMap;

use super::{BoardId, End, Plan, PointId};

/// A unique mark for every point and board of a plan.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Labels {
    points: IndexMap<PointId, String>,
    boards: IndexMap<BoardId, String>,
}

impl Labels {
    /// The mark of a point; empty for one that the plan does not have.
    #[must_use]
    pub fn point(&self, id: PointId) -> &str {
        self.points.get(&id).map_or("", String::as_str)
    }

    /// The mark of a board; empty for one that the plan does not have.
    #[must_use]
    pub fn board(&self, id: BoardId) -> &str {
        self.boards.get(&id).map_or("", String::as_str)
    }

    /// The mark of whatever a leg ends at.
    #[must_use]
    pub fn end(&self, end: End) -> &str {
        match end {
            End::Board(id) => self.board(id),
            End::Point(id) => self.point(id),
        }
    }
}

/// Gives every point and board a mark: its own label where that is set and not
/// yet taken, otherwise its kind's letters and a number counted in drawing
/// order. Marks do not depend on room names, which change during a job.
#[must_use]
pub fn labels(plan: &Plan) -> Labels {
    let mut taken: BTreeSet<&str> = BTreeSet::new();
    let mut labels = Labels::default();
    for (id, board) in &plan.boards {
        if !board.label.is_empty() && taken.insert(&board.label) {
            labels.boards.insert(*id, board.label.clone());
        }
    }
    for (id, point) in &plan.points {
        if !point.label.is_empty() && taken.insert(&point.label) {
            labels.points.insert(*id, point.label.clone());
        }
    }
    // Marks that are counted differ from each other: letters are letters only.
    let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
    let mut next = |letters: &'static str| loop {
        let count = counts.entry(letters).or_insert(0);
        *count += 1;
        let mark = format!("{letters}{count}");
        if !taken.contains(mark.as_str()) {
            return mark;
        }
    };
    for id in plan.boards.keys() {
        if !labels.boards.contains_key(id) {
            labels.boards.insert(*id, next("DB"));
        }
    }
    for (id, point) in &plan.points {
        if !labels.points.contains_key(id) {
            labels.points.insert(*id, next(point.kind.letters()));
        }
    }
    labels
}
