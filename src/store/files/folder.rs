//! Files that are made one by one into a folder of one's own.

use std::path::{Path, PathBuf};

use super::{Disk, Known, OwnFolder, WriteError, Written};

/// Why a folder was not filled.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    /// A file could not be made: why, in words.
    #[error("{0}")]
    Unmade(String),
    /// What was in the way.
    #[error(transparent)]
    Refused(#[from] WriteError),
}

/// What was written into a folder.
#[derive(Debug, Default)]
pub struct FolderWritten {
    /// Every file in its order, and what came of it.
    pub files: Vec<(PathBuf, Written)>,
    /// What was written here before, is still as it was, and was not written
    /// now, by name.
    pub others: Vec<String>,
}

impl FolderWritten {
    /// What became of files that were there, line by line.
    #[must_use]
    pub fn told(&self) -> String {
        self.files.iter().map(|(_, written)| written.told()).collect()
    }
}

/// Writes files of these names into a folder: over one's own earlier ones, and
/// over those of others only where `anyway` says so. `make` makes the bytes of
/// one, by its place among the names; where another's file has its name it is
/// made twice, else once, and let go of.
///
/// # Errors
/// Where a file cannot be made, and where something is in the way. Nothing was
/// written where files of others are there.
pub fn fill_folder(
    disk: &dyn Disk,
    folder: &Path,
    names: &[String],
    anyway: bool,
    make: &mut dyn FnMut(usize) -> Result<Vec<u8>, String>,
) -> Result<FolderWritten, FolderError> {
    let mut to_be = |name: &str| {
        let place = names.iter().position(|other| other == name)?;
        Some(Known::of(&make(place).ok()?))
    };
    let mut own = OwnFolder::open(disk, folder, names, anyway, &mut to_be)?;
    let mut all = FolderWritten::default();
    for (place, name) in names.iter().enumerate() {
        let bytes = make(place).map_err(FolderError::Unmade)?;
        all.files.push((folder.join(name), own.write(name, &bytes)?));
    }
    all.others = own.close()?;
    Ok(all)
}
