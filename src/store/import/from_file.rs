//! Buildings from files on the disk.

use std::io::Read as _;
use std::path::Path;

use super::{IMPORT_BYTES_MAX, Import, ImportError, ImportOptions, ImportProblem, import_watched};
use crate::units::Watch;

/// Imports a file under a watch that can stop it.
///
/// # Errors
/// Where it cannot be read, and as [`import_watched`].
pub fn import_file(
    file: &Path,
    options: &ImportOptions,
    watch: &Watch,
) -> Result<Import, ImportError> {
    let name = file.display().to_string();
    let unreadable = |error: std::io::Error| ImportError {
        file: name.clone(),
        place: String::new(),
        problem: Box::new(ImportProblem::Unreadable(error.to_string())),
    };
    let mut bytes = Vec::new();
    // One byte more than may be there shows that there is too much.
    let most = u64::try_from(IMPORT_BYTES_MAX).unwrap_or(u64::MAX);
    let opened = std::fs::File::open(file).map_err(unreadable)?;
    opened.take(most + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    import_watched(&bytes, &name, options, watch)
}
