//! A job as it is shown.

use std::sync::Arc;

use kurbo::Rect;
use wirewend::plan::{CircuitId, Finding, Severity, Subject};
use wirewend::sheet::{Group, Item, Layer, bounds};

use super::{Job, Picture, View};
use crate::app::foils::{Foils, Moves, Thing};

impl Picture {
    /// What is on a picture, its foils still to be made.
    pub(super) fn of(job: Arc<Job>, view: View, items: &[Item], stamp: u64) -> Self {
        let symbols = items.iter().filter_map(|item| match item {
            Item::Group(group) if group.layer == Layer::Points => {
                Some((group.subject?, bounds(&group.items)?))
            }
            _ => None,
        });
        Self {
            job,
            view,
            foils: Foils::default(),
            symbols: symbols.collect(),
            whole: bounds(items),
            letters: None,
            price: None,
            lettered: false,
            stamp,
        }
    }

    pub(super) fn on_foils(self, items: Vec<Item>, moves: &Moves, before: Option<&Foils>) -> Self {
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
        let foils = Foils::of(things, moves, before);
        Self { foils, ..self }
    }

    /// The box around the symbol of a thing on the sheet, mm of paper.
    pub(in crate::app) fn bounds_of(&self, subject: Subject) -> Option<Rect> {
        let own = self.symbols().filter(|(one, _)| *one == subject).map(|(_, around)| around);
        own.reduce(|all, one| all.union(one))
    }

    /// The symbols of points and boards with the boxes around them.
    pub(in crate::app) fn symbols(&self) -> impl Iterator<Item = (Subject, Rect)> + '_ {
        self.symbols.iter().copied()
    }

    /// The box around everything drawn, mm of paper.
    pub(in crate::app) const fn bounds(&self) -> Option<Rect> {
        self.whole
    }

    /// How many findings are about a circuit, its points or its legs, notes
    /// left out.
    pub(in crate::app) fn findings_of(&self, circuit: CircuitId) -> usize {
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
