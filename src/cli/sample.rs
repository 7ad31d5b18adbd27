//! The sample job: the cottage's lengths and sheets, written into a folder.

use std::fmt::Write as _;
use std::path::Path;

use wirewend::plan::Plan;
use wirewend::sheet::{FloorOptions, floor_sheet, svg};
use wirewend::store;

use super::job::Job;
use super::runs;

/// The sample house travels in the program, so that it runs from anywhere.
const COTTAGE: &str = include_str!("../../fixtures/cottage.wend");

/// The sample house.
pub(super) fn plan() -> Result<Plan, String> {
    store::read(COTTAGE.as_bytes(), "cottage.wend").map_err(|e| e.to_string())
}

/// Writes the plan, its lengths and its sheets into a folder, and says so.
/// `why` says why nothing better was done; it may be empty.
pub(super) fn run(folder: &Path, why: &str) -> Result<String, String> {
    let job = Job::of(plan()?);
    std::fs::create_dir_all(folder).map_err(|e| format!("{}: {e}", folder.display()))?;
    let mut said = if why.is_empty() { String::new() } else { format!("{why}: ") };
    said.push_str("the sample house's sheets and lengths are written\n");
    let mut save = |name: &str, text: &str| -> Result<(), String> {
        let path = folder.join(name);
        std::fs::write(&path, text).map_err(|e| format!("{}: {e}", path.display()))?;
        let _ = writeln!(said, "  {}", path.display());
        Ok(())
    };
    save("cottage.wend", COTTAGE)?;
    for (id, level) in &job.plan.levels {
        let scene = floor_sheet(&job.plan, &job.runs, &job.lengths, &FloorOptions::of(*id))
            .map_err(|e| format!("{}: {e}", level.name))?;
        save(&format!("floor-{id}.svg"), &svg(&scene))?;
        for (circuit, drawn) in &job.plan.circuits {
            let options = FloorOptions { circuit: Some(*circuit), ..FloorOptions::of(*id) };
            let scene = floor_sheet(&job.plan, &job.runs, &job.lengths, &options)
                .map_err(|e| format!("{}, circuit {}: {e}", level.name, drawn.number))?;
            save(&format!("floor-{id}-circuit-{}.svg", drawn.number), &svg(&scene))?;
        }
    }
    save("lengths.txt", &runs::table(job))?;
    said.push_str(
        "Your own plan: wirewend runs PLAN, wirewend sheet PLAN. More: wirewend --help\n",
    );
    Ok(said)
}
