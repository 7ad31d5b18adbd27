//! `wirewend renumber`: names given anew, on purpose.

use std::fmt::Write as _;
use std::path::Path;

use serde_json::json;
use wirewend::plan::Renumber;
use wirewend::runs::{Renumbered, numbered, renumbered};

use super::job::Job;
use super::keep;

/// What is to be numbered anew.
#[derive(clap::Args)]
pub(super) struct Asked {
    /// Marks that are counted, in drawing order; labels that were typed stay.
    #[arg(long)]
    marks: bool,
    /// Circuits of each board, in the order that they have.
    #[arg(long)]
    circuits: bool,
    /// Legs, in the order in which they leave the board.
    #[arg(long)]
    legs: bool,
}

impl Asked {
    const fn all_or_some(&self) -> Renumber {
        let Self { marks, circuits, legs } = *self;
        if marks || circuits || legs { Renumber { marks, circuits, legs } } else { Renumber::ALL }
    }
}

/// Numbers a plan anew, writes it, and says what is called otherwise.
pub(super) fn run(
    path: &Path,
    to: &Path,
    asked: &Asked,
    (as_json, replace): (bool, bool),
) -> Result<String, String> {
    let (plan, source) = keep::read(path)?;
    let job = Job::of(plan);
    let mut plan = job.plan.clone();
    plan.apply(plan.renumber(asked.all_or_some())).map_err(|error| error.to_string())?;
    let runs = numbered(&plan.kept, job.runs.clone());
    let changes = renumbered((&job.plan, &job.runs), (&plan, &runs));
    let told = keep::write(&plan, to, Some(&source), replace)?;
    if as_json {
        let text = serde_json::to_string_pretty(&json!({ "renumbered": changes }));
        return text.map(|text| text + "\n").map_err(|error| error.to_string());
    }
    Ok(page(to, &changes) + &told)
}

fn page(to: &Path, changes: &[Renumbered]) -> String {
    let mut text = format!("{}: {} called otherwise\n", to.display(), changes.len());
    for Renumbered { what, old, new } in changes {
        let _ = writeln!(text, "  {what:<8} {old:<12} is now {new}");
    }
    if !changes.is_empty() {
        text.push_str("Papers and lists that were issued no longer match: issue them again.\n");
    }
    text
}
