//! `wirewend import`: a plan out of a file of an open format.

use std::path::Path;

use wirewend::store::{ImportOptions, import_file};
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
    let import = import_file(file, options, &Watch::default());
    let mut import = import.map_err(|error| error.to_string())?;
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
