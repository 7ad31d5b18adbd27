//! Whatever papers call a wall stands on the drawings, beside that wall.

use std::collections::BTreeSet;
use std::path::PathBuf;

use kurbo::{Point, Shape as _};
use wirewend::lengths::{self, Lengths};
use wirewend::plan::{Face, LevelId, Plan, Subject, Wall, WallId, faces};
use wirewend::runs::{self, Runs, chain::Effort};
use wirewend::sheet::{
    FloorOptions, Floors, Group, House, Item, Layer, Scene, bare_floor, concealed_sheets,
    cut_cards, cut_list, elevations, isometric, leg_words, point_list, quote_sheets, run_strips,
};
use wirewend::space::Space;
use wirewend::store;
use wirewend::takeoff::{choices, take_off};

use crate::fixtures::{local, shipped_rules};
use crate::generate::generated_plan;
use crate::on_paper::{groups, texts};

struct Job {
    name: String,
    plan: Plan,
    runs: Runs,
    lengths: Lengths,
}

fn job(name: &str, plan: Plan) -> Job {
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    Job { name: name.to_owned(), plan, runs, lengths }
}

fn fixtures() -> Vec<Job> {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("fixtures");
    ["cottage", "flat", "terrace", "townhouse", "half_drawn"]
        .map(|name| job(name, store::read_file(&folder.join(format!("{name}.wend"))).unwrap()))
        .into()
}

/// Every name of a wall in a text: `W6`, `W6b`, `W6+W9b`.
fn names(text: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for word in
        text.split(|sign: char| !(sign.is_ascii_alphanumeric() || sign == '+' || sign == '-'))
    {
        let is_name = |part: &str| {
            let rest = part.strip_prefix('W').unwrap_or("");
            let digits = rest.trim_end_matches(|sign: char| sign.is_ascii_lowercase());
            !digits.is_empty() && digits.bytes().all(|one| one.is_ascii_digit())
        };
        if word.split('+').all(is_name) {
            found.insert(word.to_owned());
        }
    }
    found
}

fn said(scenes: &[Scene]) -> BTreeSet<String> {
    scenes
        .iter()
        .flat_map(|scene| texts(&scene.items))
        .flat_map(|one| names(&one.content))
        .collect()
}

/// What is lettered on its own as the name of a wall, legends left out.
fn lettered(items: &[Item]) -> BTreeSet<String> {
    let walls = groups(items).into_iter().filter(|group| {
        group.layer == Layer::Labels && matches!(group.subject, Some(Subject::Wall(_)))
    });
    let said = walls.flat_map(|group| texts(&group.items)).map(|text| text.content.clone());
    said.filter(|text| names(text).contains(text)).collect()
}

fn marks_of_points(job: &Job) -> BTreeSet<String> {
    // Points that are marked like walls would be taken for them.
    let marks = wirewend::plan::labels(&job.plan);
    job.plan.points.keys().map(|id| marks.point(*id).to_owned()).collect()
}

#[test]
fn every_name_of_a_wall_on_papers_stands_on_the_drawings() {
    let mut counted = 0;
    for job in fixtures() {
        let house = House::new(&job.plan, &job.runs, &job.lengths, local(&job.plan));
        let mut wanted = said(&elevations(&house));
        wanted.extend(said(&concealed_sheets(&house)));
        wanted.extend(said(&run_strips(&house)));
        let cuts = take_off(&job.plan, &job.runs, &job.lengths, shipped_rules()).cuts;
        wanted.extend(said(&cut_cards(&house, &cuts)));
        for list in [cut_list(&house, &cuts), point_list(&house)] {
            wanted.extend(list.rows.iter().flatten().flat_map(|value| names(&value.text())));
        }
        let marks = marks_of_points(&job);
        wanted.retain(|name| !marks.contains(name));
        let mut floors = Floors::of(&job.plan, &job.runs, &job.lengths, local(&job.plan));
        let mut on_floors: BTreeSet<String> = BTreeSet::new();
        let mut by_level: Vec<(String, BTreeSet<String>)> = Vec::new();
        for (id, level) in &job.plan.levels {
            let Ok(scene) = floors.sheet(&FloorOptions::of(*id)) else { continue };
            on_floors.extend(lettered(&scene.items));
            by_level.push((level.name.clone(), lettered(&scene.items)));
        }
        let missing: Vec<&String> = wanted.difference(&on_floors).collect();
        assert!(missing.is_empty(), "{}: not on the floor sheets: {missing:?}", job.name);
        counted += wanted.len();
        // The drawing of the quote has all that its list names.
        let taken = take_off(&job.plan, &job.runs, &job.lengths, shipped_rules());
        let sheets = quote_sheets(
            &house,
            &mut floors,
            &choices(&job.plan, &taken, shipped_rules()).for_client(),
        );
        let (drawn, listed): (Vec<Scene>, Vec<Scene>) =
            sheets.into_iter().partition(|scene| scene.scale.is_some());
        for scene in &drawn {
            let level = by_level.iter().find(|(name, _)| scene.title.starts_with(name.as_str()));
            let (_, floor) = level.unwrap();
            assert_eq!(&lettered(&scene.items), floor, "{}: {}", job.name, scene.title);
        }
        let drawn: BTreeSet<String> =
            drawn.iter().flat_map(|scene| lettered(&scene.items)).collect();
        let mut listed = said(&listed);
        listed.retain(|name| !marks.contains(name));
        let missing: Vec<&String> = listed.difference(&drawn).collect();
        assert!(missing.is_empty(), "{}: not on the quote's drawing: {missing:?}", job.name);
        for (id, run) in &job.runs.circuits {
            let Some(scene) = isometric(&house, *id) else { continue };
            let shown = lettered(&scene.items);
            for index in 0..run.legs.len() {
                let words = leg_words(&house, *id, index).unwrap();
                let told = names(&words.way);
                assert!(told.is_subset(&words.walls), "{told:?} of {:?}", words.walls);
                let missing: Vec<&String> = words.walls.difference(&shown).collect();
                assert!(missing.is_empty(), "{}: circuit {id} in space: {missing:?}", job.name);
            }
        }
    }
    assert!(counted > 80, "{counted} names");
}

/// Where a name points: the end of its leader, else its middle, mm of the plan
/// at 1:50 about its origin.
fn points_at(group: &Group) -> ((f64, f64), bool) {
    let dot = group.items.iter().rev().find_map(|item| match item {
        Item::Path(mark) if mark.fill.is_some() => Some(mark.path.bounding_box().center()),
        _ => None,
    });
    let text = texts(&group.items)[0].bounds();
    // Its letters have no descenders.
    let middle = Point::new(text.center().x, text.center().y);
    let at = dot.unwrap_or(middle);
    ((at.x * 50.0, -at.y * 50.0), dot.is_some())
}

/// From a place to a face of a wall, mm.
fn away(wall: &Wall, side: Face, (x, y): (f64, f64)) -> f64 {
    let ((dx, dy), (nx, ny)) = (wall.direction(), wall.normal(side));
    let half = wall.thickness.to_f64() / 2.0;
    let (px, py) = (x - wall.a.x.to_f64() - nx * half, y - wall.a.y.to_f64() - ny * half);
    let along = (px * dx + py * dy).clamp(-half, wall.length() + half);
    libm::hypot(px - dx * along, py - dy * along)
}

/// Names beside other walls than their own, and how many were looked at.
fn astray(job: &Job, level: LevelId) -> (Vec<String>, usize) {
    let options = FloorOptions::of(level);
    let items = bare_floor(&job.plan, &job.runs, &job.lengths, &options, true).unwrap();
    let all = faces(&job.plan);
    let mut complaints = Vec::new();
    let mut count = 0;
    let named = groups(&items).into_iter().filter(|group| {
        group.layer == Layer::Labels && matches!(group.subject, Some(Subject::Wall(_)))
    });
    for group in named {
        count += 1;
        let says = texts(&group.items)[0].content.clone();
        let (at, is_led) = points_at(group);
        let walls = job.plan.walls.iter().filter(|(_, wall)| wall.level == level);
        let sides = walls.flat_map(|(id, wall)| {
            [Face::Left, Face::Right].map(|side| (away(wall, side, at), *id, side))
        });
        let mut sides: Vec<(f64, WallId, Face)> = sides.collect();
        sides.sort_by(|a, b| a.0.total_cmp(&b.0));
        let is_own = |(_, wall, side): &(f64, WallId, Face)| {
            let mut pieces = all.of(*wall, *side).filter(|piece| piece.name == says);
            pieces.next().is_some()
        };
        let nearest = sides[0].0;
        // Faces of walls in one line, and of walls that meet there, are as near.
        let own = sides.iter().take_while(|one| one.0 <= nearest + 25.0).any(is_own);
        if !own {
            complaints.push(format!("{says} at {at:?}, led {is_led}: beside {:?}", sides[0]));
        }
        // Its letters, not their middle: what is level beside a slanting face
        // is long.
        let box_of = texts(&group.items)[0].bounds();
        let shares = [0.0, 0.25, 0.5, 0.75, 1.0];
        let places = shares.iter().flat_map(|x| shares.map(|y| (*x, y))).map(|(x, y)| {
            ((box_of.x0 + box_of.width() * x) * 50.0, -(box_of.y0 + box_of.height() * y) * 50.0)
        });
        let close = places
            .flat_map(|place| sides.iter().filter(|one| is_own(one)).map(move |one| (place, one)))
            .map(|(place, (_, id, side))| away(&job.plan.walls[id], *side, place))
            .fold(f64::MAX, f64::min);
        let reach = if is_led { nearest <= 60.0 } else { close <= 120.0 };
        if !reach {
            complaints.push(format!("{says} stands {close} mm from its face, led {is_led}"));
        }
    }
    (complaints, count)
}

#[test]
fn names_of_walls_stand_beside_them() {
    let mut count = 0;
    let mut complaints: Vec<String> = Vec::new();
    let generated = (0..40).map(|seed| job(&format!("seed {seed}"), generated_plan(seed)));
    for job in fixtures().into_iter().chain(generated) {
        for level in job.plan.levels.keys() {
            let (astray, looked_at) = astray(&job, *level);
            complaints.extend(astray.into_iter().map(|one| format!("{}: {one}", job.name)));
            count += looked_at;
        }
    }
    let share = complaints.len();
    assert!(share == 0, "{share} of {count}:\n{}", complaints.join("\n"));
    assert!(count > 500, "{count} names");
}
