//! A plan file read, routed and taken off.

use std::path::Path;

use wirewend::lengths::Lengths;
use wirewend::plan::{Finding, Plan};
use wirewend::rules::RuleBook;
use wirewend::runs::Runs;
use wirewend::store;
use wirewend::takeoff::{CutPlan, Revision, TakeOff, cuts_left, take_off};

use super::job::Job;

/// Printed under everything that is taken off.
pub(super) const CAUTION: &str = "\
Planning aid, not a certificate, and no offer. Counts and minutes follow common practice: check them against the job.
Mains wiring kills: isolate, prove dead, lock off. The local code and licensed people decide.
";

/// A plan with its take-off.
pub(super) struct TakenOff {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
    pub(super) take_off: TakeOff,
}

impl TakenOff {
    /// Reads, routes and takes off a plan by the rules of the book.
    pub(super) fn read(path: &Path, book: &RuleBook) -> Result<Self, String> {
        let plan = store::read_file(path).map_err(|error| error.to_string())?;
        let Job { plan, runs, lengths } = Job::of(plan);
        let take_off = take_off(&plan, &runs, &lengths, book);
        Ok(Self { plan, runs, lengths, take_off })
    }

    /// As one side of a comparison.
    pub(super) fn revision(&self) -> Revision<'_> {
        Revision {
            plan: &self.plan,
            runs: &self.runs,
            lengths: &self.lengths,
            take_off: &self.take_off,
        }
    }

    /// The cuts that are still to be made.
    pub(super) fn cuts_left(&self) -> (Vec<CutPlan>, Vec<Finding>) {
        cuts_left(&self.plan, &self.runs, &self.lengths)
    }
}
