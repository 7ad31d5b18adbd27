//! A plan with everything that is computed from it.

use wirewend::checks;
use wirewend::lengths::{self, Lengths};
use wirewend::plan::{Finding, Plan};
use wirewend::rules::RuleBook;
use wirewend::runs::chain::Effort;
use wirewend::runs::{self, Runs};
use wirewend::sheet::Measured;
use wirewend::space::Space;

/// A plan, its runs and their lengths.
pub(super) struct Job {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
}

impl Job {
    /// Routes and measures a plan.
    pub(super) fn of(plan: Plan) -> Self {
        let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let lengths = lengths::measure(&plan, &runs);
        Self { plan, runs, lengths }
    }

    /// What papers are drawn from.
    pub(super) const fn measured(&self) -> Measured<'_> {
        Measured { plan: &self.plan, runs: &self.runs, lengths: &self.lengths }
    }

    /// All that is to be said of it by the rules.
    pub(super) fn findings(&self, rules: &RuleBook) -> Vec<Finding> {
        let checked = checks::check(&self.plan, &self.runs, &self.lengths, rules);
        checks::everything(&self.plan, &self.runs, &checked, &[])
    }
}
