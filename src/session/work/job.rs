//! A plan routed, measured and checked.

use std::sync::{Arc, OnceLock};

use kurbo::{Rect, Shape as _};

use super::{Known, Price, Thing, View};
use crate::checks::{self, Checked};
use crate::lengths::{self, Lengths};
use crate::plan::{Finding, Level, Plan, Severity, Subject};
use crate::rules::RuleBook;
use crate::runs::chain::Effort;
use crate::runs::{self, Runs};
use crate::sheet::{
    FloorOptions, Ink, Item, Lettering, Mark, Measured, Papers, Sheet, Stroke, Text, bare_floor,
};
use crate::space::Space;
use crate::takeoff;
use crate::units::{Mm, Watch};

/// How far above a ceiling still belongs to its level, mm.
pub const VOID: Mm = Mm::new(400);

/// A plan and what the rooms of the library make of it.
#[derive(Debug)]
pub struct Job {
    /// The plan.
    pub plan: Plan,
    /// Its routes.
    pub runs: Runs,
    /// Their lengths.
    pub lengths: Lengths,
    /// What was checked.
    pub checked: Checked,
    /// Of the drawing, its routes and its checks, worst first.
    pub findings: Vec<Finding>,
    /// The rules that it went by.
    pub rules: Arc<RuleBook>,
    /// What was found beside the plan.
    pub(super) aside: Vec<Finding>,
    /// Every paper, once somebody wants to see one.
    papers: OnceLock<Papers>,
}

impl Job {
    /// Routes, measures and checks a plan. Where it was stopped nothing is
    /// routed, and a finding says so.
    pub fn of(
        plan: Plan,
        aside: Vec<Finding>,
        rules: &Arc<RuleBook>,
        known: &mut Known,
        watch: &Watch,
    ) -> Self {
        let effort = Effort::default();
        let space = Space::again(&plan, &mut known.shell);
        let runs = runs::route_watched(&plan, &space, &effort, &mut known.runs, watch);
        let runs = runs.unwrap_or_else(stopped);
        let lengths = lengths::measure_again(&plan, &runs, &mut known.lengths);
        let checked = checks::check(&plan, &runs, &lengths, rules);
        let findings = checks::everything(&plan, &runs, &checked, &aside);
        Self {
            plan,
            runs,
            lengths,
            checked,
            findings,
            rules: Arc::clone(rules),
            aside,
            papers: OnceLock::new(),
        }
    }

    /// What papers are made of.
    pub const fn measured(&self) -> Measured<'_> {
        Measured { plan: &self.plan, runs: &self.runs, lengths: &self.lengths }
    }

    /// Every paper, made when first asked for. None where that was stopped.
    pub fn papers(&self, watch: &Watch) -> Option<&Papers> {
        if self.papers.get().is_none() {
            let made = Papers::make(self.measured(), None, &self.rules, &[], watch)?;
            return Some(self.papers.get_or_init(|| made));
        }
        self.papers.get()
    }

    /// The papers, where they have been made.
    pub fn made_papers(&self) -> Option<&Papers> {
        self.papers.get()
    }

    /// A sheet as it will be printed, with the edge of its paper. Without a
    /// watch only what is drawn already.
    pub fn paper(&self, page: usize, watch: Option<&Watch>) -> Vec<Item> {
        let papers = watch.map_or_else(|| self.made_papers(), |watch| self.papers(watch));
        let Some(papers) = papers else {
            let says = "stopped: no paper is drawn";
            return vec![Text::new(says, (10.0, 20.0), Lettering::Name).into()];
        };
        let Some(Sheet { scene, .. }) = papers.shown().nth(page) else {
            let says = if papers.said.is_empty() { "no papers" } else { papers.said.trim() };
            return vec![Text::new(says, (10.0, 20.0), Lettering::Name).into()];
        };
        let (width, height) = scene.page.size();
        let edge = Rect::new(0.0, 0.0, width, height).to_path(0.1);
        let edge = Mark::line(edge, Stroke::solid(Ink::GREY, 0.25));
        std::iter::once(edge.into()).chain(scene.items.iter().cloned()).collect()
    }

    /// What it costs by the plan's own price book.
    pub fn price(&self) -> Price {
        let quote = takeoff::take_off(&self.plan, &self.runs, &self.lengths, &self.rules).quote;
        Price { currency: quote.currency, total: quote.total }
    }

    /// The signs of what was found on a level.
    pub fn signs(&self, level: &Level) -> impl Iterator<Item = Thing> + '_ {
        let (floor, top) = (level.floor, level.ceiling() + VOID);
        self.findings.iter().filter_map(move |finding| {
            let weighs = matches!(finding.severity, Severity::Fault | Severity::Warning);
            let place = finding.place.filter(|_| weighs)?;
            // A void above belongs to the level beneath it.
            let here = place.z >= floor && place.z <= top;
            here.then(|| Thing::Found(place.on_floor(), finding.severity))
        })
    }

    /// The marks of what is shown, with names and marks beside things or without.
    pub fn floor(&self, view: View, lettered: bool, watch: Option<&Watch>) -> Vec<Item> {
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
