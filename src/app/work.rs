//! What is computed from a plan, away from the hand that draws: runs, lengths,
//! checks and the marks of the sheet.

use std::ops::Deref;
use std::sync::Arc;

use kurbo::{Rect, Shape as _};
use wirewend::checks::{self, Checked};
use wirewend::lengths::{self, Lengths};
use wirewend::plan::{CircuitId, Finding, LevelId, Plan, Severity, Subject};
use wirewend::rules::RuleBook;
use wirewend::runs::chain::Effort;
use wirewend::runs::{self, Runs};
use wirewend::sheet::{
    FloorOptions, Ink, Item, Layer, Lettering, Mark, Stroke, Text, bare_floor, bounds, floor_sheet,
};
use wirewend::space::Space;

use super::paint::{Ready, ready};

/// What is to be computed.
#[derive(Clone, Debug)]
pub(super) enum Order {
    /// Everything but the letters: those of the last picture stay meanwhile.
    Job {
        plan: Box<Plan>,
        /// What was found beside the plan: pictures that are not there.
        aside: Vec<Finding>,
        view: View,
        letters: Option<Arc<Letters>>,
        /// What moves: its old letters would be in the wrong place.
        moving: Option<Subject>,
        stamp: u64,
    },
    /// The letters beside what is computed already.
    Letters(Arc<Picture>),
}

/// What is shown of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct View {
    pub(super) level: Option<LevelId>,
    /// The circuit that is shown alone.
    pub(super) circuit: Option<CircuitId>,
    /// Whether it is shown as it will be printed.
    pub(super) paper: bool,
}

/// Names and marks beside things, and what they were set for.
#[derive(Debug)]
pub(super) struct Letters {
    view: View,
    items: Vec<Item>,
}

/// A plan and what the rooms of the library make of it.
#[derive(Debug)]
pub(super) struct Job {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
    pub(super) checked: Checked,
    /// Of the checks and of the routes, worst first.
    pub(super) findings: Vec<Finding>,
}

/// A job as it is shown.
#[derive(Debug)]
pub(super) struct Picture {
    job: Arc<Job>,
    view: View,
    /// The marks of the level.
    pub(super) items: Vec<Item>,
    /// The same made ready for the canvas.
    pub(super) marks: Vec<Ready>,
    /// The names and marks among them.
    pub(super) letters: Option<Arc<Letters>>,
    /// Whether these letters are this picture's own.
    pub(super) lettered: bool,
    /// Which state of the desk this belongs to.
    pub(super) stamp: u64,
}

impl Deref for Picture {
    type Target = Job;
    fn deref(&self) -> &Job {
        &self.job
    }
}

impl Order {
    /// Computes it.
    pub(super) fn done(self, rules: &RuleBook) -> Picture {
        match self {
            Self::Job { plan, aside, view, letters, moving, stamp } => {
                let job = Arc::new(Job::of(*plan, aside, rules));
                let mut items = job.floor(view, false);
                let letters = letters.filter(|letters| letters.view == view);
                if let Some(letters) = letters.as_ref().filter(|_| !view.paper) {
                    let still = letters.items.iter().filter(|item| !about(item, moving));
                    items.extend(still.cloned());
                }
                let marks = ready(&items);
                Picture { job, view, items, marks, letters, lettered: false, stamp }
            }
            Self::Letters(picture) => {
                let (job, view) = (Arc::clone(&picture.job), picture.view);
                let items = job.floor(view, true);
                let marks = ready(&items);
                let of_letters = |item: &&Item| {
                    matches!(item, Item::Group(group)
                        if matches!(group.layer, Layer::Labels | Layer::Rooms))
                };
                let letters = items.iter().filter(of_letters).cloned().collect();
                let letters = Some(Arc::new(Letters { view, items: letters }));
                Picture { job, view, items, marks, letters, lettered: true, stamp: picture.stamp }
            }
        }
    }
}

/// Whether a mark is about a thing or a leg that ends at it.
fn about(item: &Item, thing: Option<Subject>) -> bool {
    let (Item::Group(group), Some(thing)) = (item, thing) else { return false };
    match group.subject {
        Some(Subject::Leg { from, to, .. }) => {
            Subject::from(from) == thing || Subject::from(to) == thing
        }
        subject => subject == Some(thing),
    }
}

impl Job {
    /// Routes, measures and checks a plan.
    pub(super) fn of(plan: Plan, aside: Vec<Finding>, rules: &RuleBook) -> Self {
        let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let lengths = lengths::measure(&plan, &runs);
        let checked = checks::check(&plan, &runs, &lengths, rules);
        let mut findings = checked.findings.clone();
        findings.extend(runs.findings.iter().cloned());
        findings.extend(aside);
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
        Self { plan, runs, lengths, checked, findings }
    }

    /// The sheet as it will be printed, with the edge of its paper.
    fn paper(&self, options: &FloorOptions) -> Vec<Item> {
        match floor_sheet(&self.plan, &self.runs, &self.lengths, options) {
            Ok(scene) => {
                let (width, height) = scene.page.size();
                let edge = Rect::new(0.0, 0.0, width, height).to_path(0.1);
                let edge = Mark::line(edge, Stroke::solid(Ink::GREY, 0.25));
                std::iter::once(edge.into()).chain(scene.items).collect()
            }
            Err(error) => {
                let says = Text::new(error.to_string(), (10.0, 20.0), Lettering::Name);
                vec![says.into()]
            }
        }
    }

    fn floor(&self, view: View, lettered: bool) -> Vec<Item> {
        let Some(level) = view.level else { return Vec::new() };
        let options = FloorOptions { circuit: view.circuit, ..FloorOptions::of(level) };
        if view.paper {
            return self.paper(&options);
        }
        bare_floor(&self.plan, &self.runs, &self.lengths, &options, lettered).unwrap_or_default()
    }
}

impl Picture {
    /// The box around the marks of a thing on the sheet, mm of paper.
    pub(super) fn bounds_of(&self, subject: Subject) -> Option<Rect> {
        let groups = self.items.iter().filter_map(|item| match item {
            Item::Group(group)
                if group.subject == Some(subject) && group.layer == Layer::Points =>
            {
                bounds(&group.items)
            }
            _ => None,
        });
        groups.reduce(|all, one| all.union(one))
    }

    /// The symbols of points and boards with the boxes around them.
    pub(super) fn symbols(&self) -> impl Iterator<Item = (Subject, Rect)> + '_ {
        self.items.iter().filter_map(|item| match item {
            Item::Group(group) if group.layer == Layer::Points => {
                Some((group.subject?, bounds(&group.items)?))
            }
            _ => None,
        })
    }

    /// The box around everything drawn, mm of paper.
    pub(super) fn bounds(&self) -> Option<Rect> {
        bounds(&self.items)
    }

    /// How many findings are about a circuit, its points or its legs, notes
    /// left out.
    pub(super) fn findings_of(&self, circuit: CircuitId) -> usize {
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
