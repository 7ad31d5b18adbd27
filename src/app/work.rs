//! What is computed from a plan, away from the hand that draws: runs, lengths,
//! checks and the marks of the sheet.

use std::ops::Deref;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use kurbo::{Rect, Shape as _};
use wirewend::checks::{self, Checked};
use wirewend::lengths::{self, Lengths};
use wirewend::plan::{CircuitId, Finding, Level, LevelId, Plan, Severity, Subject};
use wirewend::rules::RuleBook;
use wirewend::runs::chain::Effort;
use wirewend::runs::{self, Memory, Runs};
use wirewend::sheet::{
    FloorOptions, Group, Ink, Item, Layer, Lettering, Mark, Stroke, Text, bare_floor, bounds,
};
use wirewend::space::Space;
use wirewend::takeoff;
use wirewend::units::{Cents, Mm, Watch, Worked};

use super::figure;
use super::foils::{Foils, Moves, Thing};
use crate::cli::papers::{self, Papers};

/// What is to be computed.
#[derive(Clone, Debug)]
pub(super) enum Order {
    /// Everything but letters and price: those of the last picture stay
    /// meanwhile.
    Job {
        plan: Box<Plan>,
        /// What was found beside the plan: pictures that are not there.
        aside: Vec<Finding>,
        view: View,
        before: Option<Arc<Picture>>,
        /// What moves: its old letters would be in the wrong place.
        moves: Moves,
        stamp: u64,
        /// Stops it, and tells how far it is.
        watch: Watch,
    },
    /// The letters beside what is computed already, and its price.
    Letters(Arc<Picture>),
}

/// What is shown of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct View {
    pub(super) level: Option<LevelId>,
    /// The circuit that is shown alone.
    pub(super) circuit: Option<CircuitId>,
    /// The sheet that is shown as it will be printed, by its place in the set.
    pub(super) paper: Option<usize>,
}

/// Names and marks beside things, and what they were set for.
#[derive(Debug)]
pub(super) struct Letters {
    view: View,
    items: Vec<Item>,
}

/// A plan and what the rooms of the library make of it.
#[derive(Debug)]
pub(super) struct Job {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
    pub(super) checked: Checked,
    /// Of the checks and of the routes, worst first.
    pub(super) findings: Vec<Finding>,
    /// What was found beside the plan.
    aside: Vec<Finding>,
    /// Every paper, once somebody wants to see one.
    papers: OnceLock<Papers>,
}

/// A job as it is shown.
#[derive(Debug)]
pub(super) struct Picture {
    job: Arc<Job>,
    view: View,
    /// The marks of the level made ready for the canvas.
    pub(super) foils: Foils,
    /// The symbols of points and boards with the boxes around them, mm of
    /// paper.
    symbols: Vec<(Subject, Rect)>,
    /// The box around everything drawn, mm of paper.
    whole: Option<Rect>,
    /// The names and marks among them.
    letters: Option<Arc<Letters>>,
    /// What the job costs; with old letters, what it did.
    pub(super) price: Option<Price>,
    /// Whether these letters and the price are this picture's own.
    pub(super) lettered: bool,
    /// Which state of the desk this belongs to.
    pub(super) stamp: u64,
}

impl Deref for Picture {
    type Target = Job;
    fn deref(&self) -> &Job {
        &self.job
    }
}

/// What a job costs by the plan's own price book.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Price {
    pub(super) currency: String,
    pub(super) total: Worked<Cents>,
    /// Whether every line has a price.
    pub(super) is_complete: bool,
}

impl Price {
    /// The total in words; where lines have no price it is short, and says so.
    pub(super) fn says(&self) -> String {
        let cents = self.total.value.get();
        let units = figure::thousands(cents.div_euclid(100));
        let total = format!("{} {units}.{:02}", self.currency, cents.rem_euclid(100));
        match (self.is_complete, self.total.value) {
            (true, _) => total.trim().to_owned(),
            (false, Cents::ZERO) => "no prices yet".to_owned(),
            (false, _) => format!("{} and more", total.trim()),
        }
    }
}

impl Order {
    /// Computes it, with what was routed before at hand.
    pub(super) fn done(self, rules: &RuleBook, memory: &Mutex<Memory>) -> Picture {
        match self {
            Self::Job { plan, aside, view, before, moves, stamp, watch } => {
                let same = |before: &&Arc<Picture>| before.plan == *plan && before.aside == aside;
                let known = before.as_ref().filter(same);
                let job = known.map_or_else(
                    || {
                        let mut memory = memory.lock().unwrap_or_else(PoisonError::into_inner);
                        Arc::new(Job::of(*plan.clone(), aside.clone(), rules, &mut memory, &watch))
                    },
                    |before| Arc::clone(&before.job),
                );
                let mut items = job.floor(view, false, Some(&watch));
                let letters = before.as_ref().and_then(|before| before.letters.clone());
                let letters = letters.filter(|letters| letters.view == view);
                if let Some(letters) = letters.as_ref().filter(|_| view.paper.is_none()) {
                    let goes =
                        |item: &&Item| matches!(item, Item::Group(group) if moves.touches(group));
                    let still = letters.items.iter().filter(|item| !goes(item));
                    items.extend(still.cloned());
                }
                let price = before.as_ref().and_then(|before| before.price.clone());
                let old = before.as_deref().map(|before| &before.foils);
                let picture = Picture { letters, price, ..Picture::of(job, view, &items, stamp) };
                picture.on_foils(items, &moves, old)
            }
            Self::Letters(picture) => {
                let (job, view) = (Arc::clone(&picture.job), picture.view);
                let items = job.floor(view, true, None);
                let of_letters = |item: &&Item| {
                    matches!(item, Item::Group(group)
                        if matches!(group.layer, Layer::Labels | Layer::Rooms))
                };
                let letters = items.iter().filter(of_letters).cloned().collect();
                let letters = Some(Arc::new(Letters { view, items: letters }));
                let price = Some(job.price());
                let new = Picture::of(job, view, &items, picture.stamp);
                let new = Picture { letters, price, lettered: true, ..new };
                new.on_foils(items, &Moves::default(), Some(&picture.foils))
            }
        }
    }
}

impl Job {
    /// Routes, measures and checks a plan. Where it was stopped nothing is
    /// routed, and a finding says so.
    pub(super) fn of(
        plan: Plan,
        aside: Vec<Finding>,
        rules: &RuleBook,
        memory: &mut Memory,
        watch: &Watch,
    ) -> Self {
        let effort = Effort::default();
        let runs = runs::route_watched(&plan, &Space::of(&plan), &effort, memory, watch);
        let runs = runs.unwrap_or_else(stopped);
        let lengths = lengths::measure(&plan, &runs);
        let checked = checks::check(&plan, &runs, &lengths, rules);
        let mut findings = checked.findings.clone();
        findings.extend(runs.findings.iter().cloned());
        findings.extend(aside.iter().cloned());
        findings.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
        Self { plan, runs, lengths, checked, findings, aside, papers: OnceLock::new() }
    }

    /// Every paper, made when first asked for. None where that was stopped.
    pub(super) fn papers(&self, watch: &Watch) -> Option<&Papers> {
        if self.papers.get().is_none() {
            let book = RuleBook::shipped();
            let made = papers::all(&self.plan, &self.runs, &self.lengths, &book, watch)?;
            return Some(self.papers.get_or_init(|| made));
        }
        self.papers.get()
    }

    /// The papers, where they have been made.
    pub(super) fn made_papers(&self) -> Option<&Papers> {
        self.papers.get()
    }

    /// A sheet as it will be printed, with the edge of its paper. Without a
    /// watch only what is drawn already.
    fn paper(&self, page: usize, watch: Option<&Watch>) -> Vec<Item> {
        let papers = watch.map_or_else(|| self.made_papers(), |watch| self.papers(watch));
        let Some(papers) = papers else {
            let says = "stopped: no paper is drawn";
            return vec![Text::new(says, (10.0, 20.0), Lettering::Name).into()];
        };
        let Some((_, scene)) = papers.set.get(page) else {
            let says = if papers.said.is_empty() { "no papers" } else { papers.said.trim() };
            return vec![Text::new(says, (10.0, 20.0), Lettering::Name).into()];
        };
        let (width, height) = scene.page.size();
        let edge = Rect::new(0.0, 0.0, width, height).to_path(0.1);
        let edge = Mark::line(edge, Stroke::solid(Ink::GREY, 0.25));
        std::iter::once(edge.into()).chain(scene.items.iter().cloned()).collect()
    }

    fn price(&self) -> Price {
        let quote = takeoff::take_off(&self.plan, &self.runs, &self.lengths).quote;
        Price { currency: quote.currency, total: quote.total, is_complete: quote.is_complete }
    }

    /// The signs of what was found on a level.
    fn signs(&self, level: &Level) -> impl Iterator<Item = Thing> + '_ {
        let (floor, top) = (level.floor, level.ceiling() + VOID);
        self.findings.iter().filter_map(move |finding| {
            let weighs = matches!(finding.severity, Severity::Fault | Severity::Warning);
            let place = finding.place.filter(|_| weighs)?;
            // A void above belongs to the level beneath it.
            let here = place.z >= floor && place.z <= top;
            here.then(|| Thing::Found(place.on_floor(), finding.severity))
        })
    }

    fn floor(&self, view: View, lettered: bool, watch: Option<&Watch>) -> Vec<Item> {
        if let Some(page) = view.paper {
            return self.paper(page, watch);
        }
        let Some(level) = view.level else { return Vec::new() };
        let options = FloorOptions { circuit: view.circuit, ..FloorOptions::of(level) };
        bare_floor(&self.plan, &self.runs, &self.lengths, &options, lettered).unwrap_or_default()
    }
}

/// No runs, because nobody waited for them.
fn stopped() -> Runs {
    const CODE: &str = "stopped";
    let says = "stopped: nothing is routed, measured, checked or priced";
    let does = "change anything and it is routed again";
    let finding = Finding::new(CODE, Severity::Missing, Subject::Plan, says, does);
    Runs { findings: vec![finding], ..Runs::default() }
}

/// How far above a ceiling still belongs to its level, mm.
pub(super) const VOID: Mm = Mm::new(400);

impl Picture {
    /// What is on a picture, its foils still to be made.
    fn of(job: Arc<Job>, view: View, items: &[Item], stamp: u64) -> Self {
        let symbols = items.iter().filter_map(|item| match item {
            Item::Group(group) if group.layer == Layer::Points => {
                Some((group.subject?, bounds(&group.items)?))
            }
            _ => None,
        });
        Self {
            job,
            view,
            foils: Foils::default(),
            symbols: symbols.collect(),
            whole: bounds(items),
            letters: None,
            price: None,
            lettered: false,
            stamp,
        }
    }

    fn on_foils(self, items: Vec<Item>, moves: &Moves, before: Option<&Foils>) -> Self {
        let level = self.view.level.filter(|_| self.view.paper.is_none());
        let level = level.and_then(|level| self.job.plan.levels.get(&level));
        let signs: Vec<Thing> = level.into_iter().flat_map(|level| self.job.signs(level)).collect();
        let mut things: Vec<Thing> = items.into_iter().map(Thing::Drawn).collect();
        if self.view.paper.is_some() {
            // As it is printed, in the order of the paper.
            let all = things.into_iter().filter_map(|thing| match thing {
                Thing::Drawn(item) => Some(item),
                Thing::Found(..) => None,
            });
            let marks = Group::new(Layer::Notes, all.collect());
            things = vec![Thing::Drawn(marks.into())];
        }
        things.extend(signs);
        let foils = Foils::of(things, moves, before);
        Self { foils, ..self }
    }

    /// The box around the symbol of a thing on the sheet, mm of paper.
    pub(super) fn bounds_of(&self, subject: Subject) -> Option<Rect> {
        let own = self.symbols().filter(|(one, _)| *one == subject).map(|(_, around)| around);
        own.reduce(|all, one| all.union(one))
    }

    /// The symbols of points and boards with the boxes around them.
    pub(super) fn symbols(&self) -> impl Iterator<Item = (Subject, Rect)> + '_ {
        self.symbols.iter().copied()
    }

    /// The box around everything drawn, mm of paper.
    pub(super) const fn bounds(&self) -> Option<Rect> {
        self.whole
    }

    /// How many findings are about a circuit, its points or its legs, notes
    /// left out.
    pub(super) fn findings_of(&self, circuit: CircuitId) -> usize {
        let about = |finding: &&Finding| match finding.subject {
            Subject::Circuit(id) | Subject::Leg { circuit: id, .. } => id == circuit,
            Subject::Point(id) => {
                self.plan.points.get(&id).is_some_and(|point| point.circuit == Some(circuit))
            }
            _ => false,
        };
        let weighs = |finding: &&Finding| finding.severity > Severity::Note;
        self.findings.iter().filter(weighs).filter(about).count()
    }
}
