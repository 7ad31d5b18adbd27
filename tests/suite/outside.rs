//! Data of others that may not be copied here: in the folder named by
//! `WIREWEND_DATA`, or else in `../shared/data`. A test whose data are absent
//! says that it has not checked, on the standard error stream itself, which the
//! harness neither catches nor hides; `.ci/run` says all of it again at its end.

use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::Command;

/// Where the data are looked for.
const FOLDER: &str = "WIREWEND_DATA";

/// The folder of outside data, there or not.
pub(crate) fn folder() -> PathBuf {
    let beside = || Path::new(env!("CARGO_MANIFEST_DIR")).join("../shared/data");
    std::env::var_os(FOLDER).map_or_else(beside, PathBuf::from)
}

/// A file of outside data; where it is absent, that is said.
pub(crate) fn bytes(path: &str) -> Option<Vec<u8>> {
    let read = std::fs::read(folder().join(path)).ok();
    if read.is_none() {
        not_checked(&format!("no {path} in the folder of outside data; set {FOLDER}"));
    }
    read
}

/// The same as text.
pub(crate) fn text(path: &str) -> Option<String> {
    bytes(path).map(|bytes| String::from_utf8(bytes).expect("a text"))
}

/// Says that a test leaves something out, and what it lacks.
pub(crate) fn not_checked(lacking: &str) {
    let thread = std::thread::current();
    let line = format!("not checked: {}: {lacking}\n", thread.name().unwrap_or("a test"));
    // A stream that nobody reads any more is no reason to fail.
    let _ = std::io::stderr().lock().write_all(line.as_bytes());
}

/// The tests that hold nothing where there are no outside data.
const BY_OUTSIDE_DATA: [&str; 10] = [
    "draft::outside_layouts_are_drafted_without_a_fault",
    "grouping::published_tours_are_found_to_their_known_optimum_or_within_one_percent",
    "imports::drawings::a_working_drawing_by_others_is_understood",
    "layouts::outside_layouts_are_read_and_written_back",
    "published_orders::chains_lie_between_published_steiner_trees_and_twice_the_spanning_tree",
    "published_orders::open_chains_meet_derived_values",
    "published_orders::open_chains_meet_published_tours_by_way_of_a_copy",
    "published_orders::published_tours_have_their_published_lengths",
    "published_orders::rings_meet_published_tours",
    "tables_and_physics::whole_tables_beside_the_project_agree_where_they_are_at_hand",
];

/// Run as anybody runs them, without asking for what passing tests print.
#[test]
fn what_is_not_checked_for_lack_of_outside_data_is_said() {
    let program = std::env::current_exe().unwrap();
    let mut run = Command::new(program);
    let run = run.arg("--exact").args(BY_OUTSIDE_DATA).env(FOLDER, "/no/such/folder");
    let output = run.output().unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    let passed = String::from_utf8(output.stdout).unwrap();
    assert!(passed.contains(&format!("{} passed", BY_OUTSIDE_DATA.len())), "{passed}");
    for test in BY_OUTSIDE_DATA {
        let line = format!("not checked: {test}: ");
        assert!(said.lines().any(|told| told.starts_with(&line)), "{test} says nothing:\n{said}");
    }
}

/// Nobody looks for outside data but by way of this file, which says it where
/// they are absent.
#[test]
fn outside_data_are_looked_for_in_one_place() {
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/suite")];
    let mut looking = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                let text = std::fs::read_to_string(&path).unwrap();
                let names = |word: &str| text.contains(&format!("\"{word}"));
                if names(FOLDER) || names("../shared") || names("shared/") {
                    looking.push(path.file_name().unwrap().to_owned());
                }
            }
        }
    }
    assert_eq!(looking, ["outside.rs"], "each of these looks by itself");
}
