//! Layouts by others: all of them are read, drafted, written and read back.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails by panicking")]

use std::fs;
use std::path::{Path, PathBuf};

use serde_json::Value;
use wirewend::draft::{DraftOptions, draft};
use wirewend::plan::*;
use wirewend::rules::RuleBook;
use wirewend::store::{LayoutNote, LayoutOptions, LayoutReport, NoteKind, read_layout};

use crate::fixtures::{self, folder};
use crate::outside::{self, not_checked};
use crate::sound::problems;

/// The layouts of this project, and their names.
pub(crate) fn ours() -> Vec<(String, String)> {
    let mut files = json_files(&folder().join("layouts"));
    files.extend(json_files(&folder().join("layouts").join("cc-by-sa")));
    files
}

/// The layouts that are only read where the folder of outside data is at
/// hand: their terms do not let them be copied here.
pub(crate) fn outside() -> Vec<(String, String)> {
    let mut files = json_files(&outside::folder().join("plans"));
    files.retain(|(name, _)| name.starts_with("swiss_"));
    if files.is_empty() {
        not_checked("no plans/swiss_….json in the folder of outside data; set WIREWEND_DATA");
    }
    files
}

fn json_files(folder: &Path) -> Vec<(String, String)> {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder)
        .into_iter()
        .flatten()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .collect();
    paths.sort();
    let read = |path: PathBuf| {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        (name, fs::read_to_string(path).unwrap())
    };
    paths.into_iter().map(read).collect()
}

pub(crate) fn read(text: &str) -> (Plan, LayoutReport) {
    read_layout(text, &LayoutOptions::default()).unwrap()
}

/// The same plan with points, boards and circuits.
pub(crate) fn drafted(bare: Plan) -> Plan {
    draft(bare, &RuleBook::shipped(), &DraftOptions::default()).unwrap().plan
}

/// How many entries of a list in all levels of the source there are.
fn in_source(source: &Value, list: &str, counts: impl Fn(&Value) -> bool) -> usize {
    let levels = source["levels"].as_array().unwrap();
    levels.iter().flat_map(|level| level[list].as_array().unwrap()).filter(|e| counts(e)).count()
}

fn left_out(report: &LayoutReport, list: &str) -> usize {
    let part = format!(".{list}[");
    let of_list = |note: &&LayoutNote| note.kind == NoteKind::LeftOut && note.part.contains(&part);
    report.notes.iter().filter(of_list).count()
}

fn check(name: &str, text: &str) {
    let source: Value = serde_json::from_str(text).unwrap();
    let (plan, report) = read(text);
    assert_eq!(problems(&plan), Vec::<String>::new(), "{name} as read");
    assert_eq!(plan.levels.len(), source["levels"].as_array().unwrap().len(), "{name}: levels");
    counts_agree(name, &source, &plan, &report);
    let drafted = drafted(plan);
    assert!(drafted.points.len() > 30, "{name}: {} points", drafted.points.len());
    let text = fixtures::text(&drafted);
    assert_eq!(fixtures::read(&text), drafted, "{name} reads back as it was written");
}

/// What is in the plan and what the report says was left out make up the
/// source, and only strays are left out.
fn counts_agree(name: &str, source: &Value, plan: &Plan, report: &LayoutReport) {
    let openings = |kinds: &[OpeningKind]| {
        plan.openings.values().filter(|opening| kinds.contains(&opening.kind)).count()
    };
    let doors = openings(&[OpeningKind::Door, OpeningKind::SlidingDoor]);
    let windows = openings(&[OpeningKind::Window]);
    let of_kind = |kind: &str| in_source(source, "openings", |opening| opening["kind"] == kind);
    let walls = in_source(source, "walls", |_| true);
    let rooms = in_source(source, "rooms", |room| room["type"] != "SLAB");
    let all = in_source(source, "openings", |_| true);
    let (no_wall, no_opening) = (left_out(report, "walls"), left_out(report, "openings"));
    assert_eq!(plan.walls.len() + no_wall, walls, "{name}: walls");
    assert_eq!(plan.openings.len() + no_opening, all, "{name}: openings");
    assert_eq!(plan.rooms.len(), rooms, "{name}: rooms");
    assert!(no_wall * 20 <= walls, "{name}: {no_wall} of {walls} walls left out");
    assert!(no_opening * 20 <= all, "{name}: {no_opening} of {all} openings left out");
    let (all_doors, all_windows) = (of_kind("door"), of_kind("window"));
    assert!(doors <= all_doors && all_doors <= doors + no_opening, "{name}: doors");
    assert!(windows <= all_windows && all_windows <= windows + no_opening, "{name}: windows");
}

#[test]
fn our_layouts_are_read_and_written_back() {
    let layouts = ours();
    assert_eq!(layouts.len(), 6, "five layouts and the one under CC BY-SA");
    for (name, text) in layouts {
        check(&name, &text);
    }
}

#[test]
fn outside_layouts_are_read_and_written_back() {
    for (name, text) in outside() {
        check(&name, &text);
    }
}

#[test]
fn every_layout_that_we_copied_says_its_terms() {
    for (name, text) in ours() {
        let licence = match name.as_str() {
            "open_smart_home_flat" => folder().join("layouts/cc-by-sa/LICENCE.txt"),
            _ => folder().join(format!("layouts/{name}.licence.txt")),
        };
        let licence = fs::read_to_string(&licence).unwrap();
        assert!(licence.contains(&format!("{name}.json")), "{name}: its terms name it");
        let (plan, _) = read(&text);
        assert!(plan.project.notes.contains("Layout: "), "{name}: the plan names its source");
    }
}

#[test]
fn most_ends_of_walls_meet_once_they_are_read() {
    // Sources of these two draw every wall up to the next wall's face, so
    // nearly none would meet if they were taken over as they stand.
    for (name, text) in ours() {
        if !["large_two_block", "open_smart_home_flat"].contains(&name.as_str()) {
            continue;
        }
        let (plan, _) = read(&text);
        let meets = |id: &WallId, wall: &Wall, end| {
            plan.walls
                .iter()
                .filter(|(other, met)| *other != id && met.level == wall.level)
                .any(|(_, met)| met.a.distance(end) + end.distance(met.b) - met.length() < 2.0)
        };
        let ends =
            plan.walls.iter().flat_map(|(id, wall)| [(id, wall, wall.a), (id, wall, wall.b)]);
        let loose = ends.filter(|(id, wall, end)| !meets(id, wall, *end)).count();
        assert!(loose * 10 <= plan.walls.len(), "{name}: {loose} loose ends");
    }
}
