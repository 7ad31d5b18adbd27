//! `wirewend papers`: every paper of a job, written into a folder.

use std::fmt::Write as _;
use std::path::Path;

use wirewend::plan::{Plan, Regime};
use wirewend::sheet::{Paper, PaperFile, Papers, faults_in_words};
use wirewend::store::{self, SystemDisk, fill_folder};
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
    let only = asked(wanted.only)?;
    let (mut plan, source) = keep::read(path)?;
    let drawn = plan.clone();
    if let Some(regime) = wanted.regime {
        plan.project.regime = regime;
    }
    let book = wanted.rules.book_with(wanted.regime)?;
    let job = Job::of(plan);
    let before = wanted.since.map(|path| store::read_file(path).map(Job::of)).transpose();
    let before = before.map_err(|error| error.to_string())?;
    let before = before.as_ref().map(Job::measured);
    let papers = Papers::make(job.measured(), before, &book, &only, &Watch::default());
    let papers = papers.ok_or("stopped before all was drawn")?;
    // Before the papers: what goes out must never be called anything else.
    let kept = super::issue::keep(path, (drawn, &source), &job.runs);
    let mut said = papers.said.clone();
    said.push_str(&write(&papers, &job.plan, folder, wanted)?);
    if let Some(words) = faults_in_words(papers.faults) {
        let _ = writeln!(said, "{words}: see wirewend check {}", path.display());
    }
    Ok(said + &kept)
}

/// The papers that are asked for by name.
fn asked(names: &[String]) -> Result<Vec<Paper>, String> {
    let paper = |name: &String| {
        Paper::named(name).ok_or_else(|| {
            let names: Vec<&str> = Paper::choices().map(Paper::name).collect();
            format!("no paper \"{name}\"; there are {}", names.join(", "))
        })
    };
    names.iter().map(paper).collect()
}

/// Every file that was written, and what became of those that were there.
fn write(
    papers: &Papers,
    plan: &Plan,
    folder: &Path,
    wanted: &Wanted<'_>,
) -> Result<String, String> {
    let files = papers.files(wanted.png);
    let names = PaperFile::names(&files);
    let mut make = |place: usize| papers.bytes(files[place].contents, plan);
    let written = fill_folder(&SystemDisk, folder, &names, wanted.replace, &mut make);
    let written = written.map_err(|error| keep::not_filled(&error))?;
    let mut said = String::new();
    for (path, _) in &written.files {
        let _ = writeln!(said, "{}", path.display());
    }
    said.push_str(&written.told());
    said.push_str(&papers.left(&written.others).unwrap_or_default());
    Ok(said)
}
