//! The sample job: the cottage's lengths and sheets, written into a folder.

use std::fmt::Write as _;
use std::path::Path;

use wirewend::plan::Plan;
use wirewend::rules::RuleBook;
use wirewend::sheet::{FloorOptions, House, floor_sheet, svg};
use wirewend::store::{self, SystemDisk, fill_folder};

use super::job::Job;
use super::{keep, runs};

/// The sample house travels in the program, so that it runs from anywhere.
const COTTAGE: &str = include_str!("../../fixtures/cottage.wend");

/// The sample house.
pub(super) fn plan() -> Result<Plan, String> {
    store::read(COTTAGE.as_bytes(), "cottage.wend").map_err(|e| e.to_string())
}

/// Writes the plan, its lengths and its sheets into a folder, and says so.
/// `why` says why nothing better was done; it may be empty.
pub(super) fn run(folder: &Path, why: &str, replace: bool) -> Result<String, String> {
    let files = files(Job::of(plan()?))?;
    let names: Vec<String> = files.iter().map(|(name, _)| name.clone()).collect();
    let mut text = |place: usize| Ok(files[place].1.as_bytes().to_vec());
    let written = fill_folder(&SystemDisk, folder, &names, replace, &mut text);
    let written = written.map_err(|error| keep::not_filled(&error))?;
    let mut said = if why.is_empty() { String::new() } else { format!("{why}: ") };
    said.push_str("the sample house's sheets and lengths are written\n");
    for (path, written) in &written.files {
        let _ = write!(said, "  {}\n{}", path.display(), written.told());
    }
    said.push_str(
        "Your own plan: wirewend runs PLAN, wirewend sheet PLAN. More: wirewend --help\n",
    );
    Ok(said)
}

/// What is written, by name.
fn files(job: Job) -> Result<Vec<(String, String)>, String> {
    let mut files = vec![("cottage.wend".to_owned(), COTTAGE.to_owned())];
    let book = RuleBook::shipped();
    let local = book.local(job.plan.project.regime);
    let house = House::new(&job.plan, &job.runs, &job.lengths, local);
    for (id, level) in &job.plan.levels {
        let scene = floor_sheet(&house, &FloorOptions::of(*id))
            .map_err(|e| format!("{}: {e}", level.name))?;
        files.push((format!("floor-{id}.svg"), svg(&scene)));
        for (circuit, drawn) in &job.plan.circuits {
            let options = FloorOptions { circuit: Some(*circuit), ..FloorOptions::of(*id) };
            let scene = floor_sheet(&house, &options)
                .map_err(|e| format!("{}, circuit {}: {e}", level.name, drawn.number))?;
            files.push((format!("floor-{id}-circuit-{}.svg", drawn.number), svg(&scene)));
        }
    }
    files.push(("lengths.txt".to_owned(), runs::table(job, &book)));
    Ok(files)
}
