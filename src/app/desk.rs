//! The state behind the window: a plan, what was done to it, what is chosen,
//! what is to be computed. No part of it needs a window.

mod due;
mod keeping;
mod view;

use std::collections::BTreeSet;
use std::path::PathBuf;
use std::sync::Arc;

use kurbo::Point;
use wirewend::plan::{CircuitId, Edit, History, LevelId, Plan, PointId, Subject};
use wirewend::store::{Entry, Journal, Known};
use wirewend::units::{Point2, Watch};

use super::at_hand::AtHand;
use super::camera::Camera;
use super::figure::Figure;
use super::hold::Hold;
use super::in_the_way::InTheWay;
use super::keys::{Step, Tool};
use super::survey::Survey;
use super::work::Picture;

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
    /// What that file held when it was read or saved. None: there was none.
    known: Option<Known>,
    /// What was in the way when the plan was to be saved last.
    pub(super) in_the_way: Option<InTheWay>,
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
            known: None,
            in_the_way: None,
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

    /// Which state of the plan and of what is shown this is.
    pub(super) const fn stamp(&self) -> u64 {
        self.stamp
    }

    /// Takes a tool into the hand; what another one had begun is let go.
    pub(super) fn take_tool(&mut self, tool: Tool) {
        self.tool = tool;
        self.pen = None;
        self.typed.clear();
        self.drop_survey();
    }

    /// The points and boards that are chosen.
    pub(super) fn chosen_points(&self) -> Vec<PointId> {
        let points = self.chosen.iter();
        points
            .filter_map(|one| if let Subject::Point(id) = one { Some(*id) } else { None })
            .collect()
    }
}
