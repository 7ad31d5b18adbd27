//! The calls to the system that replacing a file is made of.

use std::ffi::OsString;
use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Write as _};
use std::path::{Path, PathBuf};

use super::{Known, folder_of};

/// What is at a path, through links.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Thing {
    /// Nothing.
    Nothing,
    /// A file.
    Plain {
        /// Whether it is protected from being written.
        locked: bool,
    },
    /// A folder.
    Folder,
    /// A device, a pipe, a socket.
    Other,
    /// A link to nothing.
    Dangling,
}

/// The calls, one by one: a test can let each of them fail, or be the last.
pub trait Disk {
    /// What is there.
    ///
    /// # Errors
    /// Where that cannot be told.
    fn look(&self, path: &Path) -> io::Result<Thing>;
    /// The file itself behind links.
    ///
    /// # Errors
    /// Where there is none.
    fn whole(&self, path: &Path) -> io::Result<PathBuf>;
    /// What a file holds.
    ///
    /// # Errors
    /// Where it cannot be read.
    fn sum(&self, path: &Path) -> io::Result<Known>;
    /// A new file, locked as long as it is open; [`io::ErrorKind::AlreadyExists`]
    /// where the name is taken.
    ///
    /// # Errors
    /// Where the folder or the disk does not let it.
    fn create(&self, path: &Path) -> io::Result<File>;
    /// Gives a new file the mode, and where possible the owner, of another.
    ///
    /// # Errors
    /// Where the system does not let it.
    fn make_like(&self, file: &File, other: &Path) -> io::Result<()>;
    /// Writes into a new file.
    ///
    /// # Errors
    /// Where the disk is full or fails.
    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()>;
    /// Waits until the disk has a file.
    ///
    /// # Errors
    /// Where it fails.
    fn sync(&self, file: &File) -> io::Result<()>;
    /// Gives a file a second name.
    ///
    /// # Errors
    /// [`io::ErrorKind::AlreadyExists`] where that is taken; where the file
    /// system knows no second names.
    fn link(&self, file: &Path, name: &Path) -> io::Result<()>;
    /// Copies a file out to the disk, to a name that must be free.
    ///
    /// # Errors
    /// As [`Self::link`], and where the disk is full.
    fn copy(&self, file: &Path, name: &Path) -> io::Result<()>;
    /// Gives a file another name, over what has that name.
    ///
    /// # Errors
    /// Where the system does not let it.
    fn rename(&self, file: &Path, name: &Path) -> io::Result<()>;
    /// Takes a name away.
    ///
    /// # Errors
    /// Where the system does not let it.
    fn remove(&self, path: &Path) -> io::Result<()>;
    /// Waits until the disk has the names in a folder.
    ///
    /// # Errors
    /// Where it fails.
    fn sync_folder(&self, folder: &Path) -> io::Result<()>;
    /// The names in a folder.
    ///
    /// # Errors
    /// Where it cannot be read.
    fn names(&self, folder: &Path) -> io::Result<Vec<OsString>>;
    /// Takes a new file away that [`Self::create`] made and whose maker is
    /// gone. False where somebody has it open still, or that cannot be told.
    fn remove_abandoned(&self, path: &Path) -> bool;
    /// Adds to the end of a file that is there.
    ///
    /// # Errors
    /// Where the disk is full or fails.
    fn append(&self, path: &Path, bytes: &[u8]) -> io::Result<()>;
    /// The bytes of a small file.
    ///
    /// # Errors
    /// Where it cannot be read.
    fn read(&self, path: &Path) -> io::Result<Vec<u8>>;
    /// A folder, and those it lies in, where there is none yet.
    ///
    /// # Errors
    /// Where the system does not let it.
    fn make_folder(&self, folder: &Path) -> io::Result<()>;
}

/// The system's own disk.
#[derive(Clone, Copy, Debug, Default)]
pub struct SystemDisk;

impl Disk for SystemDisk {
    fn look(&self, path: &Path) -> io::Result<Thing> {
        let about = match fs::symlink_metadata(path) {
            Err(error) if error.kind() == io::ErrorKind::NotFound => return Ok(Thing::Nothing),
            about => about?,
        };
        let about = if about.is_symlink() {
            match fs::metadata(path) {
                Err(error) if error.kind() == io::ErrorKind::NotFound => {
                    return Ok(Thing::Dangling);
                }
                about => about?,
            }
        } else {
            about
        };
        Ok(if about.is_dir() {
            Thing::Folder
        } else if about.is_file() {
            Thing::Plain { locked: about.permissions().readonly() }
        } else {
            Thing::Other
        })
    }

    fn whole(&self, path: &Path) -> io::Result<PathBuf> {
        fs::canonicalize(path)
    }

    fn sum(&self, path: &Path) -> io::Result<Known> {
        Known::of_reader(File::open(path)?)
    }

    fn create(&self, path: &Path) -> io::Result<File> {
        let file = OpenOptions::new().write(true).create_new(true).open(path)?;
        match file.try_lock() {
            // Whoever clears away has it already.
            Err(TryLockError::WouldBlock) => return Err(io::ErrorKind::AlreadyExists.into()),
            // Where there are no locks, nobody clears away either.
            Ok(()) | Err(TryLockError::Error(_)) => {}
        }
        // Cleared away in the moment before it was locked.
        if is_of(&file, path) { Ok(file) } else { Err(io::ErrorKind::AlreadyExists.into()) }
    }

    fn make_like(&self, file: &File, other: &Path) -> io::Result<()> {
        let about = fs::metadata(other)?;
        own(file, &about);
        file.set_permissions(about.permissions())
    }

    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        file.write_all(bytes)
    }

    fn sync(&self, file: &File) -> io::Result<()> {
        file.sync_all()
    }

    fn link(&self, file: &Path, name: &Path) -> io::Result<()> {
        fs::hard_link(file, name)
    }

    fn copy(&self, file: &Path, name: &Path) -> io::Result<()> {
        let mut from = File::open(file)?;
        let mut to = OpenOptions::new().write(true).create_new(true).open(name)?;
        let copied = io::copy(&mut from, &mut to)
            .and_then(|_| self.make_like(&to, file))
            .and_then(|()| to.sync_all());
        if copied.is_err() {
            let _ = fs::remove_file(name);
        }
        copied
    }

    fn rename(&self, file: &Path, name: &Path) -> io::Result<()> {
        fs::rename(file, name)
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        fs::remove_file(path)
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        // Elsewhere a folder cannot be opened like that.
        if cfg!(unix) { File::open(folder)?.sync_all() } else { Ok(()) }
    }

    fn names(&self, folder: &Path) -> io::Result<Vec<OsString>> {
        fs::read_dir(folder)?.map(|entry| Ok(entry?.file_name())).collect()
    }

    fn remove_abandoned(&self, path: &Path) -> bool {
        let Ok(file) = OpenOptions::new().write(true).open(path) else { return false };
        file.try_lock().is_ok() && is_of(&file, path) && fs::remove_file(path).is_ok()
    }

    fn append(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        OpenOptions::new().append(true).open(path)?.write_all(bytes)
    }

    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        fs::read(path)
    }

    fn make_folder(&self, folder: &Path) -> io::Result<()> {
        fs::create_dir_all(folder)
    }
}

/// Whether a name is still that of an open file.
#[cfg(unix)]
fn is_of(file: &File, path: &Path) -> bool {
    use std::os::unix::fs::MetadataExt as _;
    let both = file.metadata().and_then(|file| Ok((file, fs::symlink_metadata(path)?)));
    both.is_ok_and(|(file, name)| (file.dev(), file.ino()) == (name.dev(), name.ino()))
}

/// Whether a name is still that of an open file.
#[cfg(not(unix))]
fn is_of(_: &File, path: &Path) -> bool {
    path.exists()
}

/// The owner of another file, where the system lets it: whoever may write into
/// a folder need not own what is in it.
#[cfg(unix)]
fn own(file: &File, about: &fs::Metadata) {
    use std::os::unix::fs::{MetadataExt as _, fchown};
    let _ = fchown(file, Some(about.uid()), Some(about.gid()));
}

#[cfg(not(unix))]
fn own(_: &File, _: &fs::Metadata) {}

/// Where a name beside another is.
pub(super) fn beside(target: &Path, name: &str) -> PathBuf {
    folder_of(target).join(name)
}
