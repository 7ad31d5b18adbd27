//! The unique marks by which drawings, cut cards and cable ends name things.

use std::collections::{BTreeMap, BTreeSet};

use indexmap::IndexMap;

use super::{BoardId, Circuit, CircuitId, End, Plan, PointId};

/// A unique mark for every point and board of a plan.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Labels {
    points: IndexMap<PointId, String>,
    boards: IndexMap<BoardId, String>,
    /// Whether circuits come from more boards than one: numbers may repeat.
    several: bool,
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

    /// The mark of the board that feeds a circuit, where the circuits of the
    /// plan come from several: each board counts its own from 1.
    #[must_use]
    pub fn feeding(&self, circuit: &Circuit) -> Option<&str> {
        circuit.board.filter(|_| self.several).map(|id| self.board(id)).filter(|it| !it.is_empty())
    }

    /// A circuit as papers call it: `circuit 3`; with its board where there
    /// are several, `DB2 circuit 3`.
    #[must_use]
    pub fn circuit(&self, circuit: &Circuit) -> String {
        self.with_board(circuit, format!("circuit {}", circuit.number))
    }

    /// A circuit's number in a list of several boards' circuits: `3`, `DB2 3`.
    #[must_use]
    pub fn number(&self, circuit: &Circuit) -> String {
        self.with_board(circuit, circuit.number.to_string())
    }

    /// A leg in a list of several boards' legs: `3.2`, `DB2 3.2`.
    #[must_use]
    pub fn leg(&self, circuit: &Circuit, leg: u32) -> String {
        self.with_board(circuit, format!("{}.{leg}", circuit.number))
    }

    fn with_board(&self, circuit: &Circuit, name: String) -> String {
        self.feeding(circuit).map_or(name.clone(), |board| format!("{board} {name}"))
    }
}

/// The circuits of a plan by the board that feeds them, boards in drawing
/// order, each with its circuits in that order; those without a board last.
#[must_use]
pub fn circuits_by_board(plan: &Plan) -> Vec<(Option<BoardId>, Vec<CircuitId>)> {
    let boards = plan.boards.keys().copied().map(Some).chain([None]);
    let fed = |board: Option<BoardId>| {
        let is_known = |id: &BoardId| plan.boards.contains_key(id);
        let from = plan.circuits.iter().filter(|(_, it)| it.board.filter(is_known) == board);
        (board, from.map(|(id, _)| *id).collect::<Vec<_>>())
    };
    boards.map(fed).filter(|(_, circuits)| !circuits.is_empty()).collect()
}

/// Gives every point and board a mark: its own label where that is set and not
/// yet taken, otherwise its kind's letters and a number counted in drawing
/// order. Marks do not depend on room names, which change during a job.
#[must_use]
pub fn labels(plan: &Plan) -> Labels {
    let mut taken: BTreeSet<&str> = BTreeSet::new();
    let feeding: BTreeSet<BoardId> = plan.circuits.values().filter_map(|it| it.board).collect();
    let mut labels = Labels { several: feeding.len() > 1, ..Labels::default() };
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
