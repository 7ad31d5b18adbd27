//! The plan's file and its journal: opened, done again, saved, closed.

use std::path::PathBuf;

use wirewend::plan::Plan;
use wirewend::runs;
use wirewend::store::{self, Entry, Journal, JournalError};

use super::Desk;

impl Desk {
    /// A desk with the plan of a file on it, and what was done to it before a
    /// crash done again. Where another window has the file, the desk has none.
    pub(in crate::app) fn of_file(plan: Plan, file: PathBuf) -> Self {
        let mut desk = Self::with(plan);
        match Journal::open(&file) {
            Ok((journal, entries)) => {
                desk.do_again(entries);
                desk.journal = Some(journal);
                desk.file = Some(file);
            }
            Err(error @ JournalError::InUse(_)) => {
                Journal::knock(&file);
                desk.said = format!("{error}; what is changed here must be saved elsewhere");
            }
            Err(error) => {
                desk.said = format!("edits are not kept until they are saved: {error}");
                desk.file = Some(file);
            }
        }
        desk
    }

    /// Does again what was noted before a crash.
    pub(in crate::app) fn do_again(&mut self, entries: Vec<Entry>) {
        let count = entries.len();
        let done = entries
            .into_iter()
            .try_for_each(|entry| entry.apply(&mut self.plan, &mut self.history));
        if let Err(error) = done {
            self.said = format!("not all of the journal could be done again: {error}");
        } else if count > 0 {
            let edits = if count == 1 { "1 edit" } else { &format!("{count} edits") };
            self.said = format!("{edits} done again that had not been saved");
        }
        if count > 0 {
            self.revision += 1;
        }
    }

    /// Keeps what papers that go out now say, so that nothing else is ever
    /// called so: not to be undone. What is to be said of it.
    pub(in crate::app) fn issue(&mut self) -> Option<String> {
        let picture = self.picture.as_ref()?;
        let edit = runs::issue(&self.plan, &picture.runs)?;
        let is_saved = self.file.is_some() && !self.unsaved();
        let entry = Entry::Issue(Box::new(edit.clone()));
        if let Err(error) = self.plan.apply(edit) {
            return Some(format!("their numbers are not kept: {error}"));
        }
        self.note(&entry);
        self.changed();
        if is_saved && self.save() {
            return Some("their numbers are kept in the plan".to_owned());
        }
        Some("their numbers are kept once the plan is saved".to_owned())
    }

    /// Keeps the edits of a plan without a name.
    pub(in crate::app) fn keep_unnamed(&mut self, journal: Journal, file: PathBuf) {
        self.journal = Some(journal);
        self.kept = Some(file);
    }

    /// Notes in the journal what was done.
    pub(super) fn note(&mut self, entry: &Entry) {
        let noted = self.journal.as_mut().map_or(Ok(()), |journal| journal.add(entry));
        self.tell(noted);
    }

    /// What was noted outlives a power cut from here on.
    pub(in crate::app) fn sync(&mut self) {
        let synced = self.journal.as_mut().map_or(Ok(()), Journal::sync);
        self.tell(synced);
    }

    /// Says so where another window has come to the same file.
    pub(in crate::app) fn hear(&mut self) {
        if self.journal.as_ref().is_some_and(Journal::knocked) {
            self.said = "this plan was opened in another window too; it is saved from here, not \
                         from there"
                .to_owned();
        }
    }

    fn tell(&mut self, result: Result<(), JournalError>) {
        if let Err(error) = result {
            self.said = format!("this edit is not kept until it is saved: {error}");
        }
    }

    /// The window closes and nothing noted is wanted any more.
    pub(in crate::app) fn close(&mut self) {
        if let Some(journal) = self.journal.take() {
            journal.drop_all();
        }
        if let Some(kept) = self.kept.take() {
            // What stays behind is only offered again where it was changed.
            let _ = std::fs::remove_file(kept);
        }
    }

    /// Saves under a name; false where that failed.
    pub(in crate::app) fn save_as(&mut self, file: PathBuf) -> bool {
        if self.file.as_ref() == Some(&file) && self.journal.is_some() {
            return self.save();
        }
        let journal = match Journal::open(&file) {
            Ok((journal, _)) => journal,
            Err(error) => {
                self.said = error.to_string();
                return false;
            }
        };
        self.pictures_beside(&file);
        let (old, kept) = (self.journal.replace(journal), self.kept.take());
        let before = self.file.replace(file);
        if !self.save() {
            // What was noted so far goes on where it was.
            (self.journal, self.kept, self.file) = (old, kept, before);
            return false;
        }
        if let Some(old) = old {
            old.drop_all();
        }
        if let Some(kept) = kept {
            let _ = std::fs::remove_file(kept);
        }
        true
    }

    /// Writes the plan where it belongs; false where that failed or where it
    /// has no file yet.
    pub(in crate::app) fn save(&mut self) -> bool {
        let Some(file) = self.file.clone() else { return false };
        match store::write_file(&self.plan, &file) {
            Ok(()) => {
                self.saved = self.revision;
                let begun = self.journal.as_mut().map_or(Ok(()), Journal::saved);
                self.tell(begun);
                self.said = format!("saved as {}", file.display());
                true
            }
            Err(error) => {
                self.said = error.to_string();
                false
            }
        }
    }
}
