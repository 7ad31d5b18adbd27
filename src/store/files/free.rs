//! Names that are free.

use std::path::{Path, PathBuf};

use crate::store::Journal;

/// How many names are tried.
const TRIES: u32 = 10_000;

/// A path in a folder at which there is nothing, and no plan that is open and
/// not saved yet: `NAME.ENDING`, else `NAME-2.ENDING` and so on.
#[must_use]
pub fn free_name(folder: &Path, name: &str, ending: &str) -> PathBuf {
    let path = |count: u32| match count {
        1 => folder.join(format!("{name}.{ending}")),
        _ => folder.join(format!("{name}-{count}.{ending}")),
    };
    let is_taken =
        |path: &PathBuf| std::fs::symlink_metadata(path).is_ok() || Journal::path_of(path).exists();
    (1..TRIES).map(path).find(|path| !is_taken(path)).unwrap_or_else(|| path(TRIES))
}
