//! The window and the command line write by one service alone.

use std::path::{Path, PathBuf};

/// What writes a file by itself, and would lose what is there.
const BARE: [&str; 9] = [
    "fs::write(",
    "File::create",
    "OpenOptions",
    "fs::rename(",
    "fs::copy(",
    "fs::hard_link(",
    "write_file(",
    "write_to_file(",
    ".save(&path",
];

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

/// The lines of a source that write by themselves, tests left out.
fn bare(text: &str) -> Vec<&str> {
    let code = text.split("#[cfg(test)]\nmod tests").next().unwrap_or_default();
    let lines = code.lines().filter(|line| !line.trim_start().starts_with("//"));
    lines.filter(|line| BARE.iter().any(|call| line.contains(call))).collect()
}

#[test]
fn no_door_writes_past_the_service_that_keeps_what_is_replaced() {
    let src = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut files = Vec::new();
    for door in ["app", "cli", "session"] {
        sources(&src.join(door), &mut files);
    }
    assert!(files.len() > 50, "they were found");
    for file in files {
        let name = file.file_name().unwrap().to_string_lossy().into_owned();
        if name.ends_with("flows.rs") {
            continue;
        }
        let text = std::fs::read_to_string(&file).unwrap();
        let found = bare(&text);
        assert!(found.is_empty(), "{}: {found:?}; use store::put or store::save", file.display());
    }
}

#[test]
fn the_test_of_the_doors_can_fail() {
    assert_eq!(bare("    std::fs::write(to, text)?;\n// fs::write(\n").len(), 1);
    assert!(bare("#[cfg(test)]\nmod tests { fs::write(a, b) }").is_empty());
}
