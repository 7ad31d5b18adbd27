//! The state behind the window: a plan, what was done to it, what is chosen,
//! what is to be computed. No part of it needs a window.

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use kurbo::Point;
use wirewend::plan::{CircuitId, Edit, End, History, LevelId, Place, Plan, PointId, Subject};
use wirewend::store::{self, Entry, Journal, JournalError};
use wirewend::units::{Point2, Watch};

use super::at_hand::AtHand;
use super::camera::Camera;
use super::figure::Figure;
use super::foils::Moves;
use super::hold::Hold;
use super::keys::{Step, Tool};
use super::survey::Survey;
use super::work::{Order, Picture, View};

/// The state behind the window.
#[derive(Debug)]
pub(super) struct Desk {
    pub(super) plan: Plan,
    history: History,
    /// Every edit since the plan was saved, on the disk. None: the plan has no
    /// file yet, or another window has it.
    journal: Option<Journal>,
    /// Where a plan without a name is kept meanwhile.
    kept: Option<PathBuf>,
    /// Where the plan is saved. None: nowhere yet.
    pub(super) file: Option<PathBuf>,
    revision: u64,
    saved: u64,
    pub(super) level: Option<LevelId>,
    pub(super) step: Step,
    pub(super) tool: Tool,
    pub(super) chosen: BTreeSet<Subject>,
    pub(super) circuit: Option<CircuitId>,
    pub(super) figure: Option<Figure>,
    /// The last corner of the wall that is drawn.
    pub(super) pen: Option<Point2>,
    /// The length that is typed.
    pub(super) typed: String,
    /// Where the pointer is, mm of the plan.
    pub(super) pointer: Option<Point>,
    pub(super) hold: Option<Hold>,
    pub(super) at_hand: AtHand,
    /// The paper that is shown, by its place in the set.
    pub(super) page: usize,
    /// What is under way of the building.
    pub(super) survey: Survey,
    pub(super) camera: Camera,
    /// The size of the sheet's surface, pixels.
    pub(super) size: (f64, f64),
    pub(super) picture: Option<Arc<Picture>>,
    stamp: u64,
    ordered: u64,
    busy: bool,
    lettering: bool,
    /// Over the work that is under way.
    pub(super) watch: Watch,
    /// How long it has taken, seconds.
    pub(super) waited: u32,
    /// Whether the view is to be fitted as soon as there is something to see.
    fit_soon: bool,
    /// The state of the desk from which on the view is to be fitted.
    fit_when: Option<u64>,
    /// Whether the surface has told its size.
    sized: bool,
    /// What was said last.
    pub(super) said: String,
}

impl Desk {
    /// A desk with the plan of a file on it, and what was done to it before a
    /// crash done again. Where another window has the file, the desk has none.
    pub(super) fn of_file(plan: Plan, file: PathBuf) -> Self {
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
    pub(super) fn do_again(&mut self, entries: Vec<Entry>) {
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

    /// Keeps the edits of a plan without a name.
    pub(super) fn keep_unnamed(&mut self, journal: Journal, file: PathBuf) {
        self.journal = Some(journal);
        self.kept = Some(file);
    }

    /// A desk with a plan on it that has no file.
    pub(super) fn with(plan: Plan) -> Self {
        let level = plan.levels.keys().next().copied();
        let empty = plan.walls.is_empty() && plan.points.is_empty();
        Self {
            plan,
            history: History::default(),
            journal: None,
            kept: None,
            file: None,
            revision: 0,
            saved: 0,
            level,
            step: if empty { Step::Survey } else { Step::Circuits },
            tool: if empty { Tool::Wall } else { Tool::Hand },
            chosen: BTreeSet::new(),
            circuit: None,
            figure: None,
            pen: None,
            typed: String::new(),
            pointer: None,
            hold: None,
            at_hand: AtHand::default(),
            page: 0,
            survey: Survey::default(),
            camera: Camera::default(),
            size: (800.0, 600.0),
            picture: None,
            stamp: 1,
            ordered: 0,
            busy: false,
            lettering: false,
            watch: Watch::default(),
            waited: 0,
            fit_soon: true,
            fit_when: None,
            sized: false,
            said: String::new(),
        }
    }

    /// Changes the plan; false where it was refused, and then it says why.
    pub(super) fn edit(&mut self, edit: Edit) -> bool {
        let entry = Entry::Edit(Box::new(edit.clone()));
        match self.history.apply(&mut self.plan, edit) {
            Ok(()) => {
                self.said.clear();
                self.note(&entry);
                self.changed();
                true
            }
            Err(error) => {
                self.said = error.to_string();
                false
            }
        }
    }

    /// Undoes the latest edit.
    pub(super) fn undo(&mut self) {
        match self.history.undo(&mut self.plan) {
            Ok(true) => {
                self.note(&Entry::Undo);
                self.changed();
            }
            Ok(false) => self.said = "nothing to undo".to_owned(),
            Err(error) => self.said = error.to_string(),
        }
    }

    /// Does again what was undone.
    pub(super) fn redo(&mut self) {
        match self.history.redo(&mut self.plan) {
            Ok(true) => {
                self.note(&Entry::Redo);
                self.changed();
            }
            Ok(false) => self.said = "nothing to do again".to_owned(),
            Err(error) => self.said = error.to_string(),
        }
    }

    /// Notes in the journal what was done.
    fn note(&mut self, entry: &Entry) {
        let noted = self.journal.as_mut().map_or(Ok(()), |journal| journal.add(entry));
        self.tell(noted);
    }

    /// What was noted outlives a power cut from here on.
    pub(super) fn sync(&mut self) {
        let synced = self.journal.as_mut().map_or(Ok(()), Journal::sync);
        self.tell(synced);
    }

    /// Says so where another window has come to the same file.
    pub(super) fn hear(&mut self) {
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
    pub(super) fn close(&mut self) {
        if let Some(journal) = self.journal.take() {
            journal.drop_all();
        }
        if let Some(kept) = self.kept.take() {
            // What stays behind is only offered again where it was changed.
            let _ = std::fs::remove_file(kept);
        }
    }

    /// Saves under a name; false where that failed.
    pub(super) fn save_as(&mut self, file: PathBuf) -> bool {
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

    fn changed(&mut self) {
        self.revision += 1;
        self.hold = None;
        self.at_hand.finding = None;
        let plan = &self.plan;
        self.chosen.retain(|subject| plan.has(*subject));
        self.circuit = self.circuit.filter(|id| plan.circuits.contains_key(id));
        if !self.level.is_some_and(|level| plan.levels.contains_key(&level)) {
            self.level = plan.levels.keys().next().copied();
        }
        self.look_again();
    }

    /// What is shown is no longer what is.
    pub(super) fn look_again(&mut self) {
        self.stamp += 1;
    }

    /// Whether there is something to undo.
    pub(super) const fn can_undo(&self) -> bool {
        self.history.can_undo()
    }

    /// Whether there is something to do again.
    pub(super) const fn can_redo(&self) -> bool {
        self.history.can_redo()
    }

    /// Whether the plan has changed since it was saved.
    pub(super) const fn unsaved(&self) -> bool {
        self.revision != self.saved
    }

    /// Writes the plan where it belongs; false where that failed or where it
    /// has no file yet.
    pub(super) fn save(&mut self) -> bool {
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

    /// The work that is due, always the latest: the job first, its letters when
    /// nothing moves any more; of each at most one piece at a time.
    pub(super) fn due(&mut self) -> Option<Order> {
        if !self.busy && self.ordered != self.stamp {
            self.busy = true;
            self.ordered = self.stamp;
            (self.watch, self.waited) = (Watch::default(), 0);
            return Some(self.order());
        }
        let picture = self.picture.as_ref().filter(|_| !self.lettering && !self.behind())?;
        if picture.lettered || !self.moving().is_empty() || self.survey.reshape.is_some() {
            return None;
        }
        self.lettering = true;
        Some(Order::Letters(Arc::clone(picture)))
    }

    fn moving(&self) -> &[(End, Place)] {
        self.hold.as_ref().map_or(&[], |hold| &hold.to)
    }

    fn order(&self) -> Order {
        let mut plan = self.plan.clone();
        let held = self.survey.reshape.as_ref();
        if let Some(edit) = held.and_then(|held| held.edit.clone()) {
            // What does not go stays as it was: the release says why.
            let _ = plan.apply(edit);
        }
        for (end, to) in self.moving() {
            match end {
                End::Point(id) => {
                    if let Some(point) = plan.points.get_mut(id) {
                        point.place = Some(*to);
                    }
                }
                End::Board(id) => {
                    if let Some(board) = plan.boards.get_mut(id) {
                        board.place = Some(*to);
                    }
                }
            }
        }
        Order::Job {
            aside: store::missing_backdrops(&plan, &self.folder()),
            plan: Box::new(plan),
            view: View {
                level: self.level,
                circuit: self.circuit,
                paper: (self.step == Step::Papers).then_some(self.page),
            },
            before: self.picture.clone(),
            moves: Moves::of(self.moving().iter().map(|(end, _)| (*end).into())),
            stamp: self.stamp,
            watch: self.watch.clone(),
        }
    }

    /// Takes what was computed. Letters that come late for their job are let go.
    pub(super) fn done(&mut self, picture: Arc<Picture>) {
        if picture.lettered {
            self.lettering = false;
            if picture.stamp != self.stamp {
                return;
            }
        } else {
            self.busy = false;
        }
        if self.fit_when.is_some_and(|stamp| picture.stamp >= stamp) {
            self.fit_when = None;
            self.fit_soon = true;
        }
        self.picture = Some(picture);
        if self.fit_soon {
            self.fit();
            self.fit_soon = !self.sized;
        }
    }

    /// What was ordered could not be computed; what is shown stays.
    pub(super) fn failed(&mut self) {
        (self.busy, self.lettering) = (false, false);
        self.said = "this plan could not be computed; undo the last change".to_owned();
    }

    /// Whether a plan is being computed.
    pub(super) const fn is_busy(&self) -> bool {
        self.busy
    }

    /// Whether what is shown is older than the plan.
    pub(super) fn behind(&self) -> bool {
        self.picture.as_ref().is_none_or(|picture| picture.stamp != self.stamp)
    }

    /// Shows all of the level as soon as it is drawn as it now is.
    pub(super) const fn fit_when_drawn(&mut self) {
        self.fit_when = Some(self.stamp);
    }

    /// Which state of the plan and of what is shown this is.
    pub(super) const fn stamp(&self) -> u64 {
        self.stamp
    }

    /// Shows all of the level.
    pub(super) fn fit(&mut self) {
        let drawn = self.picture.as_ref().and_then(|picture| picture.bounds());
        let paper = drawn.unwrap_or(kurbo::Rect::new(0.0, -160.0, 240.0, 0.0));
        self.camera = Camera::fitted(paper, self.size.0, self.size.1);
    }

    /// The surface has another size: what is in its middle stays there.
    pub(super) fn resize(&mut self, width: f64, height: f64) {
        let by = kurbo::Vec2::new(width - self.size.0, height - self.size.1) / 2.0;
        self.size = (width, height);
        if self.fit_soon {
            self.sized = true;
            self.fit();
            self.fit_soon = self.picture.is_none();
        } else {
            self.camera = self.camera.moved(by);
        }
    }

    /// Opens a step of the job. The papers lie on their own sheet.
    pub(super) fn go_step(&mut self, step: Step) {
        let turned = (self.step == Step::Papers) != (step == Step::Papers);
        self.step = step;
        if turned {
            self.hold = None;
            self.take_tool(Tool::Hand);
            self.fit_when = Some(self.stamp + 1);
            self.look_again();
        }
    }

    /// Shows another paper.
    pub(super) fn go_page(&mut self, page: usize) {
        if page != self.page {
            self.page = page;
            self.fit_when = Some(self.stamp + 1);
            self.look_again();
        }
    }

    /// Takes a tool into the hand; what another one had begun is let go.
    pub(super) fn take_tool(&mut self, tool: Tool) {
        self.tool = tool;
        self.pen = None;
        self.typed.clear();
        self.drop_survey();
    }

    /// Goes so many levels up; among the papers, so many back.
    pub(super) fn climb(&mut self, by: isize) {
        if self.step == Step::Papers {
            let papers = self.picture.as_ref().and_then(|picture| picture.made_papers());
            let last = papers.map_or(0, |papers| papers.set.len().saturating_sub(1));
            return self.go_page(self.page.saturating_add_signed(-by).min(last));
        }
        let mut levels: Vec<(LevelId, wirewend::units::Mm)> =
            self.plan.levels.iter().map(|(id, level)| (*id, level.floor)).collect();
        levels.sort_by_key(|(id, floor)| (*floor, *id));
        let at = levels.iter().position(|(id, _)| Some(*id) == self.level).unwrap_or(0);
        let to = at.saturating_add_signed(by).min(levels.len().saturating_sub(1));
        if let Some((id, _)) = levels.get(to) {
            self.chosen.clear();
            self.go_to(*id);
        }
    }

    /// Shows a level.
    pub(super) fn go_to(&mut self, level: LevelId) {
        if self.level != Some(level) {
            self.level = Some(level);
            self.pen = None;
            self.drop_survey();
            self.look_again();
        }
    }

    /// Chooses a circuit to be shown alone, or all of them again.
    pub(super) fn choose_circuit(&mut self, circuit: Option<CircuitId>) {
        self.circuit = if self.circuit == circuit { None } else { circuit };
        self.look_again();
    }

    /// The points and boards that are chosen.
    pub(super) fn chosen_points(&self) -> Vec<PointId> {
        let points = self.chosen.iter();
        points
            .filter_map(|one| if let Subject::Point(id) = one { Some(*id) } else { None })
            .collect()
    }
}
