//! Plans that are read, and written where nothing is lost by it.

use std::path::{Path, PathBuf};

use wirewend::plan::Plan;
use wirewend::store::{self, Known, Replace, refused, told};

/// A plan file that was read, and what it held.
pub(super) struct Source {
    path: PathBuf,
    known: Known,
}

/// Reads a plan.
pub(super) fn read(path: &Path) -> Result<(Plan, Source), String> {
    let (plan, known) = store::read_known(path).map_err(|error| error.to_string())?;
    Ok((plan, Source { path: path.to_owned(), known }))
}

/// Writes a plan: over the file that it came from as long as that is as it was,
/// over any other only where that was asked for. What became of the old one, as
/// a line for whoever asked.
pub(super) fn write(
    plan: &Plan,
    to: &Path,
    from: Option<&Source>,
    replace: bool,
) -> Result<String, String> {
    let own = from.filter(|from| is_same(&from.path, to));
    let may = match own {
        _ if replace => Replace::Anything,
        Some(from) => Replace::AsRead(from.known),
        None => Replace::Nothing,
    };
    store::save(plan, to, may).map(|written| told(&written)).map_err(|error| refused(&error))
}

/// Whether two paths lead to one file.
fn is_same(one: &Path, other: &Path) -> bool {
    let whole = std::fs::canonicalize;
    whole(one).is_ok_and(|one| whole(other).is_ok_and(|other| one == other))
}
