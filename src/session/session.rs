//! A session: a plan under the hand. What each gesture does to it is told in
//! the folders beside this file.

use std::path::{Path, PathBuf};

use super::document::Document;
use super::ground::storeys;
use super::state::{Hand, InTheWay, Jobs, Selection, Sight, Step, Tool};
use super::work::Picture;
use crate::plan::{Edit, LevelId, Plan, PointId, Subject};
use crate::runs::{self, Leg};
use crate::store::{Known, Replace};

/// A plan under the hand.
#[derive(Debug)]
pub struct Session {
    /// The plan, its history and its file.
    pub document: Document,
    /// What is chosen.
    pub selection: Selection,
    /// What the hand does.
    pub hand: Hand,
    /// What is shown.
    pub sight: Sight,
    /// What is computed.
    pub jobs: Jobs,
    /// What was said last.
    pub said: String,
}

impl Session {
    /// A plan that has no file.
    pub fn with(plan: Plan) -> Self {
        Self::of(Document::with(plan), String::new())
    }

    /// A plan that has no name, its edits kept in a folder.
    pub fn unnamed(plan: Plan, folder: Option<&Path>) -> Self {
        Self::of(Document::unnamed(plan, folder), String::new())
    }

    /// An unnamed plan that a crash left behind, with all that was done to it.
    pub fn left_behind(folder: Option<&Path>) -> Option<Self> {
        let mut said = String::new();
        Document::left_behind(folder, &mut said).map(|document| Self::of(document, said))
    }

    /// A plan as it was read from a file, with what the file held then; none
    /// where there was none. What was done before a crash is done again.
    pub fn of_known(plan: Plan, file: PathBuf, known: Option<Known>) -> Self {
        let mut said = String::new();
        let document = Document::of_known(plan, file, known, &mut said);
        Self::of(document, said)
    }

    fn of(document: Document, said: String) -> Self {
        let plan = document.plan();
        let level = plan.levels.keys().next().copied();
        let is_empty = plan.walls.is_empty() && plan.points.is_empty();
        let step = if is_empty { Step::Survey } else { Step::Circuits };
        let tool = if is_empty { Tool::Wall } else { Tool::Hand };
        Self {
            document,
            selection: Selection::default(),
            hand: Hand::with(tool),
            sight: Sight::of(step, level),
            jobs: Jobs::default(),
            said,
        }
    }

    /// Changes the plan; false where it was refused, and then it says why.
    pub fn edit(&mut self, edit: Edit) -> bool {
        let done = self.document.edit(edit, &mut self.said);
        if done {
            self.changed();
        }
        done
    }

    /// Undoes the latest edit.
    pub fn undo(&mut self) {
        if self.document.undo(&mut self.said) {
            self.changed();
        }
    }

    /// Does again what was undone.
    pub fn redo(&mut self) {
        if self.document.redo(&mut self.said) {
            self.changed();
        }
    }

    /// Keeps what papers that go out now say, so that nothing else is ever
    /// called so: not to be undone. What is to be said of it.
    pub fn issue(&mut self) -> Option<String> {
        let picture = self.jobs.picture()?;
        let edit = runs::issue(self.document.plan(), &picture.runs)?;
        let is_saved = self.document.file().is_some() && !self.document.unsaved();
        if let Err(error) = self.document.issue(edit, &mut self.said) {
            return Some(format!("their numbers are not kept: {error}"));
        }
        self.changed();
        if is_saved && self.save() {
            return Some("their numbers are kept in the plan".to_owned());
        }
        Some("their numbers are kept once the plan is saved".to_owned())
    }

    fn changed(&mut self) {
        self.hand.let_go();
        let plan = self.document.plan();
        self.selection.follow(plan);
        let level = self.sight.level().filter(|level| plan.levels.contains_key(level));
        self.sight.open_level(level.or_else(|| plan.levels.keys().next().copied()));
        self.look_again();
    }

    /// What is shown is no longer what is.
    pub const fn look_again(&mut self) {
        self.jobs.renew();
    }

    /// Takes a tool into the hand; what another one had begun is let go.
    pub fn take_tool(&mut self, tool: Tool) {
        self.hand.change(tool);
        self.hand.set_pen(None);
        self.hand.forget_typed();
        self.drop_drawing();
    }

    /// Lets go of everything of the building that is under way; false where
    /// there was nothing.
    pub fn drop_drawing(&mut self) -> bool {
        let dropped = self.hand.drawing.drop_all();
        if dropped.held {
            self.look_again();
        }
        dropped.held || dropped.drew
    }

    /// The points that are chosen.
    pub fn chosen_points(&self) -> Vec<PointId> {
        let points = self.selection.chosen().iter();
        points
            .filter_map(|one| if let Subject::Point(id) = one { Some(*id) } else { None })
            .collect()
    }

    /// The chosen leg with its place in its circuit's list, while there is one.
    pub fn chosen_leg<'a>(&self, picture: &'a Picture) -> Option<(usize, &'a Leg)> {
        self.selection.leg()?.find(picture)
    }

    /// The level that shows through.
    pub fn below(&self) -> Option<LevelId> {
        let level = self.sight.level().filter(|_| !self.sight.below_hidden())?;
        storeys::below(self.document.plan(), level)
    }

    /// Writes the plan where it belongs; false where that failed, where another
    /// has changed the file since, or where it has no file yet.
    pub fn save(&mut self) -> bool {
        self.document.save(&mut self.said)
    }

    /// Saves under a name; false where that failed, or where something is in
    /// the way.
    pub fn save_as(&mut self, file: PathBuf) -> bool {
        if self.document.is_own(&file) && self.document.has_journal() {
            return self.save();
        }
        self.document.may_save_as(&file, &mut self.said) && self.save_anew(file, Replace::Nothing)
    }

    /// Saves over a file that was in the way and held this; false where that
    /// failed, or where it was changed once more.
    pub fn save_over(&mut self, file: PathBuf, is: Known) -> bool {
        if self.document.is_own(&file) {
            self.document.write_to(&file, Replace::AsRead(is), &mut self.said)
        } else {
            self.save_anew(file, Replace::AsRead(is))
        }
    }

    fn save_anew(&mut self, file: PathBuf, replace: Replace) -> bool {
        let there = self.pictures_beside(&file);
        let is_edited = !there.is_empty();
        let done = self.document.save_anew(file, replace, there, &mut self.said);
        if is_edited {
            self.changed();
        }
        done
    }

    /// What was done outlives a power cut from here on.
    pub fn sync(&mut self) {
        self.document.sync(&mut self.said);
    }

    /// Says so where another window has come to the same file.
    pub fn hear(&mut self) {
        self.document.hear(&mut self.said);
    }

    /// The session ends and nothing noted is wanted any more.
    pub fn close(&mut self) {
        self.document.close();
    }

    /// What was in the way when the plan was to be saved last; told once.
    pub const fn take_in_the_way(&mut self) -> Option<InTheWay> {
        self.document.take_in_the_way()
    }
}
