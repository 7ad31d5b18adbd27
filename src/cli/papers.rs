//! `wirewend papers`: every paper of a job, written into a folder.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::path::Path;

use wirewend::checks::{check, expected_tests};
#[cfg(feature = "window")]
use wirewend::lengths::Lengths;
#[cfg(feature = "window")]
use wirewend::plan::Plan;
use wirewend::plan::{CircuitId, LevelId, Plane, Regime, labels};
use wirewend::rules::RuleBook;
#[cfg(feature = "window")]
use wirewend::runs::Runs;
use wirewend::sheet::{
    FloorOptions, Floors, House, List, Scene, board_charts, cable_list, concealed_sheets, csv,
    cut_cards, cut_list, dxf, elevations, isometric, number_sheets, order_list, pdf, png,
    point_list, quote_page, quote_sheets, reading_list, run_strips, svg, test_sheets,
    variation_sheets, workbook,
};
use wirewend::store;
use wirewend::takeoff::{self, Choices, Revision, TakeOff, choices, compare, take_off};
use wirewend::units::Watch;

use super::job::Job;

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

/// What to write.
pub(super) struct Wanted<'a> {
    /// These papers alone; all where it is empty.
    pub(super) only: &'a [String],
    /// Pictures of so many dots to the inch as well.
    pub(super) png: Option<u16>,
    /// An earlier revision: what changed since then goes first.
    pub(super) since: Option<&'a Path>,
    /// A folder of tables of one's own.
    pub(super) rules: Option<&'a Path>,
    /// Rules other than the plan says.
    pub(super) regime: Option<Regime>,
}

/// Writes the papers of a plan into a folder and says what it wrote.
pub(super) fn run(path: &Path, folder: &Path, wanted: &Wanted<'_>) -> Result<String, String> {
    for name in wanted.only {
        if name != PAGE && !NAMES.contains(&name.as_str()) {
            return Err(format!("no paper \"{name}\"; there are {}, {PAGE}", NAMES.join(", ")));
        }
    }
    let mut plan = store::read_file(path).map_err(|error| error.to_string())?;
    if let Some(regime) = wanted.regime {
        plan.project.regime = regime;
    }
    let book = super::check::rules(wanted.rules)?;
    let job = Job::of(plan);
    let before = wanted.since.map(|path| store::read_file(path).map(Job::of)).transpose();
    let before = before.map_err(|error| error.to_string())?;
    let watch = Watch::default();
    let made = make(&job, before.as_ref(), &book, wanted.only, &watch);
    let made = made.ok_or("stopped before all was drawn")?;
    let mut said = made.said.clone();
    write(&made, folder, wanted.png, &mut said)?;
    Ok(said)
}

/// Papers ready to be shown or written.
#[derive(Debug)]
pub(crate) struct Papers {
    /// The sheets in their order, numbered, each with the name of its file.
    pub(crate) set: Vec<(String, Scene)>,
    page: Option<String>,
    lists: Vec<List>,
    /// The job and what the set is.
    title: String,
    /// What was not drawn.
    pub(crate) said: String,
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
    let house = House::new(&job.plan, &job.runs, &job.lengths);
    let take_off = take_off(&job.plan, &job.runs, &job.lengths);
    let wants = |name: &str| only.is_empty() || only.iter().any(|one| one == name);
    let choices = if wants("quote") || wants(PAGE) {
        choices(&job.plan, &take_off)
    } else {
        Choices { items: Vec::new(), quotes: Vec::new() }
    };
    let mut said = String::new();
    let checked = check(&job.plan, &job.runs, &job.lengths, book);
    let mut floors = Floors::of(&job.plan, &job.runs, &job.lengths).marking(&checked);
    let made = (&take_off, &choices, book);
    let mut set = papers(job, (&house, &mut floors), made, only, watch, &mut said)?;
    if let Some(before) = before {
        set.splice(0..0, numbered("variation", variation(before, job, &take_off)));
    }
    apart(&mut set);
    number(&mut set);
    let page = wants(PAGE).then(|| quote_page(&house, &mut floors, &take_off, &choices));
    let mut lists = Vec::new();
    if only.is_empty() {
        let tests = expected_tests(&job.plan, &job.runs, &job.lengths, book);
        let cuts = &take_off.cuts;
        lists.extend([cut_list(&house, cuts), point_list(&house), cable_list(&house, cuts)]);
        lists.push(reading_list(&house, &tests));
    }
    let title = title(&job.plan.project.title, only);
    Some(Papers { set, page, lists, title, said })
}

/// The job, and which papers where not all.
fn title(job: &str, only: &[String]) -> String {
    let set = if only.is_empty() { "papers".to_owned() } else { only.join(", ") };
    if job.is_empty() { set } else { format!("{job}: {set}") }
}

fn number(set: &mut [(String, Scene)]) {
    let mut scenes: Vec<Scene> = set.iter().map(|(_, scene)| scene.clone()).collect();
    number_sheets(&mut scenes);
    for (one, numbered) in set.iter_mut().zip(scenes) {
        one.1 = numbered;
    }
}

/// Writes papers into a folder and notes what it wrote.
pub(crate) fn write(
    papers: &Papers,
    folder: &Path,
    dots: Option<u16>,
    said: &mut String,
) -> Result<(), String> {
    std::fs::create_dir_all(folder).map_err(|error| format!("{}: {error}", folder.display()))?;
    let mut save = |name: &str, bytes: &[u8]| -> Result<(), String> {
        let path = folder.join(name);
        std::fs::write(&path, bytes).map_err(|error| format!("{}: {error}", path.display()))?;
        let _ = writeln!(said, "{}", path.display());
        Ok(())
    };
    for (name, scene) in &papers.set {
        save(&format!("{name}.svg"), svg(scene).as_bytes())?;
        if name.starts_with("floor") {
            save(&format!("{name}.dxf"), &dxf(scene))?;
        }
        if let Some(dots) = dots {
            save(&format!("{name}.png"), &png(scene, f64::from(dots))?)?;
        }
    }
    if !papers.set.is_empty() {
        let scenes: Vec<Scene> = papers.set.iter().map(|(_, scene)| scene.clone()).collect();
        save("papers.pdf", &pdf(&scenes, &papers.title))?;
    }
    if let Some(page) = &papers.page {
        save("quote.html", page.as_bytes())?;
    }
    for list in &papers.lists {
        save(&format!("{}.csv", list.name), csv(list).as_bytes())?;
    }
    if !papers.lists.is_empty() {
        save("lists.xlsx", &workbook(&papers.lists)?)?;
    }
    Ok(())
}

/// The sheets of the papers asked for, each with the name of its file.
fn papers(
    job: &Job,
    (house, drawn): (&House<'_>, &mut Floors<'_>),
    (take_off, choices, book): (&TakeOff, &Choices, &RuleBook),
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
fn variation(before: &Job, now: &Job, take_off: &TakeOff) -> Vec<Scene> {
    let old = takeoff::take_off(&before.plan, &before.runs, &before.lengths);
    let changes = compare(
        Revision {
            plan: &before.plan,
            runs: &before.runs,
            lengths: &before.lengths,
            take_off: &old,
        },
        Revision { plan: &now.plan, runs: &now.runs, lengths: &now.lengths, take_off },
    );
    variation_sheets(&before.plan, &now.plan, &changes)
}
