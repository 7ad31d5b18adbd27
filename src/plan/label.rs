//! The unique marks by which drawings, cut cards and cable ends name things.

use std::collections::{BTreeMap, BTreeSet};

use indexmap::IndexMap;

use super::{BoardId, Circuit, CircuitId, End, Mark, Plan, PointId};

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

/// Gives every point and board a mark: its own label where that is set and
/// nothing else's, by an earlier label or on issued papers; else the one that
/// papers say, or that it was given when it was drawn; else its kind's letters
/// and the first number that was never given, in drawing order. Marks do not
/// depend on room names, which change during a job.
#[must_use]
pub fn labels(plan: &Plan) -> Labels {
    let feeding: BTreeSet<BoardId> = plan.circuits.values().filter_map(|it| it.board).collect();
    let mut marks: BTreeMap<End, &str> = BTreeMap::new();
    let mut taken: BTreeSet<&str> = BTreeSet::new();
    let things = || things(plan);
    for (end, _, label) in things().filter(|(end, _, label)| may_wear(plan, *end, label)) {
        if taken.insert(label) {
            marks.insert(end, label);
        }
    }
    let own = own_marks(plan);
    for (end, letters, _) in things() {
        let is_of_kind = |own: &Own<'_>| own.issued.is_some() || is_counted(own.text, letters);
        if let Some(own) = own.get(&end).filter(|own| is_of_kind(own))
            && !marks.contains_key(&end)
            && taken.insert(own.text)
        {
            marks.insert(end, own.text);
        }
    }
    // Marks that are counted differ from each other: letters are letters only.
    let mut counts: BTreeMap<&str, u32> = BTreeMap::new();
    let mut next = |letters: &'static str| loop {
        let count = counts.entry(letters).or_insert(0);
        *count += 1;
        let mark = format!("{letters}{count}");
        if !taken.contains(mark.as_str()) && !plan.kept.marks.contains_key(&mark) {
            return mark;
        }
    };
    let mut labels = Labels { several: feeding.len() > 1, ..Labels::default() };
    for (end, letters, _) in things() {
        let mark = marks.get(&end).map_or_else(|| next(letters), |mark| (*mark).to_owned());
        match end {
            End::Board(id) => labels.boards.insert(id, mark),
            End::Point(id) => labels.points.insert(id, mark),
        };
    }
    labels
}

/// Every board, then every point: with the letters of its kind and its label.
pub(super) fn things(plan: &Plan) -> impl Iterator<Item = (End, &'static str, &str)> {
    let boards = plan.boards.iter().map(|(id, it)| (End::Board(*id), "DB", it.label.as_str()));
    let points = plan.points.iter();
    let points = points.map(|(id, it)| (End::Point(*id), it.kind.letters(), it.label.as_str()));
    boards.chain(points)
}

/// Whether a thing may be marked with the label that it has: not where it has
/// none, or where papers that were issued call something else so.
fn may_wear(plan: &Plan, end: End, label: &str) -> bool {
    let is_free = |mark: &Mark| mark.issued.is_none() || mark.of == end;
    !label.is_empty() && plan.kept.marks.get(label).is_none_or(is_free)
}

/// The mark that a thing without a label goes by.
struct Own<'a> {
    text: &'a str,
    issued: Option<u32>,
}

/// The kept mark of each thing: what papers said latest, else what it was given.
fn own_marks(plan: &Plan) -> BTreeMap<End, Own<'_>> {
    let mut own: BTreeMap<End, Own<'_>> = BTreeMap::new();
    for (text, mark) in &plan.kept.marks {
        let is_later = own.get(&mark.of).is_none_or(|known| known.issued < mark.issued);
        if is_later {
            own.insert(mark.of, Own { text, issued: mark.issued });
        }
    }
    own
}

/// Whether a mark is these letters and a number.
fn is_counted(mark: &str, letters: &str) -> bool {
    let digits = mark.strip_prefix(letters).unwrap_or("");
    !digits.is_empty() && digits.bytes().all(|byte| byte.is_ascii_digit())
}
