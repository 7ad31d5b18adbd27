//! The plan's file and its journal: opened, done again, saved, closed.

use std::path::{Path, PathBuf};

use super::Document;
use crate::plan::{Edit, Plan};
use crate::session::state::InTheWay;
use crate::store::{
    self, Disk as _, Entry, Journal, JournalError, Known, Noted, Replace, SystemDisk, Thing,
    WriteProblem,
};

impl Document {
    /// The plan of a file as it was read, with what the file held then; none
    /// where there was none. What was done before a crash is done again. Where
    /// another window has the file, the plan has none.
    pub(crate) fn of_known(
        plan: Plan,
        file: PathBuf,
        known: Option<Known>,
        said: &mut String,
    ) -> Self {
        let mut document = Self { known, ..Self::with(plan) };
        match Journal::open(&file) {
            Ok((journal, noted)) => {
                document.do_again(&noted, said);
                document.journal = Some(journal);
                document.file = Some(file);
            }
            Err(error @ JournalError::InUse(_)) => {
                Journal::knock(&file);
                *said = format!("{error}; what is changed here must be saved elsewhere");
            }
            Err(error) => {
                *said = format!("edits are not kept until they are saved: {error}");
                document.file = Some(file);
            }
        }
        document
    }

    /// Does again what was noted before a crash, as far as it can be read, and
    /// says what came of it.
    pub(super) fn do_again(&mut self, noted: &Noted, said: &mut String) {
        let came = noted.replay(&mut self.plan, &mut self.history);
        if let Some(says) = noted.says(came) {
            *said = says;
        }
        if came.done > 0 {
            self.revision += 1;
        }
    }

    /// Keeps the edits of a plan without a name.
    pub(super) fn keep_unnamed(&mut self, journal: Journal, file: PathBuf) {
        self.journal = Some(journal);
        self.kept = Some(file);
    }

    /// Notes in the journal what was done.
    pub(super) fn note(&mut self, entry: &Entry, said: &mut String) {
        let noted = self.journal.as_mut().map_or(Ok(()), |journal| journal.add(entry));
        tell(noted, said);
    }

    /// What was noted outlives a power cut from here on.
    pub(crate) fn sync(&mut self, said: &mut String) {
        let synced = self.journal.as_mut().map_or(Ok(()), Journal::sync);
        tell(synced, said);
    }

    /// Says so where another window has come to the same file.
    pub(crate) fn hear(&self, said: &mut String) {
        if self.journal.as_ref().is_some_and(Journal::knocked) {
            *said = "this plan was opened in another window too; it is saved from here, not from \
                     there"
                .to_owned();
        }
    }

    /// Nothing noted is wanted any more.
    pub(crate) fn close(&mut self) {
        if let Some(journal) = self.journal.take() {
            journal.drop_all();
        }
        self.forget_kept();
    }

    fn forget_kept(&mut self) {
        if let Some(kept) = self.kept.take() {
            // What stays behind is only offered again where it was changed.
            let _ = SystemDisk.remove(&kept);
        }
    }

    /// Whether saving there writes over the plan's own file, or is refused
    /// because something else is in the way: then it says so.
    pub(crate) fn may_save_as(&mut self, file: &Path, said: &mut String) -> bool {
        match store::look(&SystemDisk, file) {
            Ok(None) => true,
            Ok(Some(is)) => {
                *said = format!("{} is there already", file.display());
                self.in_the_way = Some(InTheWay::Plan { file: file.to_owned(), is });
                false
            }
            Err(error) => {
                *said = error.to_string();
                false
            }
        }
    }

    /// Whether the plan is kept in this file, under whatever name.
    pub(crate) fn is_own(&self, file: &Path) -> bool {
        let whole = |path: &Path| SystemDisk.whole(path);
        let same = |own: &Path| {
            own == file || whole(own).is_ok_and(|own| whole(file).is_ok_and(|file| own == file))
        };
        self.file.as_deref().is_some_and(same)
    }

    /// Whether its edits go into a journal.
    pub(crate) const fn has_journal(&self) -> bool {
        self.journal.is_some()
    }

    /// Saves where the plan was not before, with what changes about it there;
    /// false where that failed.
    pub(crate) fn save_anew(
        &mut self,
        file: PathBuf,
        replace: Replace,
        there: Vec<Edit>,
        said: &mut String,
    ) -> bool {
        let there_now = SystemDisk.look(&Journal::path_of(&file));
        let begins = matches!(there_now, Ok(Thing::Nothing | Thing::Dangling));
        let opened = Journal::open(&file).and_then(|(journal, entries)| {
            // What was done to the plan that goes, and not saved, is not lost.
            if entries.is_empty() { Ok(()) } else { journal.set_aside() }.map(|()| journal)
        });
        let journal = match opened {
            Ok(journal) => journal,
            Err(error) => {
                *said = error.to_string();
                return false;
            }
        };
        if !there.is_empty() {
            self.edit(Edit::Many(there), said);
        }
        let (old, kept) = (self.journal.replace(journal), self.kept.take());
        let (before, known) = (self.file.replace(file.clone()), self.known);
        if !self.write_to(&file, replace, said) {
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
            let _ = SystemDisk.remove(&kept);
        }
        true
    }

    /// Writes the plan where it belongs; false where that failed, where another
    /// has changed the file since, or where it has no file yet.
    pub(crate) fn save(&mut self, said: &mut String) -> bool {
        let Some(file) = self.file.clone() else { return false };
        let replace = self.known.map_or(Replace::Nothing, Replace::AsRead);
        self.write_to(&file, replace, said)
    }

    /// Writes the plan into a file; false where that failed.
    pub(crate) fn write_to(&mut self, file: &Path, replace: Replace, said: &mut String) -> bool {
        match store::save(&self.plan, file, replace) {
            Ok(written) => {
                let another = Some(replace) != self.known.map(Replace::AsRead);
                self.saved = self.revision;
                self.known = Some(written.known);
                *said = format!("saved as {}", file.display());
                if let Some(kept) = written.kept.filter(|_| another) {
                    let name = store::name_of(&kept);
                    said.push_str(&format!("; what was there is kept beside it as {name}"));
                }
                if let Some(unsure) = written.unsure {
                    said.push_str(&format!("; the disk did not confirm it: {unsure}"));
                }
                let begun = self.journal.as_mut().map_or(Ok(()), Journal::saved);
                tell(begun, said);
                true
            }
            Err(error) => {
                *said = error.to_string();
                if let WriteProblem::Taken(is) | WriteProblem::Changed(is) = error.problem {
                    self.in_the_way = Some(InTheWay::Plan { file: file.to_owned(), is });
                }
                false
            }
        }
    }
}

fn tell(result: Result<(), JournalError>, said: &mut String) {
    if let Err(error) = result {
        *said = format!("this edit is not kept until it is saved: {error}");
    }
}
