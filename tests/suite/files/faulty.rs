//! A disk on which one call goes wrong.

use std::cell::{Cell, RefCell};
use std::ffi::OsString;
use std::fs::File;
use std::io;
use std::path::{Path, PathBuf};

use wirewend::store::{Disk, Known, SystemDisk, Thing};

/// How it goes wrong.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Fault {
    /// That one call is refused.
    Refused,
    /// From then on the disk is full: half of what is written gets there.
    Full,
    /// From then on nothing happens any more, as after a kill: half of what
    /// was written by that call got there.
    Killed,
}

/// A disk that counts the calls, and on which one goes wrong.
pub(super) struct Faulty<'t> {
    pub(super) calls: RefCell<Vec<&'static str>>,
    pub(super) wrong: Option<(usize, Fault)>,
    /// Whether files can have second names here.
    pub(super) links: bool,
    /// Whoever comes before a call.
    pub(super) before: Option<(usize, &'t dyn Fn())>,
    over: Cell<bool>,
}

impl<'t> Faulty<'t> {
    pub(super) fn new(links: bool) -> Self {
        Self { calls: RefCell::default(), wrong: None, links, before: None, over: Cell::new(false) }
    }

    pub(super) fn wrong(links: bool, call: usize, fault: Fault) -> Self {
        Self { wrong: Some((call, fault)), ..Self::new(links) }
    }

    pub(super) fn visited(links: bool, call: usize, visitor: &'t dyn Fn()) -> Self {
        Self { before: Some((call, visitor)), ..Self::new(links) }
    }

    /// Notes a call; an error where it goes wrong. `fills`: it takes room.
    fn call(&self, name: &'static str, fills: bool) -> io::Result<()> {
        let number = self.calls.borrow().len();
        self.calls.borrow_mut().push(name);
        if let Some((at, visitor)) = self.before
            && at == number
        {
            visitor();
        }
        let Some((at, fault)) = self.wrong else { return Ok(()) };
        let refused = io::Error::from(io::ErrorKind::PermissionDenied);
        match fault {
            Fault::Refused if at == number => Err(refused),
            Fault::Full if at <= number && fills => Err(io::ErrorKind::StorageFull.into()),
            Fault::Killed if at <= number => Err(io::Error::other("killed")),
            _ => Ok(()),
        }
    }
}

impl Disk for Faulty<'_> {
    fn look(&self, path: &Path) -> io::Result<Thing> {
        self.call("look", false).and_then(|()| SystemDisk.look(path))
    }
    fn whole(&self, path: &Path) -> io::Result<PathBuf> {
        self.call("whole", false).and_then(|()| SystemDisk.whole(path))
    }
    fn sum(&self, path: &Path) -> io::Result<Known> {
        self.call("sum", false).and_then(|()| SystemDisk.sum(path))
    }
    fn create(&self, path: &Path) -> io::Result<File> {
        self.call("create", true).and_then(|()| SystemDisk.create(path))
    }
    fn make_like(&self, file: &File, other: &Path) -> io::Result<()> {
        self.call("make like", false).and_then(|()| SystemDisk.make_like(file, other))
    }
    fn write(&self, file: &mut File, bytes: &[u8]) -> io::Result<()> {
        match self.call("write", true) {
            Ok(()) => SystemDisk.write(file, bytes),
            Err(error) => {
                if !self.over.replace(true) {
                    SystemDisk.write(file, &bytes[..bytes.len().div_euclid(2)]).unwrap();
                }
                Err(error)
            }
        }
    }
    fn sync(&self, file: &File) -> io::Result<()> {
        self.call("sync", true).and_then(|()| SystemDisk.sync(file))
    }
    fn link(&self, file: &Path, name: &Path) -> io::Result<()> {
        self.call("link", true)?;
        if !self.links {
            return Err(io::ErrorKind::Unsupported.into());
        }
        SystemDisk.link(file, name)
    }
    fn copy(&self, file: &Path, name: &Path) -> io::Result<()> {
        self.call("copy", true).and_then(|()| SystemDisk.copy(file, name))
    }
    fn rename(&self, file: &Path, name: &Path) -> io::Result<()> {
        self.call("rename", false).and_then(|()| SystemDisk.rename(file, name))
    }
    fn remove(&self, path: &Path) -> io::Result<()> {
        self.call("remove", false).and_then(|()| SystemDisk.remove(path))
    }
    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        self.call("sync folder", false).and_then(|()| SystemDisk.sync_folder(folder))
    }
    fn names(&self, folder: &Path) -> io::Result<Vec<OsString>> {
        self.call("names", false).and_then(|()| SystemDisk.names(folder))
    }
    fn remove_abandoned(&self, path: &Path) -> bool {
        self.call("remove abandoned", false).is_ok() && SystemDisk.remove_abandoned(path)
    }
    fn append(&self, path: &Path, bytes: &[u8]) -> io::Result<()> {
        match self.call("append", true) {
            Ok(()) => SystemDisk.append(path, bytes),
            Err(error) => {
                if !self.over.replace(true) {
                    SystemDisk.append(path, &bytes[..bytes.len().div_euclid(2)]).unwrap();
                }
                Err(error)
            }
        }
    }
    fn read(&self, path: &Path) -> io::Result<Vec<u8>> {
        self.call("read", false).and_then(|()| SystemDisk.read(path))
    }
    fn make_folder(&self, folder: &Path) -> io::Result<()> {
        self.call("make folder", false).and_then(|()| SystemDisk.make_folder(folder))
    }
}
