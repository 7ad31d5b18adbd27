//! Files that are put in place of others, and nothing lost by it.
//!
//! What is new is written beside the old, out to the disk, and then takes its
//! name in one step: at every moment either the old or the new is there whole.
//! What was replaced stays beside it as `NAME.before-SUM` until the next time
//! (see `kept`). Nothing is put over a file that one was not told to replace,
//! nor over one that changed after it was read.

mod disk;
mod folder;
mod free;
mod kept;
mod known;
mod names;
mod own;
mod refused;
mod temporary;

use std::io;
use std::path::{Path, PathBuf};

pub use disk::{Disk, SystemDisk, Thing};
pub use folder::{FolderError, FolderWritten, fill_folder};
pub use free::free_name;
pub use known::Known;
pub use own::{OWN_LIST, OwnFolder};
pub use refused::{WriteError, WriteProblem};

/// What may be replaced.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Replace {
    /// Nothing: the name must be free.
    Nothing,
    /// The file as it was when it was read. Where it is gone, nothing is lost
    /// and a new one is written.
    AsRead(Known),
    /// Whatever plain file is there.
    Anything,
}

/// How a file is put in its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Manner {
    /// What may be replaced.
    pub replace: Replace,
    /// Whether what is replaced is kept beside it.
    pub keep: bool,
    /// Whether to wait until the disk has it, so that it outlives a power cut.
    /// What can be made again at any time need not wait.
    pub settle: bool,
}

impl Manner {
    /// With all care: for plans, and for whatever may be another's.
    #[must_use]
    pub const fn careful(replace: Replace) -> Self {
        Self { replace, keep: true, settle: true }
    }
}

/// What came of it.
#[derive(Debug)]
pub struct Written {
    /// What the file holds now.
    pub known: Known,
    /// Where the file that was replaced is kept.
    pub kept: Option<PathBuf>,
    /// Why a power cut in the next moments may yet bring the old one back:
    /// the new one is in its place, but the disk did not confirm it.
    pub unsure: Option<io::Error>,
}

impl Written {
    /// What became of the file that was there, and whether the new one is sure
    /// to stay: line by line, nothing where there is nothing to say.
    #[must_use]
    pub fn told(&self) -> String {
        let mut said = String::new();
        if let Some(kept) = &self.kept {
            said.push_str(&format!("what was there is kept beside it as {}\n", name_of(kept)));
        }
        if let Some(unsure) = &self.unsure {
            said.push_str(&format!("written, but the disk did not confirm it: {unsure}\n"));
        }
        said
    }
}

/// The name of a file without its folder.
#[must_use]
pub fn name_of(path: &Path) -> std::borrow::Cow<'_, str> {
    path.file_name().unwrap_or_default().to_string_lossy()
}

/// What is at a path now, through links.
///
/// # Errors
/// Where it is nothing that a file could be put in the place of.
pub fn look(disk: &dyn Disk, path: &Path) -> Result<Option<Known>, WriteError> {
    found(disk, path).map(|(_, was)| was).map_err(|problem| problem.at(path))
}

/// Puts bytes in place of a file, or where there was none.
///
/// # Errors
/// Where what is there may not be replaced, and where the disk does not let it.
/// Then what was there is untouched.
pub fn put(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    manner: Manner,
) -> Result<Written, WriteError> {
    place(disk, path, bytes, manner).map_err(|problem| problem.at(path))
}

fn place(
    disk: &dyn Disk,
    path: &Path,
    bytes: &[u8],
    manner: Manner,
) -> Result<Written, WriteProblem> {
    let (target, was) = found(disk, path)?;
    let known = Known::of(bytes);
    if was == Some(known) {
        return Ok(Written { known, kept: None, unsure: None });
    }
    may(manner.replace, was)?;
    temporary::clear(disk, &target);
    let (beside, mut file) = temporary::create(disk, &target)?;
    let filled = fill(disk, &mut file, bytes, manner.settle, was.map(|_| target.as_path()));
    let swapped = filled
        .map_err(WriteProblem::Io)
        .and_then(|()| swap(disk, (&beside, &target), was, manner.keep));
    // The handle held the lock that says that somebody is at work on it.
    drop(file);
    let kept = match swapped {
        Ok(kept) => kept,
        Err(problem) => {
            // The first error counts; the next one to write here clears it away.
            let _ = disk.remove(&beside);
            return Err(problem);
        }
    };
    let unsure = manner.settle.then(|| disk.sync_folder(folder_of(&target)).err()).flatten();
    if let Some(kept) = &kept {
        kept::clear(disk, &target, kept);
    }
    Ok(Written { known, kept, unsure })
}

/// The file itself behind a path, and what it holds.
fn found(disk: &dyn Disk, path: &Path) -> Result<(PathBuf, Option<Known>), WriteProblem> {
    match disk.look(path).map_err(WriteProblem::Io)? {
        Thing::Nothing => Ok((path.to_owned(), None)),
        Thing::Plain { locked: true } => Err(WriteProblem::Protected),
        Thing::Plain { locked: false } => {
            let whole = disk.whole(path).map_err(WriteProblem::Io)?;
            let known = disk.sum(&whole).map_err(WriteProblem::Unreadable)?;
            Ok((whole, Some(known)))
        }
        Thing::Folder => Err(WriteProblem::Folder),
        Thing::Other => Err(WriteProblem::NotPlain),
        Thing::Dangling => Err(WriteProblem::Dangling),
    }
}

fn may(replace: Replace, was: Option<Known>) -> Result<(), WriteProblem> {
    match (replace, was) {
        (_, None) | (Replace::Anything, _) => Ok(()),
        (Replace::AsRead(read), Some(now)) if read == now => Ok(()),
        (Replace::AsRead(_), Some(now)) => Err(WriteProblem::Changed(now)),
        (Replace::Nothing, Some(now)) => Err(WriteProblem::Taken(now)),
    }
}

fn fill(
    disk: &dyn Disk,
    file: &mut std::fs::File,
    bytes: &[u8],
    settle: bool,
    like: Option<&Path>,
) -> io::Result<()> {
    if let Some(like) = like {
        disk.make_like(file, like)?;
    }
    disk.write(file, bytes)?;
    if settle { disk.sync(file) } else { Ok(()) }
}

/// The new file takes the name, in one step. Where the old one is kept.
fn swap(
    disk: &dyn Disk,
    (beside, target): (&Path, &Path),
    was: Option<Known>,
    keep: bool,
) -> Result<Option<PathBuf>, WriteProblem> {
    let Some(was) = was else {
        return name_anew(disk, beside, target).map(|()| None);
    };
    // Once more at the last moment: writing may have taken a while.
    let now = disk.sum(target).map_err(WriteProblem::Unreadable)?;
    if now != was {
        return Err(WriteProblem::Changed(now));
    }
    let kept = keep.then(|| kept::keep(disk, target, was)).transpose();
    let kept = kept.map_err(WriteProblem::NotKept)?;
    match disk.rename(beside, target) {
        Ok(()) => Ok(kept.map(|(kept, _)| kept)),
        Err(error) => {
            if let Some((kept, true)) = kept {
                // A second name of a file that is still in its place.
                let _ = disk.remove(&kept);
            }
            Err(WriteProblem::Io(error))
        }
    }
}

/// Gives a file a name that must be free. A second name is refused by the
/// system itself where there is one, so that nobody can come in between.
fn name_anew(disk: &dyn Disk, beside: &Path, target: &Path) -> Result<(), WriteProblem> {
    match disk.link(beside, target) {
        Ok(()) => {
            // What is left of the first name is cleared away later.
            let _ = disk.remove(beside);
            Ok(())
        }
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            Err(disk.sum(target).map_or(WriteProblem::Io(error), WriteProblem::Taken))
        }
        // Not every file system knows second names.
        Err(_) => match disk.look(target).map_err(WriteProblem::Io)? {
            Thing::Nothing => disk.rename(beside, target).map_err(WriteProblem::Io),
            _ => Err(WriteProblem::Io(io::ErrorKind::AlreadyExists.into())),
        },
    }
}

/// The folder that a path is in.
fn folder_of(path: &Path) -> &Path {
    let folder = path.parent().filter(|folder| !folder.as_os_str().is_empty());
    folder.unwrap_or(Path::new("."))
}
