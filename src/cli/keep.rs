//! Plans that are read, and written where nothing is lost by it.

use std::path::{Path, PathBuf};

use wirewend::plan::Plan;
use wirewend::store::{self, FolderError, Known, Replace, WriteError, WriteProblem};

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
    store::save(plan, to, may).map(|written| written.told()).map_err(|error| refused(&error))
}

/// Whether two paths lead to one file.
fn is_same(one: &Path, other: &Path) -> bool {
    let whole = std::fs::canonicalize;
    whole(one).is_ok_and(|one| whole(other).is_ok_and(|other| one == other))
}

/// What stood in the way, with the way out.
pub(super) fn refused(error: &WriteError) -> String {
    let way_out = match error.problem {
        WriteProblem::Changed(_) => {
            "; nothing was written: look at it, and do this again from what it is now"
        }
        WriteProblem::Taken(_) => {
            "; --replace puts the new one in its place and keeps the old one beside it; or choose \
             another name"
        }
        WriteProblem::Strangers(_) => {
            "; nothing was written: --replace puts new ones in their place and keeps the old ones \
             beside them; or choose another folder"
        }
        _ => "",
    };
    format!("{error}{way_out}")
}

/// Why a folder was not filled.
pub(super) fn not_filled(error: &FolderError) -> String {
    match error {
        FolderError::Unmade(why) => why.clone(),
        FolderError::Refused(error) => refused(error),
    }
}
