//! Every figure that is set out at a wall, measured again on the outlines of
//! the walls: what the papers say must be what a tape finds.
//!
//! The judge shares no code with the finished faces of the library. It makes
//! the bodies of the walls of a level, fills their corners, takes the union
//! and walks along its outline (`outline`).

#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails by panicking")]

mod fixtures;
pub(crate) mod houses;
mod judge;
mod loud;
pub(crate) mod outline;
mod pieces;
mod scenes;
mod strips;

use crate::fixtures::local;
use wirewend::lengths::{self, Lengths};
use wirewend::plan::Plan;
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::House;
use wirewend::space::Space;

/// Steps enough for a right order; the best order is not what is judged here.
const QUICK: Effort = Effort { exact_up_to: 7, kicks: 20, ascent_steps: 60, branch_trees: 0 };

/// A plan, routed and measured.
pub(super) struct Job {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
}

impl Job {
    pub(super) fn of(plan: Plan) -> Self {
        let runs = runs::route(&plan, &Space::of(&plan), &QUICK);
        let lengths = lengths::measure(&plan, &runs);
        Self { plan, runs, lengths }
    }

    pub(super) fn house(&self) -> House<'_> {
        House::new(&self.plan, &self.runs, &self.lengths, local(&self.plan))
    }
}

/// Everything that a tape finds otherwise than the papers say.
pub(super) fn complaints(job: &Job) -> Vec<String> {
    let house = job.house();
    let mut found = judge::rows(job, &house);
    found.extend(pieces::pieces(job, &house));
    found.extend(strips::strips(job, &house));
    found.extend(scenes::scenes(job, &house));
    found
}
