//! A job as it is shown.

use std::ops::Deref;
use std::sync::Arc;

use kurbo::Rect;

use super::{Job, Moves, Price, Thing};
use crate::plan::{CircuitId, Finding, LevelId, Severity, Subject};
use crate::sheet::{Group, Item, Layer, bounds};

/// What is shown of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct View {
    /// The level.
    pub level: Option<LevelId>,
    /// The circuit that is shown alone.
    pub circuit: Option<CircuitId>,
    /// The sheet that is shown as it will be printed, by its place in the set.
    pub paper: Option<usize>,
}

/// Names and marks beside things, and what they were set for.
#[derive(Debug)]
pub struct Letters {
    pub(super) view: View,
    pub(super) items: Vec<Item>,
}

/// A job as it is shown.
#[derive(Debug)]
pub struct Picture {
    pub(super) job: Arc<Job>,
    pub(super) view: View,
    /// The symbols of points and boards with the boxes around them, mm of
    /// paper.
    pub(super) symbols: Vec<(Subject, Rect)>,
    /// The box around everything drawn, mm of paper.
    pub(super) whole: Option<Rect>,
    /// The names and marks among them.
    pub(super) letters: Option<Arc<Letters>>,
    /// What the job costs; with old letters, what it did.
    pub price: Option<Price>,
    /// Whether these letters and the price are this picture's own.
    pub lettered: bool,
    /// Which state of the session this belongs to.
    pub stamp: u64,
}

/// What was computed: the job as it is shown, and the marks of its sheet.
#[derive(Debug)]
pub struct Drawn {
    /// The job as it is shown.
    pub picture: Picture,
    /// The marks, the lowest first.
    pub things: Vec<Thing>,
    /// What of it moves.
    pub moves: Moves,
}

impl Deref for Picture {
    type Target = Job;
    fn deref(&self) -> &Job {
        &self.job
    }
}

impl Picture {
    /// What is on a picture.
    pub fn of(job: Arc<Job>, view: View, items: &[Item], stamp: u64) -> Self {
        let symbols = items.iter().filter_map(|item| match item {
            Item::Group(group) if group.layer == Layer::Points => {
                Some((group.subject?, bounds(&group.items)?))
            }
            _ => None,
        });
        Self {
            job,
            view,
            symbols: symbols.collect(),
            whole: bounds(items),
            letters: None,
            price: None,
            lettered: false,
            stamp,
        }
    }

    /// The picture with the marks of its sheet.
    pub(super) fn drawn(self, items: Vec<Item>, moves: Moves) -> Drawn {
        let level = self.view.level.filter(|_| self.view.paper.is_none());
        let level = level.and_then(|level| self.job.plan.levels.get(&level));
        let signs: Vec<Thing> = level.into_iter().flat_map(|level| self.job.signs(level)).collect();
        let mut things: Vec<Thing> = items.into_iter().map(Thing::Drawn).collect();
        if self.view.paper.is_some() {
            // As it is printed, in the order of the paper.
            let all = things.into_iter().filter_map(|thing| match thing {
                Thing::Drawn(item) => Some(item),
                Thing::Found(..) => None,
            });
            let marks = Group::new(Layer::Notes, all.collect());
            things = vec![Thing::Drawn(marks.into())];
        }
        things.extend(signs);
        Drawn { picture: self, things, moves }
    }

    /// The box around the symbol of a thing on the sheet, mm of paper.
    pub fn bounds_of(&self, subject: Subject) -> Option<Rect> {
        let own = self.symbols().filter(|(one, _)| *one == subject).map(|(_, around)| around);
        own.reduce(|all, one| all.union(one))
    }

    /// The symbols of points and boards with the boxes around them.
    pub fn symbols(&self) -> impl Iterator<Item = (Subject, Rect)> + '_ {
        self.symbols.iter().copied()
    }

    /// The box around everything drawn, mm of paper.
    pub const fn bounds(&self) -> Option<Rect> {
        self.whole
    }

    /// How many findings are about a circuit, its points or its legs, notes
    /// left out.
    pub fn findings_of(&self, circuit: CircuitId) -> usize {
        let about = |finding: &&Finding| match finding.subject {
            Subject::Circuit(id) | Subject::Leg { circuit: id, .. } => id == circuit,
            Subject::Point(id) => {
                self.plan.points.get(&id).is_some_and(|point| point.circuit == Some(circuit))
            }
            _ => false,
        };
        let weighs = |finding: &&Finding| finding.severity > Severity::Note;
        self.findings.iter().filter(weighs).filter(about).count()
    }
}
