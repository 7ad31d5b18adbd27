//! The rooms of the library look one way only.

use std::path::{Path, PathBuf};

const ROOMS: [&str; 13] = [
    "units", "wording", "plan", "rules", "store", "space", "runs", "lengths", "checks", "takeoff",
    "draft", "sheet", "session",
];

pub(crate) fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    let Ok(entries) = std::fs::read_dir(folder) else { return };
    for entry in entries {
        let path = entry.expect("a readable folder").path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|extension| extension == "rs") {
            found.push(path);
        }
    }
}

/// The rooms below `room` that a line of its source names.
fn reaches_down(room: usize, line: &str) -> Vec<&'static str> {
    ROOMS[room + 1..]
        .iter()
        .copied()
        .filter(|below| {
            line.match_indices("crate::").any(|(at, _)| {
                let rest = &line[at + "crate::".len()..];
                rest.strip_prefix(below).is_some_and(|after| {
                    !after.starts_with(|c: char| c.is_alphanumeric() || c == '_')
                })
            })
        })
        .collect()
}

#[test]
fn no_room_names_one_below_it() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    for (index, room) in ROOMS.iter().enumerate() {
        let mut files = Vec::new();
        sources(&src.join(room), &mut files);
        for file in files {
            let text = std::fs::read_to_string(&file).expect("a source file");
            for (number, line) in text.lines().enumerate() {
                let below = reaches_down(index, line);
                assert!(below.is_empty(), "{}:{}: names {below:?}", file.display(), number + 1);
            }
        }
    }
}

#[test]
fn the_test_of_the_rooms_can_fail() {
    let runs = ROOMS.iter().position(|room| *room == "runs").expect("a room");
    assert_eq!(reaches_down(runs, "use crate::sheet::Scene;"), ["sheet"]);
    assert!(reaches_down(runs, "use crate::space::Space;").is_empty());
}

/// The lines of a front door's sources that name the other one.
fn borrows(door: &str, other: &str) -> Vec<String> {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    sources(&src.join(door), &mut files);
    assert!(!files.is_empty(), "{door} has sources");
    let mut found = Vec::new();
    for file in files {
        let text = std::fs::read_to_string(&file).expect("a source file");
        let lines = text.lines().filter(|line| line.contains(&format!("crate::{other}")));
        found.extend(lines.map(|line| format!("{}: {line}", file.display())));
    }
    found
}

#[test]
fn the_window_borrows_nothing_from_the_command_line() {
    assert_eq!(borrows("app", "cli"), [""; 0]);
    // The other way there is the one door that opens the window.
    let opens = borrows("cli", "app");
    assert!(opens.iter().all(|line| line.contains("open.rs")) && !opens.is_empty(), "{opens:?}");
}
