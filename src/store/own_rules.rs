//! Rule tables of a person's own, from a folder or a single file.

use std::fs;
use std::path::{Path, PathBuf};

use crate::plan::Regime;
use crate::rules::{REGIMES, RuleBook, RuleError, regime_folder};

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
    /// A folder, or the folder of a single table, is none of a regime.
    #[error("{path}: the folder \"{name}\" is none of a regime; there are {known}")]
    NoRegime {
        /// Where.
        path: String,
        /// The name of the folder.
        name: String,
        /// The regimes that there are.
        known: String,
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
/// folder of `<regime>/<table>.csv`, or one such file.
///
/// # Errors
/// [`OwnRulesError`] where there is no table, or one cannot be used.
pub fn read_rules(path: &Path) -> Result<RuleBook, OwnRulesError> {
    let whole = fs::canonicalize(path).map_err(|problem| unread(path, problem))?;
    let (root, mut tables) = if whole.is_dir() {
        (path.to_owned(), of_folder(path)?)
    } else {
        let parent = whole.parent().unwrap_or(&whole);
        let regime = regime_of(parent)?;
        let root = parent.parent().unwrap_or(parent).to_owned();
        (root, of_regime(regime, std::slice::from_ref(&whole))?)
    };
    if tables.is_empty() {
        return Err(OwnRulesError::Nothing { path: path.display().to_string() });
    }
    tables.sort();
    let rows = tables.iter().map(|(regime, name, text)| (*regime, name.as_str(), text.as_str()));
    let folder = root.display().to_string();
    RuleBook::with_overrides(rows).map_err(|problem| OwnRulesError::Wrong { folder, problem })
}

/// Regime, name and text of a table.
type Text = (Regime, String, String);

fn of_folder(folder: &Path) -> Result<Vec<Text>, OwnRulesError> {
    let mut tables = Vec::new();
    for path in entries(folder)? {
        let name = path.file_name().unwrap_or_default().to_string_lossy();
        // Hidden folders are those of other programs.
        if path.is_dir() && !name.starts_with('.') {
            tables.extend(of_regime(regime_of(&path)?, &entries(&path)?)?);
        }
    }
    Ok(tables)
}

fn of_regime(regime: Regime, paths: &[PathBuf]) -> Result<Vec<Text>, OwnRulesError> {
    let name = |path: &Path| Some(path.file_name()?.to_str()?.strip_suffix(".csv")?.to_owned());
    let tables = paths.iter().filter_map(|path| Some((path, name(path)?)));
    tables
        .map(|(path, name)| {
            let text = fs::read_to_string(path).map_err(|problem| unread(path, problem))?;
            Ok((regime, name, text))
        })
        .collect()
}

fn regime_of(folder: &Path) -> Result<Regime, OwnRulesError> {
    let name = folder.file_name().unwrap_or_default().to_string_lossy();
    REGIMES.into_iter().find(|regime| regime_folder(*regime) == name).ok_or_else(|| {
        OwnRulesError::NoRegime {
            path: folder.display().to_string(),
            name: name.into_owned(),
            known: REGIMES.map(regime_folder).join(", "),
        }
    })
}

fn entries(folder: &Path) -> Result<Vec<PathBuf>, OwnRulesError> {
    let paths = fs::read_dir(folder)
        .and_then(|entries| entries.map(|entry| Ok(entry?.path())).collect::<Result<Vec<_>, _>>());
    paths.map_err(|problem| unread(folder, problem))
}

fn unread(path: &Path, problem: std::io::Error) -> OwnRulesError {
    OwnRulesError::Unread { path: path.display().to_string(), problem }
}
