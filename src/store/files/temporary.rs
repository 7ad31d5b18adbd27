//! The new file before it has its name: `.NAME.PROCESS-COUNT.new` beside it,
//! locked as long as somebody is at work on it. What a kill left behind has no
//! lock any more and is cleared away by the next one to write there.

use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};

use super::disk::beside;
use super::names::{is_number, stem};
use super::{Disk, WriteProblem, folder_of};

/// How many names are tried.
const TRIES: u32 = 100;

/// A new file in the same folder, where a rename cannot cross file systems.
pub(super) fn create(disk: &dyn Disk, target: &Path) -> Result<(PathBuf, File), WriteProblem> {
    if target.file_name().is_none() {
        return Err(WriteProblem::Io(io::ErrorKind::InvalidFilename.into()));
    }
    let name = stem(target);
    let mut taken = io::Error::from(io::ErrorKind::AlreadyExists);
    for count in 0..TRIES {
        let path = beside(target, &format!(".{name}.{}-{count}.new", std::process::id()));
        match disk.create(&path) {
            Ok(file) => return Ok((path, file)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => taken = error,
            Err(error) if error.kind() == io::ErrorKind::NotFound => {
                return Err(WriteProblem::NoFolder);
            }
            Err(error) => return Err(WriteProblem::Io(error)),
        }
    }
    Err(WriteProblem::Io(taken))
}

/// Takes away what kills left behind of this file, and of no other. Where that
/// cannot be done it harms nobody.
pub(super) fn clear(disk: &dyn Disk, target: &Path) {
    let first = format!(".{}.", stem(target));
    let is_ours = |name: &str| {
        let middle = name.strip_prefix(&first).and_then(|rest| rest.strip_suffix(".new"));
        let parts = middle.and_then(|middle| middle.split_once('-'));
        parts.is_some_and(|(process, count)| is_number(process) && is_number(count))
    };
    for name in disk.names(folder_of(target)).unwrap_or_default() {
        if let Some(name) = name.to_str().filter(|name| is_ours(name)) {
            disk.remove_abandoned(&beside(target, name));
        }
    }
}
