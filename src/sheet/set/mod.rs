//! The papers of a job as one set, and the files that they go out as.
//!
//! Which papers there are says [`Paper`]; [`Papers::make`] draws them from what
//! the rooms above made of a plan, [`Papers::files`] lists what is written of
//! them and makes its bytes. Nothing here touches a disk. This is the one place
//! of the room that asks the rules: what a sheet shows of checks and of tests
//! is handed to it from here.

mod draw;
mod drawing;
mod files;
mod floors;
mod names;
mod paper;

pub use files::{Contents, PaperFile};
pub use paper::Paper;

use std::cell::OnceCell;

use self::draw::Drawn;
use self::drawing::Drawing;
use self::names::{apart, numbered};
use super::{
    Floors, House, List, Scene, cable_list, cut_list, number_sheets, point_list, reading_list,
    say_faults, set_out_list, state_sheets,
};
use crate::checks::{check, everything, faults};
use crate::lengths::Lengths;
use crate::plan::Plan;
use crate::rules::RuleBook;
use crate::runs::{Built, Runs, built};
use crate::takeoff::{Choices, Revision, TakeOff, Variation, choices, compare, take_off};
use crate::units::Watch;

/// How the files of the costing are called: not to be mistaken by anyone.
const INTERNAL: &str = "internal-costing";

/// What papers are drawn from: a plan, routed and measured.
#[derive(Clone, Copy, Debug)]
pub struct Measured<'m> {
    /// The plan.
    pub plan: &'m Plan,
    /// Its runs.
    pub runs: &'m Runs,
    /// Their lengths.
    pub lengths: &'m Lengths,
}

/// One sheet of the set.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Of which paper.
    pub paper: Paper,
    /// The name of its files, without their endings.
    pub name: String,
    /// What stands on it.
    pub scene: Scene,
}

/// Papers ready to be shown or written.
#[derive(Clone, Debug)]
pub struct Papers {
    /// The sheets in their order, numbered.
    pub set: Vec<Sheet>,
    /// Those that are not for the client: never among the others.
    pub internal: Vec<Sheet>,
    /// The quote as a page for a telephone.
    pub page: Option<String>,
    /// Lists to reckon on with: with the whole set, not with single papers.
    pub lists: Vec<List>,
    /// The job and what the set is.
    pub title: String,
    /// What was not drawn, line by line.
    pub said: String,
    /// How many faults every one of them tells of.
    pub faults: usize,
}

impl Papers {
    /// Draws the papers asked for, all of them where none is, under a watch
    /// that counts them. With an earlier revision, what changed since then goes
    /// first. None where the watch stopped it.
    #[must_use]
    pub fn make(
        job: Measured<'_>,
        before: Option<Measured<'_>>,
        book: &RuleBook,
        only: &[Paper],
        watch: &Watch,
    ) -> Option<Self> {
        let wants = |paper: &Paper| match paper {
            Paper::Variation => before.is_some(),
            asked => only.is_empty() || only.contains(asked),
        };
        let wanted: Vec<Paper> = Paper::ALL.into_iter().filter(wants).collect();
        watch.begin(wanted.len() + 1);
        let Measured { plan, runs, lengths } = job;
        let checked = check(plan, runs, lengths, book);
        let faults = faults(&everything(plan, runs, &checked, &[]));
        let take_off = take_off(plan, runs, lengths, book);
        let choices = if wanted.iter().any(|paper| paper.is_priced()) {
            choices(plan, &take_off, book)
        } else {
            Choices { items: Vec::new(), quotes: Vec::new() }
        };
        let changes = before.map(|before| (before, variation(before, job, &take_off, book)));
        let local = book.local(plan.project.regime);
        let mut drawing = Drawing {
            job,
            house: House::new(plan, runs, lengths, local.clone()).with_faults(faults),
            floors: Floors::of(plan, runs, lengths, local).marking(&checked),
            client: choices.for_client(),
            take_off: &take_off,
            choices: &choices,
            changes,
            book,
            tests: OnceCell::new(),
            watch,
            said: String::new(),
        };
        let mut drawn = drawing.all(&wanted)?;
        number(&mut drawn, faults, &built(plan, runs));
        let lists = if only.is_empty() { drawing.lists() } else { Vec::new() };
        let Drawn { set, internal, page } = drawn;
        let title = title(&plan.project.title, only);
        Some(Self { set, internal, page, lists, title, said: drawing.said, faults })
    }

    /// Every sheet as the contractor looks at them, what is internal last.
    pub fn shown(&self) -> impl Iterator<Item = &Sheet> {
        self.set.iter().chain(&self.internal)
    }
}

impl Drawing<'_> {
    fn lists(&self) -> Vec<List> {
        let (house, cuts) = (&self.house, &self.take_off.cuts);
        vec![
            cut_list(house, cuts),
            point_list(house),
            cable_list(house, cuts),
            reading_list(house, self.tests()),
            set_out_list(house),
        ]
    }
}

/// The job, and which papers where not all.
fn title(job: &str, only: &[Paper]) -> String {
    let names: Vec<&str> = only.iter().map(|paper| paper.name()).collect();
    let set = if only.is_empty() { "papers".to_owned() } else { names.join(", ") };
    if job.is_empty() { set } else { format!("{job}: {set}") }
}

/// Names the sheets, and writes into the title blocks what is known once all
/// of them are drawn.
fn number(drawn: &mut Drawn, faults: usize, built: &Built) {
    numbered(INTERNAL, &mut drawn.internal);
    apart(&mut drawn.set);
    for sheets in [&mut drawn.set, &mut drawn.internal] {
        let mut scenes: Vec<Scene> = sheets.iter().map(|sheet| sheet.scene.clone()).collect();
        number_sheets(&mut scenes);
        say_faults(&mut scenes, faults);
        state_sheets(&mut scenes, built);
        for (sheet, scene) in sheets.iter_mut().zip(scenes) {
            sheet.scene = scene;
        }
    }
}

/// What changed since an earlier revision.
fn variation(
    before: Measured<'_>,
    now: Measured<'_>,
    take_off: &TakeOff,
    book: &RuleBook,
) -> Variation {
    let old = crate::takeoff::take_off(before.plan, before.runs, before.lengths, book);
    compare(before.revision(&old), now.revision(take_off))
}

impl<'m> Measured<'m> {
    const fn revision(self, take_off: &'m TakeOff) -> Revision<'m> {
        let Self { plan, runs, lengths } = self;
        Revision { plan, runs, lengths, take_off }
    }
}
