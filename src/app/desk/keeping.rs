//! The plan's file and its journal: opened, done again, saved, closed.

use std::path::{Path, PathBuf};

use wirewend::plan::Plan;
use wirewend::runs;
use wirewend::store::{
    self, Entry, Journal, JournalError, Known, Replace, SystemDisk, WriteProblem, name_of,
};

use super::Desk;
use crate::app::in_the_way::InTheWay;

impl Desk {
    /// A desk with the plan of a file on it, as the file is now.
    #[cfg(test)]
    pub(in crate::app) fn of_file(plan: Plan, file: PathBuf) -> Self {
        let known = store::look(&SystemDisk, &file).ok().flatten();
        Self::of_known(plan, file, known)
    }

    /// As it was read, with what the file held then; none where there was none.
    /// What was done before a crash is done again. Where another window has the
    /// file, the desk has none.
    pub(in crate::app) fn of_known(plan: Plan, file: PathBuf, known: Option<Known>) -> Self {
        let mut desk = Self::with(plan);
        desk.known = known;
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

    /// Saves under a name; false where that failed, or where something is in
    /// the way.
    pub(in crate::app) fn save_as(&mut self, file: PathBuf) -> bool {
        if self.is_own(&file) && self.journal.is_some() {
            return self.save();
        }
        match store::look(&SystemDisk, &file) {
            Ok(None) => self.save_anew(file, Replace::Nothing),
            Ok(Some(is)) => {
                self.said = format!("{} is there already", file.display());
                self.in_the_way = Some(InTheWay::Plan { file, is });
                false
            }
            Err(error) => {
                self.said = error.to_string();
                false
            }
        }
    }

    /// Saves over a file that was in the way and held this; false where that
    /// failed, or where it was changed once more.
    pub(in crate::app) fn save_over(&mut self, file: PathBuf, is: Known) -> bool {
        if self.is_own(&file) {
            self.write_to(&file, Replace::AsRead(is))
        } else {
            self.save_anew(file, Replace::AsRead(is))
        }
    }

    fn is_own(&self, file: &Path) -> bool {
        let whole = |path: &Path| std::fs::canonicalize(path);
        let same = |own: &Path| {
            own == file || whole(own).is_ok_and(|own| whole(file).is_ok_and(|file| own == file))
        };
        self.file.as_deref().is_some_and(same)
    }

    /// Saves where the plan was not before.
    fn save_anew(&mut self, file: PathBuf, replace: Replace) -> bool {
        let begins = !Journal::path_of(&file).exists();
        let opened = Journal::open(&file).and_then(|(journal, entries)| {
            // What was done to the plan that goes, and not saved, is not lost.
            if entries.is_empty() { Ok(()) } else { journal.set_aside() }.map(|()| journal)
        });
        let journal = match opened {
            Ok(journal) => journal,
            Err(error) => {
                self.said = error.to_string();
                return false;
            }
        };
        self.pictures_beside(&file);
        let (old, kept) = (self.journal.replace(journal), self.kept.take());
        let (before, known) = (self.file.replace(file.clone()), self.known);
        if !self.write_to(&file, replace) {
            // What was noted so far goes on where it was.
            let unused = std::mem::replace(&mut self.journal, old);
            (self.kept, self.file, self.known) = (kept, before, known);
            if let (Some(unused), true) = (unused, begins) {
                unused.drop_all();
            }
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

    /// Writes the plan where it belongs; false where that failed, where another
    /// has changed the file since, or where it has no file yet.
    pub(in crate::app) fn save(&mut self) -> bool {
        let Some(file) = self.file.clone() else { return false };
        let replace = self.known.map_or(Replace::Nothing, Replace::AsRead);
        self.write_to(&file, replace)
    }

    fn write_to(&mut self, file: &Path, replace: Replace) -> bool {
        match store::save(&self.plan, file, replace) {
            Ok(written) => {
                let another = Some(replace) != self.known.map(Replace::AsRead);
                self.saved = self.revision;
                self.known = Some(written.known);
                self.said = format!("saved as {}", file.display());
                if let Some(kept) = written.kept.filter(|_| another) {
                    self.said +=
                        &format!("; what was there is kept beside it as {}", name_of(&kept));
                }
                if let Some(unsure) = written.unsure {
                    self.said += &format!("; the disk did not confirm it: {unsure}");
                }
                let begun = self.journal.as_mut().map_or(Ok(()), Journal::saved);
                self.tell(begun);
                true
            }
            Err(error) => {
                self.said = error.to_string();
                if let WriteProblem::Taken(is) | WriteProblem::Changed(is) = error.problem {
                    self.in_the_way = Some(InTheWay::Plan { file: file.to_owned(), is });
                }
                false
            }
        }
    }
}
