//! What is computed from a plan, away from the hand that draws: runs, lengths,
//! checks and the marks of the sheet.

use kurbo::Rect;
use wirewend::checks::{self, Checked};
use wirewend::lengths::{self, Lengths};
use wirewend::plan::{CircuitId, Finding, LevelId, Plan, Severity, Subject};
use wirewend::rules::RuleBook;
use wirewend::runs::chain::Effort;
use wirewend::runs::{self, Runs};
use wirewend::sheet::{FloorOptions, Item, Layer, bare_floor, bounds};
use wirewend::space::Space;

use super::paint::{Ready, ready};

/// What is to be computed.
#[derive(Clone, Debug)]
pub(super) struct Order {
    pub(super) plan: Plan,
    /// The level that is shown.
    pub(super) level: Option<LevelId>,
    /// The circuit that is shown alone.
    pub(super) circuit: Option<CircuitId>,
    /// Whether marks are set beside points and legs; not while something moves.
    pub(super) lettered: bool,
    /// Which state of the desk this belongs to.
    pub(super) stamp: u64,
}

/// A plan and all that was computed from it.
#[derive(Debug)]
pub(super) struct Picture {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
    pub(super) checked: Checked,
    /// Of the checks and of the routes, worst first.
    pub(super) findings: Vec<Finding>,
    /// The marks of the level.
    pub(super) items: Vec<Item>,
    /// The same made ready for the canvas.
    pub(super) marks: Vec<Ready>,
    pub(super) stamp: u64,
}

impl Order {
    /// Computes it.
    pub(super) fn done(self, rules: &RuleBook) -> Picture {
        let plan = self.plan;
        let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let lengths = lengths::measure(&plan, &runs);
        let checked = checks::check(&plan, &runs, &lengths, rules);
        let mut findings = checked.findings.clone();
        findings.extend(runs.findings.iter().cloned());
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
        let items = self
            .level
            .map(|level| FloorOptions { circuit: self.circuit, ..FloorOptions::of(level) })
            .and_then(|options| bare_floor(&plan, &runs, &lengths, &options, self.lettered).ok())
            .unwrap_or_default();
        let marks = ready(&items);
        Picture { plan, runs, lengths, checked, findings, items, marks, stamp: self.stamp }
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
