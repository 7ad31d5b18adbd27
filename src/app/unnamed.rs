//! Plans that have no name yet: where they begin from and every edit since are
//! kept in the window's own folder, so that they too outlive a crash.

use std::path::{Path, PathBuf};

use wirewend::plan::Plan;
use wirewend::store::{self, Journal, Manner, Replace, SystemDisk};

use super::desk::Desk;

/// How many windows with unnamed plans are told apart.
const SLOTS: u32 = 16;

fn slot(folder: &Path, number: u32) -> PathBuf {
    folder.join(format!("unnamed-{number}.wend"))
}

impl Desk {
    /// A desk with a plan that has no name, its edits kept in a folder.
    pub(super) fn unnamed(plan: Plan, folder: Option<&Path>) -> Self {
        let mut desk = Self::with(plan);
        let Some(folder) = folder.filter(|folder| std::fs::create_dir_all(folder).is_ok()) else {
            return desk;
        };
        for number in 1..=SLOTS {
            let file = slot(folder, number);
            // Whoever has the journal open is at work on it.
            let Ok((mut journal, entries)) = Journal::open(&file) else { continue };
            if !entries.is_empty() {
                continue;
            }
            // Nothing was done to what it held: it is not kept.
            let manner = Manner { keep: false, ..Manner::careful(Replace::Anything) };
            let plan = store::write(&desk.plan);
            let written = store::put(&SystemDisk, &file, plan.as_bytes(), manner);
            if written.is_ok() && journal.saved().is_ok() {
                desk.keep_unnamed(journal, file);
            }
            break;
        }
        desk
    }

    /// An unnamed plan that a crash left behind, with all that was done to it.
    pub(super) fn left_behind(folder: Option<&Path>) -> Option<Self> {
        let folder = folder?;
        (1..=SLOTS).find_map(|number| {
            let file = slot(folder, number);
            let plan = store::read_file(&file).ok()?;
            let (journal, entries) = Journal::open(&file).ok()?;
            if entries.is_empty() {
                return None;
            }
            let mut desk = Self::with(plan);
            desk.do_again(entries);
            desk.keep_unnamed(journal, file);
            Some(desk)
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::app::blank;
    use crate::app::keys::Tool;
    use kurbo::Point;

    #[test]
    fn an_unnamed_plan_outlives_its_window() {
        let folder = std::env::temp_dir().join(format!("wirewend-unnamed-{}", std::process::id()));
        let _ = std::fs::remove_dir_all(&folder);
        let keep = Some(folder.as_path());
        let mut desk = Desk::unnamed(blank::plan(), keep);
        assert!(Desk::left_behind(keep).is_none(), "nothing was done to it, and it is open");
        desk.tool = Tool::Wall;
        desk.press(Point::new(0.0, 0.0), false);
        desk.press(Point::new(4000.0, 0.0), false);
        let drawn = desk.plan.clone();
        assert_eq!(drawn.walls.len(), 1, "{}", desk.said);
        // Another window beside it has a plan of its own.
        let other = Desk::unnamed(blank::plan(), keep);
        assert!(other.plan.walls.is_empty(), "its own");
        drop(other);
        // The window goes without a word.
        drop(desk);
        let mut again = Desk::left_behind(keep).expect("it was left behind");
        assert_eq!(again.plan, drawn, "{}", again.said);
        assert!(again.unsaved() && again.can_undo() && again.file.is_none(), "still unnamed");
        // Once it has a name nothing is left behind.
        let file = folder.join("house.wend");
        assert!(again.save_as(file), "{}", again.said);
        assert!(Desk::left_behind(keep).is_none(), "it has a name now");
        let _ = std::fs::remove_dir_all(folder);
    }
}
