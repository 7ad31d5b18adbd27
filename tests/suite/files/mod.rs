//! Files that are put in place of others: whatever fails, whoever comes in
//! between, and whenever it ends, nothing is lost.

mod commands;
mod doors;
mod faulty;
mod killed;
mod own;
mod place;
mod steps;

use std::collections::BTreeMap;
use std::path::Path;

/// What a folder holds, by name, read without any of the code under test.
fn held(folder: &Path) -> BTreeMap<String, Vec<u8>> {
    let mut held = BTreeMap::new();
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_file() {
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            held.insert(name, std::fs::read(&path).unwrap());
        }
    }
    held
}

/// The files of a folder that keep what a file held before.
fn kept(folder: &Path, name: &str) -> Vec<Vec<u8>> {
    let first = format!("{name}.before-");
    held(folder).into_iter().filter(|(name, _)| name.starts_with(&first)).map(|(_, b)| b).collect()
}

/// The files that were begun and never got their name.
fn begun(folder: &Path) -> Vec<String> {
    let is_new = |name: &String| name.starts_with('.') && name.ends_with(".new");
    held(folder).into_keys().filter(is_new).collect()
}
