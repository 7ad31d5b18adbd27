//! What the floor sheets of one plan share.

use std::cell::OnceCell;
use std::collections::BTreeSet;
use std::rc::Rc;

use super::outline::Outline;
use super::points::{self, Stand};
use super::rooms::Names;
use super::settings::settings;
use super::view::View;
use super::wall_names::{WallName, wall_names};
use super::walls::Walls;
use super::{FloorOptions, Job, SheetError, openings};
use crate::checks::{Checked, GoverningStretch};
use crate::lengths::Lengths;
use crate::plan::{CircuitId, Faces, LevelId, Plan, faces};
use crate::runs::Runs;
use crate::sheet::scene::{Item, Scene};
use crate::sheet::{Page, Scale};
use crate::wording::Local;

/// Floor sheets of one plan: walls and openings are worked out once for all
/// that show them at the same place of the paper.
#[derive(Debug)]
pub struct Floors<'a> {
    pub(super) plan: &'a Plan,
    pub(super) runs: &'a Runs,
    pub(super) lengths: &'a Lengths,
    /// How the papers of its rules speak.
    pub(super) local: Local,
    pub(super) worst: Vec<(CircuitId, GoverningStretch)>,
    /// The faces of all walls, once they are asked for.
    faces: OnceCell<Faces>,
    shells: Vec<(LevelId, View, Rc<Shell>)>,
    /// The symbols of points about the plan's origin.
    stands: Vec<(LevelId, View, Rc<[Stand]>)>,
    /// The names of rooms about the plan's origin: at the same places on every
    /// sheet of a level, clear of all its circuits.
    names: Vec<(LevelId, View, Names)>,
}

impl<'a> Floors<'a> {
    /// Of a routed and measured plan, whose rules' papers speak so: see
    /// `RuleBook::local`.
    #[must_use]
    pub const fn of(plan: &'a Plan, runs: &'a Runs, lengths: &'a Lengths, local: Local) -> Self {
        Self {
            plan,
            runs,
            lengths,
            local,
            worst: Vec::new(),
            faces: OnceCell::new(),
            shells: Vec::new(),
            stands: Vec::new(),
            names: Vec::new(),
        }
    }

    /// The same, with the stretch marked on which each circuit can carry least.
    #[must_use]
    pub fn marking(self, checked: &Checked) -> Self {
        let circuits = checked.circuits.iter();
        let worst = circuits.filter_map(|(id, figures)| Some((*id, figures.governing?)));
        Self { worst: worst.collect(), ..self }
    }

    /// A level from above.
    ///
    /// # Errors
    /// As [`floor_sheet`](super::floor_sheet).
    pub fn sheet(&mut self, options: &FloorOptions) -> Result<Scene, SheetError> {
        let job = Job::of(self.plan, self.runs, self.lengths, options)?;
        let settings = settings(options, job.is_crowded());
        // Larger paper rather than no dimensions, but no dimensions rather than
        // a smaller scale.
        for scale in settings.iter().map(|(scale, _)| *scale).collect::<BTreeSet<Scale>>() {
            let pages = settings.iter().filter(|one| one.0 == scale).map(|one| one.1);
            let pages: Vec<Page> = pages.filter(|page| job.could_fit(scale, *page)).collect();
            if pages.is_empty() {
                continue;
            }
            let drawing = job.drawing(&View::anchored(scale), self);
            for dimensioned in [true, false] {
                for page in &pages {
                    let found = job.draw(scale, *page, dimensioned, &drawing, self);
                    if let Some(scene) = found {
                        return Ok(scene);
                    }
                }
            }
        }
        Err(job.too_large(&settings))
    }

    pub(super) fn names(&mut self, level: LevelId, view: &View) -> Names {
        let (view, by) = view.unanchored();
        let known = self.names.iter().find(|one| one.0 == level && one.1 == view);
        if let Some((_, _, names)) = known {
            return names.moved(by);
        }
        let all = FloorOptions::of(level);
        let Ok(job) = Job::of(self.plan, self.runs, self.lengths, &all) else {
            return Names::default();
        };
        let names = job.names(&job.drawing(&view, self), &view);
        self.names.push((level, view, names.clone()));
        names.moved(by)
    }

    /// The symbols of a level as a sheet about one circuit or all shows them.
    pub(super) fn stands(
        &mut self,
        level: LevelId,
        only: Option<CircuitId>,
        view: &View,
    ) -> Vec<Stand> {
        let (view, by) = view.unanchored();
        let known = self.stands.iter().find(|one| one.0 == level && one.1 == view);
        if let Some((_, _, stands)) = known {
            return stands.iter().map(|stand| stand.moved(by).about(only)).collect();
        }
        let stands: Rc<[Stand]> = points::stands(self.plan, self.runs, level, &view).into();
        self.stands.push((level, view, Rc::clone(&stands)));
        stands.iter().map(|stand| stand.moved(by).about(only)).collect()
    }

    pub(super) fn shell(&mut self, level: LevelId, view: &View) -> Rc<Shell> {
        let known = self.shells.iter().find(|one| one.0 == level && one.1 == *view);
        if let Some((_, _, shell)) = known {
            return Rc::clone(shell);
        }
        let walls = Walls::of(self.plan, level, view);
        let shell = Rc::new(Shell {
            hatching: walls.hatching(),
            outline: Outline::of(&walls.closed, self.plan, level, view),
            openings: openings::draw(self.plan, level, view),
            names: wall_names(self.plan, self.faces.get_or_init(|| faces(self.plan)), level, view),
            walls,
        });
        if self.shells.len() > 8 {
            self.shells.remove(0);
        }
        self.shells.push((level, *view, Rc::clone(&shell)));
        shell
    }
}

/// What of a level is the same on every sheet.
#[derive(Debug)]
pub(super) struct Shell {
    pub(super) walls: Walls,
    pub(super) outline: Outline,
    pub(super) hatching: Item,
    pub(super) openings: Vec<Item>,
    pub(super) names: Vec<WallName>,
}
