//! `wirewend import`: a plan out of a file of an open format.

use std::io::Read as _;
use std::path::Path;

use wirewend::store::{self, IMPORT_BYTES_MAX, Import, ImportOptions};
use wirewend::units::{Mm, Watch};

use super::corners;

/// Imports a file and writes the plan; what became of it, in words.
pub(super) fn run(
    file: &Path,
    to: &Path,
    options: &ImportOptions,
    close: Option<Mm>,
    replace: bool,
) -> Result<String, String> {
    let mut import = read(file, options, &Watch::default())?;
    let corners = match close {
        Some(most) => corners::close(&mut import.plan, most)?,
        None => corners::left(&import.plan, Some("--close MM closes those up to so wide")),
    };
    let kept = super::keep::write(&import.plan, to, None, replace)?;
    Ok(format!(
        "{}: {}{corners}{}\n{kept}Look it over before you build on it: no file says what is in a wall.\n",
        file.display(),
        import.report,
        to.display()
    ))
}

/// Imports a file.
pub(crate) fn read(file: &Path, options: &ImportOptions, watch: &Watch) -> Result<Import, String> {
    let unreadable = |error: std::io::Error| format!("{}: {error}", file.display());
    let mut bytes = Vec::new();
    let most = u64::try_from(IMPORT_BYTES_MAX).unwrap_or(u64::MAX);
    let opened = std::fs::File::open(file).map_err(unreadable)?;
    opened.take(most + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    store::import_watched(&bytes, &file.display().to_string(), options, watch)
        .map_err(|error| error.to_string())
}
