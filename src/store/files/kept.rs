//! What was replaced, kept beside what replaced it: `house.wend.before-1f3a9c2e`
//! holds what `house.wend` held before it was last saved.
//!
//! In plain sight, for whoever needs it is looking for something lost. The end
//! of the name is the sum over what is in it: so the next save knows which such
//! files are its own and takes only those away, never one that somebody wrote,
//! changed or named so by hand.

use std::io;
use std::path::{Path, PathBuf};

use super::disk::beside;
use super::names::{is_number, stem};
use super::{Disk, Known, folder_of};

/// How many names are tried.
const TRIES: u32 = 100;

/// Keeps a file under a second name; and whether that name is new.
pub(super) fn keep(disk: &dyn Disk, target: &Path, held: Known) -> io::Result<(PathBuf, bool)> {
    let name = format!("{}.before-{}", stem(target), held.short());
    for count in 1..=TRIES {
        let name = if count == 1 { name.clone() } else { format!("{name}-{count}") };
        let path = beside(target, &name);
        // The second name takes no room on the disk, where there are such.
        let kept = disk.link(target, &path).or_else(|error| match error.kind() {
            io::ErrorKind::AlreadyExists => Err(error),
            _ => disk.copy(target, &path),
        });
        match kept {
            Ok(()) => return Ok((path, true)),
            Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
                if disk.sum(&path).is_ok_and(|there| there == held) {
                    return Ok((path, false));
                }
            }
            Err(error) => return Err(error),
        }
    }
    Err(io::ErrorKind::AlreadyExists.into())
}

/// Takes away what was kept of this file before. Where that cannot be done it
/// harms nobody.
pub(super) fn clear(disk: &dyn Disk, target: &Path, newest: &Path) {
    let first = format!("{}.before-", stem(target));
    let sum_of = |name: &str| -> Option<String> {
        let rest = name.strip_prefix(&first)?;
        let (sum, count) = rest.split_once('-').unwrap_or((rest, "1"));
        (sum.len() == 8 && is_number(count)).then(|| sum.to_owned())
    };
    for name in disk.names(folder_of(target)).unwrap_or_default() {
        let Some(sum) = name.to_str().and_then(sum_of) else { continue };
        let path = folder_of(target).join(name);
        let is_ours = || disk.sum(&path).is_ok_and(|held| held.short() == sum);
        if path.file_name() != newest.file_name() && is_ours() {
            let _ = disk.remove(&path);
        }
    }
}
