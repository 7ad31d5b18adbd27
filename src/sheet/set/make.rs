//! The papers of a job, made in their order.

use std::collections::BTreeSet;
use std::fmt::Write as _;

use super::{Paper, Wanted};
use crate::checks::{check, everything, expected_tests, faults};
use crate::lengths::Lengths;
use crate::plan::{CircuitId, LevelId, Plan, Plane, labels};
use crate::rules::RuleBook;
use crate::runs::{Built, Runs, built};
use crate::sheet::{
    FloorOptions, Floors, House, List, Scene, board_charts, cable_list, concealed_sheets,
    costing_of_change, costing_sheets, cut_cards, cut_list, elevations, isometric, number_sheets,
    order_list, point_list, quote_page, quote_sheets, reading_list, run_strips, say_faults,
    set_out_list, state_sheets, test_sheets, variation_sheets,
};
use crate::takeoff::{
    self, Choices, ClientChoices, TakeOff, Variation, choices, compare, take_off,
};
use crate::units::Watch;

/// The names of files with what is internal begin so.
pub(super) const INTERNAL: &str = "internal-costing";

/// A plan that is routed and measured.
#[derive(Clone, Copy, Debug)]
pub struct Revision<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its routes.
    pub runs: &'a Runs,
    /// Their lengths.
    pub lengths: &'a Lengths,
}

/// Papers ready to be shown or written.
#[derive(Debug)]
pub struct PaperSet {
    /// The sheets in their order, numbered, each with the name of its file.
    pub set: Vec<(String, Scene)>,
    /// The same of what is not for the client: never among the others.
    pub(super) internal: Vec<(String, Scene)>,
    pub(super) page: Option<String>,
    pub(super) lists: Vec<List>,
    /// The job and what the set is.
    pub(super) title: String,
    /// What was not drawn.
    pub said: String,
    /// How many faults every one of them tells of.
    pub faults: usize,
}

impl PaperSet {
    /// Every sheet as the contractor looks at them, what is internal last.
    pub fn shown(&self) -> impl Iterator<Item = &(String, Scene)> {
        self.set.iter().chain(&self.internal)
    }
}

/// Every paper that is wanted of a plan, made under a watch that counts them;
/// with an earlier revision, what changed since then goes first. None where it
/// was stopped.
pub fn make(
    job: Revision<'_>,
    before: Option<Revision<'_>>,
    book: &RuleBook,
    wanted: &Wanted,
    watch: &Watch,
) -> Option<PaperSet> {
    watch.begin(Paper::ALL.into_iter().filter(|paper| paper.is_in_set()).count() + 1);
    let checked = check(job.plan, job.runs, job.lengths, book);
    let faults = faults(&everything(job.plan, job.runs, &checked, &[]));
    let house = House::new(job.plan, job.runs, job.lengths).with_faults(faults);
    let take_off = take_off(job.plan, job.runs, job.lengths);
    let priced = [Paper::Quote, Paper::Page, Paper::Costing];
    let choices = if priced.into_iter().any(|paper| wanted.has(paper)) {
        choices(job.plan, &take_off)
    } else {
        Choices { items: Vec::new(), quotes: Vec::new() }
    };
    let mut said = String::new();
    let mut floors = Floors::of(job.plan, job.runs, job.lengths).marking(&checked);
    let client = choices.for_client();
    let made = (&take_off, &client, book);
    let mut set = sheets(job, (&house, &mut floors), made, wanted, watch, &mut said)?;
    let mut internal = Vec::new();
    if wanted.has(Paper::Costing) {
        internal.extend(costing_sheets(&house, &take_off.quote, &choices));
    }
    if let Some(before) = before {
        let changes = variation(before, job, &take_off);
        let sheets = variation_sheets(before.plan, job.plan, &changes.for_client());
        set.splice(0..0, numbered("variation", sheets));
        if wanted.has(Paper::Costing) {
            internal.extend(costing_of_change(before.plan, job.plan, &changes));
        }
    }
    let mut internal = numbered(INTERNAL, internal);
    apart(&mut set);
    let built = built(job.plan, job.runs);
    number(&mut set, faults, &built);
    number(&mut internal, faults, &built);
    let page = wanted
        .has(Paper::Page)
        .then(|| quote_page(&house, &mut floors, &take_off.materials, &client));
    let mut lists = Vec::new();
    if wanted.is_all() {
        let tests = expected_tests(job.plan, job.runs, job.lengths, book);
        let cuts = &take_off.cuts;
        lists.extend([cut_list(&house, cuts), point_list(&house), cable_list(&house, cuts)]);
        lists.extend([reading_list(&house, &tests), set_out_list(&house)]);
    }
    let title = title(&job.plan.project.title, wanted);
    Some(PaperSet { set, internal, page, lists, title, said, faults })
}

/// The job, and which papers where not all.
fn title(job: &str, wanted: &Wanted) -> String {
    let set = if wanted.is_all() { "papers".to_owned() } else { wanted.names().join(", ") };
    if job.is_empty() { set } else { format!("{job}: {set}") }
}

/// Writes into the title blocks what is known once all sheets are drawn.
fn number(set: &mut [(String, Scene)], faults: usize, built: &Built) {
    let mut scenes: Vec<Scene> = set.iter().map(|(_, scene)| scene.clone()).collect();
    number_sheets(&mut scenes);
    say_faults(&mut scenes, faults);
    state_sheets(&mut scenes, built);
    for (one, numbered) in set.iter_mut().zip(scenes) {
        one.1 = numbered;
    }
}

/// The sheets of the papers asked for, each with the name of its file.
fn sheets(
    job: Revision<'_>,
    (house, drawn): (&House<'_>, &mut Floors<'_>),
    (take_off, choices, book): (&TakeOff, &ClientChoices, &RuleBook),
    wanted: &Wanted,
    watch: &Watch,
    said: &mut String,
) -> Option<Vec<(String, Scene)>> {
    let mut set: Vec<(String, Scene)> = Vec::new();
    for paper in Paper::ALL.into_iter().filter(|paper| paper.is_in_set()) {
        watch.step();
        if watch.is_stopped() {
            return None;
        }
        if !wanted.has(paper) {
            continue;
        }
        let scenes = match paper {
            Paper::Floors | Paper::Circuits => {
                set.extend(floors(job, drawn, paper == Paper::Circuits, watch, said));
                continue;
            }
            Paper::Isometric => {
                set.extend(in_space(job, house));
                continue;
            }
            Paper::Elevations => elevations(house),
            Paper::Strips => run_strips(house),
            Paper::Cards => cut_cards(house, &take_off.cuts),
            Paper::Order => order_list(house, take_off),
            Paper::Quote => quote_sheets(house, drawn, choices),
            Paper::Board => board_charts(house),
            Paper::Tests => {
                test_sheets(house, &expected_tests(job.plan, job.runs, job.lengths, book))
            }
            Paper::Concealed => concealed_sheets(house),
            // Neither is a sheet of the set: both have files of their own.
            Paper::Page | Paper::Costing => Vec::new(),
        };
        set.extend(numbered(paper.name(), scenes));
    }
    Some(set)
}

/// Each circuit in space.
fn in_space(job: Revision<'_>, house: &House<'_>) -> Vec<(String, Scene)> {
    let circuits = job.plan.circuits.iter();
    let drawn = circuits.filter_map(|(id, circuit)| {
        let number = file_part(&house.marks.number(circuit));
        isometric(house, *id).map(|scene| (format!("isometric-{number}"), scene))
    });
    drawn.collect()
}

/// Floor sheets: all circuits of a level, or each by itself where it has
/// something there. What cannot be drawn is said, not skipped.
fn floors(
    job: Revision<'_>,
    drawn: &mut Floors<'_>,
    by_circuit: bool,
    watch: &Watch,
    said: &mut String,
) -> Vec<(String, Scene)> {
    let mut set = Vec::new();
    let marks = labels(job.plan);
    for id in job.plan.levels.keys() {
        let circuits: Vec<Option<_>> = if by_circuit {
            job.plan.circuits.keys().map(|circuit| Some(*circuit)).collect()
        } else {
            vec![None]
        };
        for circuit in circuits {
            if watch.is_stopped() {
                return set;
            }
            if circuit.is_some_and(|circuit| !is_on(job, circuit, *id)) {
                continue;
            }
            let options = FloorOptions { circuit, ..FloorOptions::of(*id) };
            let number = circuit
                .and_then(|id| job.plan.circuits.get(&id))
                .map_or_else(String::new, |it| format!("-{}", file_part(&marks.circuit(it))));
            match drawn.sheet(&options) {
                Ok(scene) => set.push((format!("floor-{id}{number}"), scene)),
                Err(error) => {
                    let _ = writeln!(said, "not drawn: {error}");
                }
            }
        }
    }
    set
}

/// Whether anything of a circuit is on a level: a point, or cable in its walls
/// or above it.
fn is_on(job: Revision<'_>, circuit: CircuitId, level: LevelId) -> bool {
    let plan = job.plan;
    let points = plan.points.values().filter(|point| point.circuit == Some(circuit));
    let mut places = points.filter_map(|point| point.place);
    let above = plan.levels.get(&level).map_or(&[][..], |level| &level.above);
    let legs = job.runs.circuits.get(&circuit).into_iter().flat_map(|run| &run.legs);
    let mut planes = legs.flat_map(|leg| &leg.route.segments).filter_map(|one| one.plane);
    places.any(|place| plan.level_of(&place) == Some(level))
        || planes.any(|plane| match plane {
            Plane::Wall(id) => plan.walls.get(&id).is_some_and(|wall| wall.level == level),
            Plane::Void(id) => above.contains(&id),
        })
}

/// A name as part of a file's: letters and digits, the rest as dashes.
fn file_part(name: &str) -> String {
    let sign = |sign: char| if sign.is_alphanumeric() { sign } else { '-' };
    name.chars().map(sign).collect()
}

/// Gives sheets whose files would have the same name names of their own.
fn apart(set: &mut [(String, Scene)]) {
    let mut taken: BTreeSet<String> = BTreeSet::new();
    for (name, _) in set {
        let first = name.clone();
        let mut count = 2;
        while !taken.insert(name.to_lowercase()) {
            *name = format!("{first}-{count}");
            count += 1;
        }
    }
}

/// Sheets of one paper with the names of their files.
fn numbered(name: &str, scenes: Vec<Scene>) -> Vec<(String, Scene)> {
    let numbered = scenes.into_iter().enumerate();
    numbered.map(|(index, scene)| (format!("{name}-{}", index + 1), scene)).collect()
}

/// What changed since an earlier revision.
fn variation(before: Revision<'_>, now: Revision<'_>, take_off: &TakeOff) -> Variation {
    let old = takeoff::take_off(before.plan, before.runs, before.lengths);
    compare(
        takeoff::Revision {
            plan: before.plan,
            runs: before.runs,
            lengths: before.lengths,
            take_off: &old,
        },
        takeoff::Revision { plan: now.plan, runs: now.runs, lengths: now.lengths, take_off },
    )
}
