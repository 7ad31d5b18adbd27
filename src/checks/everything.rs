//! All that is to be said of a plan, each thing once.

use std::collections::BTreeSet;

use super::result::Checked;
use crate::plan::{Finding, Plan, Severity, Subject, review};
use crate::runs::Runs;

/// One thing under two codes, where two stages come upon it: the first is kept,
/// the second left out wherever both are about the same subject.
const SAME: [(&str, &str); 7] = [
    ("unplaced-board", "board-not-placed"),
    ("place-on-screen", "board-not-placed"),
    ("unplaced-point", "point-not-placed"),
    ("place-on-screen", "point-not-placed"),
    // Counts three ways for a circuit on three phases, so it says more.
    ("board-ways", "too-few-ways"),
    // Says besides that nothing of the circuit is checked, and takes a mend.
    ("circuit-unfinished", "circuit-without-cable"),
    ("circuit-unfinished", "circuit-without-board"),
];

/// What the drawing, its routes and its checks have to say, and what was found
/// `aside` of the plan, such as a picture that is not there: the one list that
/// every place shows and counts, worst first. What an earlier stage has said of
/// a subject is not said again under the same code by a later one.
#[must_use]
pub fn everything(plan: &Plan, runs: &Runs, checked: &Checked, aside: &[Finding]) -> Vec<Finding> {
    let drawn = review(plan);
    let mut said: BTreeSet<(&str, Subject)> = BTreeSet::new();
    let mut all: Vec<Finding> = Vec::new();
    for stage in [&drawn[..], &runs.findings, &checked.findings, aside] {
        let new = stage.iter().filter(|one| !said.contains(&(one.code, one.subject)));
        let new: Vec<Finding> = new.cloned().collect();
        said.extend(new.iter().map(|one| (one.code, one.subject)));
        all.extend(new);
    }
    let twice = |one: &Finding| {
        let others = SAME.iter().filter(|(_, dropped)| *dropped == one.code);
        let mut kept = others.map(|(kept, _)| *kept);
        kept.any(|kept| said.contains(&(kept, one.subject)) && tells(kept, one, &said))
    };
    all.retain(|one| !twice(one));
    all.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    all
}

/// Whether a finding of the code that is kept tells what another would: of an
/// unfinished circuit the cable that is wanting is told before the board.
fn tells(kept: &str, other: &Finding, said: &BTreeSet<(&str, Subject)>) -> bool {
    kept != "circuit-unfinished"
        || other.code == "circuit-without-cable"
        || !said.contains(&("circuit-without-cable", other.subject))
}

/// How many things must be mended before work starts.
#[must_use]
pub fn faults(findings: &[Finding]) -> usize {
    findings.iter().filter(|finding| finding.severity == Severity::Fault).count()
}
