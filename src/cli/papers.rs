//! `wirewend papers`: every paper of a job, written into a folder.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

use wirewend::checks::{check, everything, expected_tests, faults};
#[cfg(feature = "window")]
use wirewend::lengths::Lengths;
#[cfg(feature = "window")]
use wirewend::plan::Plan;
use wirewend::plan::{CircuitId, LevelId, Plane, Regime, labels};
use wirewend::rules::RuleBook;
#[cfg(feature = "window")]
use wirewend::runs::Runs;
use wirewend::runs::{Built, built};
use wirewend::sheet::{
    FloorOptions, Floors, House, List, Scene, board_charts, cable_list, concealed_sheets,
    costing_of_change, costing_sheets, cut_cards, cut_list, elevations, faults_in_words, isometric,
    number_sheets, order_list, point_list, quote_page, quote_sheets, reading_list, run_strips,
    say_faults, set_out_list, state_sheets, test_sheets, variation_sheets,
};
use wirewend::store;
use wirewend::takeoff::{
    self, Choices, ClientChoices, Revision, TakeOff, Variation, choices, compare, take_off,
};
use wirewend::units::Watch;

pub(crate) mod write;

use super::job::Job;
use super::keep;
use super::own_rules::OwnRules;

/// The papers by name, in the order of the set.
const NAMES: [&str; 11] = [
    "quote",
    "floors",
    "circuits",
    "elevations",
    "isometric",
    "strips",
    "cards",
    "order",
    "board",
    "tests",
    "concealed",
];

/// The quote as a page for a telephone, by name.
const PAGE: &str = "page";

/// The costing by name. It is not for the client: it goes into files of its
/// own, whose names say so, and is no part of `papers.pdf`.
const COSTING: &str = "costing";
const INTERNAL: &str = "internal-costing";

/// What to write.
pub(super) struct Wanted<'a> {
    /// These papers alone; all where it is empty.
    pub(super) only: &'a [String],
    /// Pictures of so many dots to the inch as well.
    pub(super) png: Option<u16>,
    /// An earlier revision: what changed since then goes first.
    pub(super) since: Option<&'a Path>,
    /// Tables of one's own.
    pub(super) rules: &'a OwnRules,
    /// Rules other than the plan says.
    pub(super) regime: Option<Regime>,
    /// Whether files of others may be replaced.
    pub(super) replace: bool,
}

/// Writes the papers of a plan into a folder and says what it wrote.
pub(super) fn run(path: &Path, folder: &Path, wanted: &Wanted<'_>) -> Result<String, String> {
    for name in wanted.only {
        if ![PAGE, COSTING].contains(&name.as_str()) && !NAMES.contains(&name.as_str()) {
            let names = NAMES.join(", ");
            return Err(format!("no paper \"{name}\"; there are {names}, {PAGE}, {COSTING}"));
        }
    }
    let (mut plan, source) = keep::read(path)?;
    let drawn = plan.clone();
    if let Some(regime) = wanted.regime {
        plan.project.regime = regime;
    }
    let book = wanted.rules.book()?;
    let job = Job::of(plan);
    let before = wanted.since.map(|path| store::read_file(path).map(Job::of)).transpose();
    let before = before.map_err(|error| error.to_string())?;
    let watch = Watch::default();
    let made = make(&job, before.as_ref(), &book, wanted.only, &watch);
    let made = made.ok_or("stopped before all was drawn")?;
    // Before the papers: what goes out must never be called anything else.
    let kept = super::issue::keep(path, (drawn, &source), &job.runs);
    let mut said = made.said.clone();
    let written = write::write(&made, &job.plan, folder, wanted.png, wanted.replace);
    let written = written.map_err(|why| why.to_string())?;
    said.push_str(&written.listed);
    said.push_str(&written.told);
    if let Some(words) = faults_in_words(made.faults) {
        let _ = writeln!(said, "{words}: see wirewend check {}", path.display());
    }
    Ok(said + &kept)
}

/// Papers ready to be shown or written.
#[derive(Debug)]
pub(crate) struct Papers {
    /// The sheets in their order, numbered, each with the name of its file.
    pub(crate) set: Vec<(String, Scene)>,
    /// The same of what is not for the client: never among the others.
    internal: Vec<(String, Scene)>,
    page: Option<String>,
    lists: Vec<List>,
    /// The job and what the set is.
    title: String,
    /// What was not drawn.
    pub(crate) said: String,
    /// How many faults every one of them tells of.
    pub(crate) faults: usize,
}

impl Papers {
    /// Every sheet as the contractor looks at them, what is internal last.
    #[cfg(feature = "window")]
    pub(crate) fn shown(&self) -> impl Iterator<Item = &(String, Scene)> {
        self.set.iter().chain(&self.internal)
    }
}

/// Every paper of a plan that is routed and measured.
#[cfg(feature = "window")]
pub(crate) fn all(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    book: &RuleBook,
    watch: &Watch,
) -> Option<Papers> {
    let job = Job { plan: plan.clone(), runs: runs.clone(), lengths: lengths.clone() };
    make(&job, None, book, &[], watch)
}

/// Makes them under a watch that counts them. None where it was stopped.
fn make(
    job: &Job,
    before: Option<&Job>,
    book: &RuleBook,
    only: &[String],
    watch: &Watch,
) -> Option<Papers> {
    watch.begin(NAMES.len() + 1);
    let checked = check(&job.plan, &job.runs, &job.lengths, book);
    let faults = faults(&everything(&job.plan, &job.runs, &checked, &[]));
    let house = House::new(&job.plan, &job.runs, &job.lengths).with_faults(faults);
    let take_off = take_off(&job.plan, &job.runs, &job.lengths);
    let wants = |name: &str| only.is_empty() || only.iter().any(|one| one == name);
    let choices = if ["quote", PAGE, COSTING].into_iter().any(wants) {
        choices(&job.plan, &take_off)
    } else {
        Choices { items: Vec::new(), quotes: Vec::new() }
    };
    let mut said = String::new();
    let mut floors = Floors::of(&job.plan, &job.runs, &job.lengths).marking(&checked);
    let client = choices.for_client();
    let made = (&take_off, &client, book);
    let mut set = papers(job, (&house, &mut floors), made, only, watch, &mut said)?;
    let mut internal = Vec::new();
    if wants(COSTING) {
        internal.extend(costing_sheets(&house, &take_off.quote, &choices));
    }
    if let Some(before) = before {
        let changes = variation(before, job, &take_off);
        let sheets = variation_sheets(&before.plan, &job.plan, &changes.for_client());
        set.splice(0..0, numbered("variation", sheets));
        if wants(COSTING) {
            internal.extend(costing_of_change(&before.plan, &job.plan, &changes));
        }
    }
    let mut internal = numbered(INTERNAL, internal);
    apart(&mut set);
    let built = built(&job.plan, &job.runs);
    number(&mut set, faults, &built);
    number(&mut internal, faults, &built);
    let page = wants(PAGE).then(|| quote_page(&house, &mut floors, &take_off.materials, &client));
    let mut lists = Vec::new();
    if only.is_empty() {
        let tests = expected_tests(&job.plan, &job.runs, &job.lengths, book);
        let cuts = &take_off.cuts;
        lists.extend([cut_list(&house, cuts), point_list(&house), cable_list(&house, cuts)]);
        lists.extend([reading_list(&house, &tests), set_out_list(&house)]);
    }
    let title = title(&job.plan.project.title, only);
    Some(Papers { set, internal, page, lists, title, said, faults })
}

/// The job, and which papers where not all.
fn title(job: &str, only: &[String]) -> String {
    let set = if only.is_empty() { "papers".to_owned() } else { only.join(", ") };
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
fn papers(
    job: &Job,
    (house, drawn): (&House<'_>, &mut Floors<'_>),
    (take_off, choices, book): (&TakeOff, &ClientChoices, &RuleBook),
    only: &[String],
    watch: &Watch,
    said: &mut String,
) -> Option<Vec<(String, Scene)>> {
    let mut set: Vec<(String, Scene)> = Vec::new();
    for name in NAMES {
        watch.step();
        if watch.is_stopped() {
            return None;
        }
        if !only.is_empty() && !only.iter().any(|one| one == name) {
            continue;
        }
        match name {
            "floors" => set.extend(floors(job, drawn, false, watch, said)),
            "circuits" => set.extend(floors(job, drawn, true, watch, said)),
            "isometric" => {
                for (id, circuit) in &job.plan.circuits {
                    let scene = isometric(house, *id);
                    let number = file_part(&house.marks.number(circuit));
                    set.extend(scene.map(|one| (format!("isometric-{number}"), one)));
                }
            }
            name => {
                let scenes = match name {
                    "elevations" => elevations(house),
                    "strips" => run_strips(house),
                    "cards" => cut_cards(house, &take_off.cuts),
                    "order" => order_list(house, take_off),
                    "quote" => quote_sheets(house, drawn, choices),
                    "board" => board_charts(house),
                    "tests" => test_sheets(
                        house,
                        &expected_tests(&job.plan, &job.runs, &job.lengths, book),
                    ),
                    _ => concealed_sheets(house),
                };
                set.extend(numbered(name, scenes));
            }
        }
    }
    Some(set)
}

/// Floor sheets: all circuits of a level, or each by itself where it has
/// something there. What cannot be drawn is said, not skipped.
fn floors(
    job: &Job,
    drawn: &mut Floors<'_>,
    by_circuit: bool,
    watch: &Watch,
    said: &mut String,
) -> Vec<(String, Scene)> {
    let mut set = Vec::new();
    let marks = labels(&job.plan);
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
fn is_on(job: &Job, circuit: CircuitId, level: LevelId) -> bool {
    let plan = &job.plan;
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
fn variation(before: &Job, now: &Job, take_off: &TakeOff) -> Variation {
    let old = takeoff::take_off(&before.plan, &before.runs, &before.lengths);
    compare(
        Revision {
            plan: &before.plan,
            runs: &before.runs,
            lengths: &before.lengths,
            take_off: &old,
        },
        Revision { plan: &now.plan, runs: &now.runs, lengths: &now.lengths, take_off },
    )
}
