//! Plans that have no name yet: where they begin from and every edit since are
//! kept in a folder, so that they too outlive a crash.

use std::path::{Path, PathBuf};

use super::Document;
use crate::plan::Plan;
use crate::store::{self, Disk as _, Journal, Manner, Replace, SystemDisk};

/// How many windows with unnamed plans are told apart.
const SLOTS: u32 = 16;

fn slot(folder: &Path, number: u32) -> PathBuf {
    folder.join(format!("unnamed-{number}.wend"))
}

impl Document {
    /// A plan that has no name, its edits kept in a folder.
    pub(crate) fn unnamed(plan: Plan, folder: Option<&Path>) -> Self {
        let mut document = Self::with(plan);
        let Some(folder) = folder.filter(|folder| SystemDisk.make_folder(folder).is_ok()) else {
            return document;
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
            let plan = store::write(&document.plan);
            let written = store::put(&SystemDisk, &file, plan.as_bytes(), manner);
            if written.is_ok() && journal.saved().is_ok() {
                document.keep_unnamed(journal, file);
            }
            break;
        }
        document
    }

    /// An unnamed plan that a crash left behind, with all that was done to it.
    pub(crate) fn left_behind(folder: Option<&Path>, said: &mut String) -> Option<Self> {
        let folder = folder?;
        (1..=SLOTS).find_map(|number| {
            let file = slot(folder, number);
            let plan = store::read_file(&file).ok()?;
            let (journal, entries) = Journal::open(&file).ok()?;
            if entries.is_empty() {
                return None;
            }
            let mut document = Self::with(plan);
            document.do_again(&entries, said);
            document.keep_unnamed(journal, file);
            Some(document)
        })
    }
}
