//! The papers, written into a folder beside the plan.

use std::path::PathBuf;

use wirewend::sheet::{FloorOptions, floor_sheet, svg};

use super::desk::Desk;

/// Writes the sheet of every level. What was done, or why not.
pub(super) fn all(desk: &Desk) -> String {
    let Some(picture) = desk.picture.as_ref().filter(|_| !desk.behind()) else {
        return "still computing: try again in a moment".to_owned();
    };
    let folder = folder(desk);
    let write = || -> Result<usize, String> {
        std::fs::create_dir_all(&folder).map_err(|e| format!("{}: {e}", folder.display()))?;
        for (id, level) in &picture.plan.levels {
            let options = FloorOptions::of(*id);
            let scene = floor_sheet(&picture.plan, &picture.runs, &picture.lengths, &options)
                .map_err(|e| format!("{}: {e}", level.name))?;
            let path = folder.join(format!("floor-{id}.svg"));
            std::fs::write(&path, svg(&scene)).map_err(|e| format!("{}: {e}", path.display()))?;
        }
        Ok(picture.plan.levels.len())
    };
    match write() {
        Ok(1) => format!("1 sheet written into {}", folder.display()),
        Ok(count) => format!("{count} sheets written into {}", folder.display()),
        Err(why) => why,
    }
}

/// Beside the plan, under its name; without one, where the sample goes.
fn folder(desk: &Desk) -> PathBuf {
    match &desk.file {
        Some(file) => file.with_extension("papers"),
        None => PathBuf::from("wirewend-out"),
    }
}
