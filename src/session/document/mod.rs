//! The plan, what was done to it, and where it is kept.

mod keeping;
mod unnamed;

use std::path::{Path, PathBuf};

use crate::plan::{Edit, History, Plan};
use crate::session::state::InTheWay;
use crate::store::{Entry, Journal, Known};

/// A plan with its history, its file and its journal. Whatever changes it is
/// noted in the journal first of all.
#[derive(Debug)]
pub struct Document {
    plan: Plan,
    history: History,
    /// Every edit since the plan was saved, on the disk. None: the plan has no
    /// file yet, or another window has it.
    journal: Option<Journal>,
    /// Where a plan without a name is kept meanwhile.
    kept: Option<PathBuf>,
    /// Where the plan is saved. None: nowhere yet.
    file: Option<PathBuf>,
    /// What that file held when it was read or saved. None: there was none.
    known: Option<Known>,
    /// What was in the way when the plan was to be saved last.
    in_the_way: Option<InTheWay>,
    revision: u64,
    saved: u64,
}

impl Document {
    /// A plan that has no file.
    pub(crate) fn with(plan: Plan) -> Self {
        Self {
            plan,
            history: History::default(),
            journal: None,
            kept: None,
            file: None,
            known: None,
            in_the_way: None,
            revision: 0,
            saved: 0,
        }
    }

    /// The plan.
    pub const fn plan(&self) -> &Plan {
        &self.plan
    }

    /// Where the plan is saved. None: nowhere yet.
    pub fn file(&self) -> Option<&Path> {
        self.file.as_deref()
    }

    /// The folder that the plan's pictures are seen from.
    pub fn folder(&self) -> PathBuf {
        self.file().and_then(Path::parent).map(Path::to_owned).unwrap_or_default()
    }

    /// Whether the plan has changed since it was saved.
    pub const fn unsaved(&self) -> bool {
        self.revision != self.saved
    }

    /// Whether there is something to undo.
    pub const fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// Whether there is something to do again.
    pub const fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// What was in the way when the plan was to be saved last; told once.
    pub const fn take_in_the_way(&mut self) -> Option<InTheWay> {
        self.in_the_way.take()
    }

    /// Changes the plan; false where it was refused, and then it says why.
    pub(crate) fn edit(&mut self, edit: Edit, said: &mut String) -> bool {
        let entry = Entry::Edit(Box::new(edit.clone()));
        match self.history.apply(&mut self.plan, edit) {
            Ok(()) => {
                said.clear();
                self.done(&entry, said);
                true
            }
            Err(error) => {
                *said = error.to_string();
                false
            }
        }
    }

    /// Undoes the latest edit; false where nothing was.
    pub(crate) fn undo(&mut self, said: &mut String) -> bool {
        let edit = self.history.next_undo().cloned().map(Box::new);
        match self.history.undo(&mut self.plan) {
            Ok(true) => {
                self.done(&Entry::Undo(edit), said);
                return true;
            }
            Ok(false) => *said = "nothing to undo".to_owned(),
            Err(error) => *said = error.to_string(),
        }
        false
    }

    /// Does again what was undone; false where nothing was.
    pub(crate) fn redo(&mut self, said: &mut String) -> bool {
        let edit = self.history.next_redo().cloned().map(Box::new);
        match self.history.redo(&mut self.plan) {
            Ok(true) => {
                self.done(&Entry::Redo(edit), said);
                return true;
            }
            Ok(false) => *said = "nothing to do again".to_owned(),
            Err(error) => *said = error.to_string(),
        }
        false
    }

    /// Keeps what papers that go out say: not to be undone.
    ///
    /// # Errors
    /// A text for whoever asked, where the plan refuses it.
    pub(crate) fn issue(&mut self, edit: Edit, said: &mut String) -> Result<(), String> {
        let entry = Entry::Issue(Box::new(edit.clone()));
        self.plan.apply(edit).map_err(|error| error.to_string())?;
        self.done(&entry, said);
        Ok(())
    }

    fn done(&mut self, entry: &Entry, said: &mut String) {
        self.note(entry, said);
        self.revision += 1;
    }
}
