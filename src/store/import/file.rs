//! A plan out of a file.

use std::io::Read as _;
use std::path::Path;

use super::{IMPORT_BYTES_MAX, Import, ImportOptions, import_watched};
use crate::units::Watch;

/// Imports a file, under a watch that can stop it.
///
/// # Errors
/// A text with the file, its place and the way out.
pub fn import_file(file: &Path, options: &ImportOptions, watch: &Watch) -> Result<Import, String> {
    let unreadable = |error: std::io::Error| format!("{}: {error}", file.display());
    let mut bytes = Vec::new();
    let most = u64::try_from(IMPORT_BYTES_MAX).unwrap_or(u64::MAX);
    let opened = std::fs::File::open(file).map_err(unreadable)?;
    opened.take(most + 1).read_to_end(&mut bytes).map_err(unreadable)?;
    import_watched(&bytes, &file.display().to_string(), options, watch)
        .map_err(|error| error.to_string())
}
