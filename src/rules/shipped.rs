//! The tables that ship with Wirewend: every folder of `assets/rules`, with
//! its manifest and its tables, whatever they are called.

use include_dir::{Dir, DirEntry, File, include_dir};

use super::RuleError;
use super::folder::Folder;

static SHIPPED: Dir<'_> = include_dir!("$CARGO_MANIFEST_DIR/assets/rules");

/// The shipped folders, by name.
pub(super) fn shipped() -> Result<Vec<Folder<'static>>, RuleError> {
    let folders = SHIPPED.entries().iter().filter_map(DirEntry::as_dir);
    let mut folders = folders.map(folder).collect::<Result<Vec<_>, _>>()?;
    folders.sort_by_key(|folder| folder.regime);
    Ok(folders)
}

fn folder(dir: &'static Dir<'static>) -> Result<Folder<'static>, RuleError> {
    let name = dir.path().to_str().unwrap_or_default();
    let mut folder = Folder::named(name)?;
    let mut files: Vec<&File<'static>> = dir.files().collect();
    files.sort_by_key(|file| file.path());
    for file in files {
        let name = file.path().file_name().and_then(|name| name.to_str()).unwrap_or_default();
        folder.add(name, file.contents_utf8().unwrap_or_default());
    }
    Ok(folder)
}
