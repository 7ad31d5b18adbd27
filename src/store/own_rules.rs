//! Rule tables of a person's own, from a folder or a single file.

use std::fs;
use std::path::{Path, PathBuf};

use crate::rules::{Folder, RuleBook, RuleError};

/// Why tables of a person's own cannot be used.
#[derive(Debug, thiserror::Error)]
pub enum OwnRulesError {
    /// A file or folder cannot be read.
    #[error("{path}: {problem}")]
    Unread {
        /// Where.
        path: String,
        /// What the system says.
        problem: std::io::Error,
    },
    /// There is no table.
    #[error("{path}: no <regime>/<table>.csv in it")]
    Nothing {
        /// Where.
        path: String,
    },
    /// A table is not as it should be; the file follows from the folder.
    #[error("{folder}/{problem}")]
    Wrong {
        /// The folder of the regimes' folders.
        folder: String,
        /// What is wrong.
        problem: RuleError,
    },
}

/// The shipped tables, and over them those of a person's own, row by row: a
/// folder of `<regime>/<table>.csv`, one such `<regime>` folder, or one such
/// file. A regime that does not ship says in its `manifest.json` what it is.
///
/// # Errors
/// [`OwnRulesError`] where there is no table, or one cannot be used.
pub fn read_rules(path: &Path) -> Result<RuleBook, OwnRulesError> {
    let whole = fs::canonicalize(path).map_err(|problem| unread(path, problem))?;
    let found = if whole.is_dir() { of_folder(path, &whole)? } else { of_file(&whole) };
    let Found { root, files } = found;
    let wrong = |problem| OwnRulesError::Wrong { folder: root.display().to_string(), problem };
    let mut texts = Vec::new();
    for file in files {
        let text = fs::read_to_string(&file).map_err(|problem| unread(&file, problem))?;
        texts.push((name(file.parent().unwrap_or(&file)), name(&file), text));
    }
    let mut folders: Vec<Folder<'_>> = Vec::new();
    for (folder, file, text) in &texts {
        let named = Folder::named(folder).map_err(wrong)?;
        if folders.last().is_none_or(|last| last.regime != named.regime) {
            folders.push(named);
        }
        folders.last_mut().into_iter().for_each(|folder| folder.add(file, text));
    }
    if texts.is_empty() {
        return Err(OwnRulesError::Nothing { path: path.display().to_string() });
    }
    RuleBook::with_folders(folders).map_err(wrong)
}

/// The files of rules, folder by folder, and the folder of these folders.
struct Found {
    root: PathBuf,
    files: Vec<PathBuf>,
}

fn of_file(file: &Path) -> Found {
    let folder = file.parent().unwrap_or(file);
    let root = folder.parent().unwrap_or(folder).to_owned();
    Found { root, files: vec![file.to_owned()] }
}

/// `path` as it was given, for messages; `whole` for its name and parent.
fn of_folder(path: &Path, whole: &Path) -> Result<Found, OwnRulesError> {
    let own = rules_in(whole)?;
    if !own.is_empty() {
        return Ok(Found { root: whole.parent().unwrap_or(whole).to_owned(), files: own });
    }
    let mut files = Vec::new();
    for folder in entries(path)? {
        // Hidden folders are those of other programs.
        if folder.is_dir() && !name(&folder).starts_with('.') {
            files.extend(rules_in(&folder)?);
        }
    }
    Ok(Found { root: path.to_owned(), files })
}

/// The tables of a folder and its manifest, by name.
fn rules_in(folder: &Path) -> Result<Vec<PathBuf>, OwnRulesError> {
    let mut files = entries(folder)?;
    files.retain(|file| {
        let name = name(file);
        file.is_file() && (name.ends_with(".csv") || name == "manifest.json")
    });
    files.sort();
    Ok(files)
}

fn name(path: &Path) -> String {
    path.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

fn entries(folder: &Path) -> Result<Vec<PathBuf>, OwnRulesError> {
    let paths = fs::read_dir(folder)
        .and_then(|entries| entries.map(|entry| Ok(entry?.path())).collect::<Result<Vec<_>, _>>());
    paths.map_err(|problem| unread(folder, problem))
}

fn unread(path: &Path, problem: std::io::Error) -> OwnRulesError {
    OwnRulesError::Unread { path: path.display().to_string(), problem }
}
