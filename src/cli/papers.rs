//! `wirewend papers`: every paper of a job, written into a folder.

use std::fmt::Write as _;
use std::path::Path;

use wirewend::plan::Regime;
use wirewend::sheet::{faults_in_words, set};
use wirewend::store::{self, SystemDisk};
use wirewend::units::Watch;

use super::job::Job;
use super::keep;
use super::own_rules::OwnRules;

/// What to write.
pub(super) struct Wanted<'a> {
    /// These papers alone; all where it is empty.
    pub(super) only: &'a [String],
    /// Pictures of so many dots to the inch as well.
    pub(super) png: Option<u16>,
    /// An earlier revision: what changed since then goes first.
    pub(super) since: Option<&'a Path>,
    /// Tables of one's own.
    pub(super) rules: &'a OwnRules,
    /// Rules other than the plan says.
    pub(super) regime: Option<Regime>,
    /// Whether files of others may be replaced.
    pub(super) replace: bool,
}

/// Writes the papers of a plan into a folder and says what it wrote.
pub(super) fn run(path: &Path, folder: &Path, wanted: &Wanted<'_>) -> Result<String, String> {
    let only = set::Wanted::named(wanted.only)?;
    let (mut plan, source) = keep::read(path)?;
    let drawn = plan.clone();
    if let Some(regime) = wanted.regime {
        plan.project.regime = regime;
    }
    let book = wanted.rules.book()?;
    let job = Job::of(plan);
    let before = wanted.since.map(|path| store::read_file(path).map(Job::of)).transpose();
    let before = before.map_err(|error| error.to_string())?;
    let watch = Watch::default();
    let earlier = before.as_ref().map(Job::revision);
    let made = set::make(job.revision(), earlier, &book, &only, &watch);
    let made = made.ok_or("stopped before all was drawn")?;
    // Before the papers: what goes out must never be called anything else.
    let kept = super::issue::keep(path, (drawn, &source), &job.runs);
    let mut said = made.said.clone();
    let written = set::write(&SystemDisk, &made, &job.plan, folder, wanted.png, wanted.replace);
    let written = written.map_err(|why| why.to_string())?;
    said.push_str(&written.listed);
    said.push_str(&written.told);
    if let Some(words) = faults_in_words(made.faults) {
        let _ = writeln!(said, "{words}: see wirewend check {}", path.display());
    }
    Ok(said + &kept)
}
