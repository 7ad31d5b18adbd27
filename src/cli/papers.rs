//! `wirewend papers`: every paper of a job, written into a folder.

use std::fmt::Write as _;
use std::path::Path;

use wirewend::checks::expected_tests;
#[cfg(feature = "window")]
use wirewend::lengths::Lengths;
use wirewend::plan::{End, Plan, PointId};
use wirewend::rules::RuleBook;
#[cfg(feature = "window")]
use wirewend::runs::Runs;
use wirewend::sheet::{
    FloorOptions, House, List, Scene, board_charts, cable_list, concealed_sheets, csv, cut_cards,
    cut_list, dxf, elevations, floor_sheet, isometric, number_sheets, order_list, pdf, png,
    point_list, quote_sheets, run_strips, svg, test_sheets, variation_sheets, workbook,
};
use wirewend::store;
use wirewend::takeoff::{self, Quote, Revision, TakeOff, compare, take_off};

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

/// What to write.
pub(super) struct Wanted<'a> {
    /// These papers alone; all where it is empty.
    pub(super) only: &'a [String],
    /// Pictures of so many dots to the inch as well.
    pub(super) png: Option<u16>,
    /// An earlier revision: what changed since then goes first.
    pub(super) since: Option<&'a Path>,
}

/// Writes the papers of a plan into a folder and says what it wrote.
pub(super) fn run(path: &Path, folder: &Path, wanted: &Wanted<'_>) -> Result<String, String> {
    for name in wanted.only {
        if !NAMES.contains(&name.as_str()) {
            return Err(format!("no paper \"{name}\"; there are {}", NAMES.join(", ")));
        }
    }
    let plan = store::read_file(path).map_err(|error| error.to_string())?;
    let job = Job::of(plan);
    let house = House::new(&job.plan, &job.runs, &job.lengths);
    let before = wanted.since.map(|path| store::read_file(path).map(Job::of)).transpose();
    let before = before.map_err(|error| error.to_string())?;
    let mut said = String::new();
    let take_off = take_off(&job.plan, &job.runs, &job.lengths);
    let mut set = papers(&job, &house, &take_off, wanted.only, &mut said);
    if let Some(before) = &before {
        set.splice(0..0, numbered("variation", variation(before, &job, &take_off)));
    }
    number(&mut set);
    let lists = wanted.only.is_empty().then_some(&house);
    write(&set, lists, folder, wanted.png, &mut said)?;
    Ok(said)
}

/// Every paper of a plan that is routed and measured, in the order of the set
/// and numbered, each with the name of its file; and what was not drawn.
#[cfg(feature = "window")]
pub(crate) fn all(plan: &Plan, runs: &Runs, lengths: &Lengths) -> (Vec<(String, Scene)>, String) {
    let job = Job { plan: plan.clone(), runs: runs.clone(), lengths: lengths.clone() };
    let house = House::new(&job.plan, &job.runs, &job.lengths);
    let take_off = take_off(&job.plan, &job.runs, &job.lengths);
    let mut said = String::new();
    let mut set = papers(&job, &house, &take_off, &[], &mut said);
    number(&mut set);
    (set, said)
}

fn number(set: &mut [(String, Scene)]) {
    let mut scenes: Vec<Scene> = set.iter().map(|(_, scene)| scene.clone()).collect();
    number_sheets(&mut scenes);
    for (one, numbered) in set.iter_mut().zip(scenes) {
        one.1 = numbered;
    }
}

/// Writes papers into a folder, with the lists of a house where they are
/// wanted, and notes what it wrote.
pub(crate) fn write(
    set: &[(String, Scene)],
    lists: Option<&House<'_>>,
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
    for (name, scene) in set {
        save(&format!("{name}.svg"), svg(scene).as_bytes())?;
        if name.starts_with("floor") {
            save(&format!("{name}.dxf"), dxf(scene).as_bytes())?;
        }
        if let Some(dots) = dots {
            save(&format!("{name}.png"), &png(scene, f64::from(dots))?)?;
        }
    }
    if !set.is_empty() {
        let scenes: Vec<Scene> = set.iter().map(|(_, scene)| scene.clone()).collect();
        save("papers.pdf", &pdf(&scenes))?;
    }
    if let Some(house) = lists {
        let lists: [List; 3] = [cut_list(house), point_list(house), cable_list(house)];
        for list in &lists {
            save(&format!("{}.csv", list.name), csv(list).as_bytes())?;
        }
        save("lists.xlsx", &workbook(&lists)?)?;
    }
    Ok(())
}

/// The sheets of the papers asked for, each with the name of its file.
fn papers(
    job: &Job,
    house: &House<'_>,
    take_off: &TakeOff,
    only: &[String],
    said: &mut String,
) -> Vec<(String, Scene)> {
    let mut set: Vec<(String, Scene)> = Vec::new();
    for name in NAMES {
        if !only.is_empty() && !only.iter().any(|one| one == name) {
            continue;
        }
        match name {
            "floors" => set.extend(floors(job, false, said)),
            "circuits" => set.extend(floors(job, true, said)),
            "isometric" => {
                for (id, circuit) in &job.plan.circuits {
                    let scene = isometric(house, *id);
                    set.extend(scene.map(|one| (format!("isometric-{}", circuit.number), one)));
                }
            }
            name => {
                let scenes = match name {
                    "elevations" => elevations(house),
                    "strips" => run_strips(house),
                    "cards" => cut_cards(house),
                    "order" => order_list(house, take_off),
                    "quote" => {
                        let without = without_optional(&job.plan);
                        quote_sheets(house, &take_off.quote, without.as_ref())
                    }
                    "board" => board_charts(house),
                    "tests" => {
                        let book = RuleBook::shipped();
                        let tests = expected_tests(&job.plan, &job.runs, &job.lengths, &book);
                        test_sheets(house, &tests)
                    }
                    _ => concealed_sheets(house),
                };
                set.extend(numbered(name, scenes));
            }
        }
    }
    set
}

/// Floor sheets: all circuits of a level, or each by itself. What cannot be
/// drawn is said, not skipped.
fn floors(job: &Job, by_circuit: bool, said: &mut String) -> Vec<(String, Scene)> {
    let mut set = Vec::new();
    for id in job.plan.levels.keys() {
        let circuits: Vec<Option<_>> = if by_circuit {
            job.plan.circuits.keys().map(|circuit| Some(*circuit)).collect()
        } else {
            vec![None]
        };
        for circuit in circuits {
            let options = FloorOptions { circuit, ..FloorOptions::of(*id) };
            let number = circuit
                .and_then(|id| job.plan.circuits.get(&id))
                .map_or_else(String::new, |circuit| format!("-circuit-{}", circuit.number));
            match floor_sheet(&job.plan, &job.runs, &job.lengths, &options) {
                Ok(scene) => set.push((format!("floor-{id}{number}"), scene)),
                Err(error) => {
                    let _ = writeln!(said, "not drawn: {error}");
                }
            }
        }
    }
    set
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
        Revision { plan: &before.plan, lengths: &before.lengths, take_off: &old },
        Revision { plan: &now.plan, lengths: &now.lengths, take_off },
    );
    variation_sheets(&before.plan, &now.plan, &changes)
}

/// The quote of the same house without what its client may leave out. None
/// where nothing is optional.
fn without_optional(plan: &Plan) -> Option<Quote> {
    let optional = |id: &PointId| plan.points.get(id).is_some_and(|point| point.optional);
    if !plan.points.keys().any(optional) {
        return None;
    }
    let mut less = plan.clone();
    less.points.retain(|id, _| !optional(id));
    for circuit in less.circuits.values_mut() {
        let end = |end: &End| matches!(end, End::Point(id) if optional(id));
        circuit.order.retain(|id| !optional(id));
        circuit.spurs.retain(|spur| !optional(&spur.point) && !end(&spur.from));
        circuit.pins.retain(|pin| !end(&pin.from) && !end(&pin.to));
    }
    for control in less.controls.values_mut() {
        control.lights.retain(|id| !optional(id));
        control.switches.retain(|id| !optional(id));
    }
    less.controls.retain(|_, one| !one.lights.is_empty() && !one.switches.is_empty());
    let job = Job::of(less);
    Some(takeoff::take_off(&job.plan, &job.runs, &job.lengths).quote)
}
