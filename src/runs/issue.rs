//! What papers say when they go out is kept from then on.

use std::collections::{BTreeMap, BTreeSet};

use super::Runs;
use crate::plan::{CircuitId, Edit, End, Issue, Kept, KeptCircuit, KeptLeg, Mark, Plan, labels};

/// The edit that keeps what papers of a plan and its runs say: marks, the
/// numbers of circuits and legs, the revision. None where all of it is kept.
#[must_use]
pub fn issue(plan: &Plan, runs: &Runs) -> Option<Edit> {
    let mut kept = plan.kept.clone();
    marks(plan, &mut kept);
    circuits(plan, &mut kept);
    legs(runs, &mut kept);
    (kept != plan.kept).then(|| Edit::Kept(kept.into()))
}

/// The revision; once more where something is marked otherwise than its papers
/// said so far, so that the latest of its marks can be told.
fn issued(plan: &Plan, kept: &mut Kept, is_otherwise: bool) {
    let (revision, date) = (plan.project.revision.clone(), plan.project.date.clone());
    let now = Issue { revision, date };
    if is_otherwise || kept.issues.last() != Some(&now) {
        kept.issues.push(now);
    }
}

fn marks(plan: &Plan, kept: &mut Kept) {
    let shown = labels(plan);
    let said = said(kept);
    let boards = plan.boards.keys().map(|id| End::Board(*id));
    let ends: Vec<End> = boards.chain(plan.points.keys().map(|id| End::Point(*id))).collect();
    let is_otherwise = |of: &End| said.get(of).is_some_and(|said| said != shown.end(*of));
    issued(plan, kept, ends.iter().any(is_otherwise));
    let issued = u32::try_from(kept.issues.len()).ok();
    for of in ends.into_iter().filter(|of| is_otherwise(of) || !said.contains_key(of)) {
        kept.marks.insert(shown.end(of).to_owned(), Mark { of, issued });
    }
}

/// The mark by which papers called each thing latest.
fn said(kept: &Kept) -> BTreeMap<End, String> {
    let mut said: BTreeMap<End, (u32, &str)> = BTreeMap::new();
    for (text, mark) in &kept.marks {
        let Some(issued) = mark.issued else { continue };
        if said.get(&mark.of).is_none_or(|(latest, _)| *latest < issued) {
            said.insert(mark.of, (issued, text));
        }
    }
    said.into_iter().map(|(of, (_, text))| (of, text.to_owned())).collect()
}

fn circuits(plan: &Plan, kept: &mut Kept) {
    let mut known: BTreeSet<_> =
        kept.circuits.iter().map(|one| (one.circuit, one.board, one.number)).collect();
    for (id, drawn) in &plan.circuits {
        let (circuit, board, number) = (*id, drawn.board, drawn.number);
        if known.insert((circuit, board, number)) {
            kept.circuits.push(KeptCircuit { circuit, board, number });
        }
    }
}

fn legs(runs: &Runs, kept: &mut Kept) {
    let known: BTreeSet<(CircuitId, u32)> =
        kept.legs.iter().map(|one| (one.circuit, one.number)).collect();
    let legs = runs.circuits.values().flat_map(|run| &run.legs);
    for leg in legs.filter(|leg| !known.contains(&(leg.circuit, leg.number))) {
        let (circuit, number, from, to) = (leg.circuit, leg.number, leg.from, leg.to);
        kept.legs.push(KeptLeg { circuit, number, from, to });
    }
}
