//! The journal of a plan: every edit as it is made, in a file beside the plan,
//! so that a crash or a power cut loses at most the last second.
//!
//! Each entry is one line, `CHECKSUM {json}`; the first names the state of the
//! plan file that the edits begin from. Entries reach the system as they are
//! made, which outlives the process, and the disk when [`Journal::sync`] is
//! called, which outlives a power cut. A torn last line counts for nothing.
//!
//! Whoever has a journal open holds a lock on it: a second window on the same
//! file is told so, and knocks: then whoever has it open hears of the second.

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

use serde::{Deserialize, Serialize};

use super::files::{Known, Manner, Replace, SystemDisk, free_name, put};
use crate::plan::{Edit, EditError, History, Plan};

/// What was done to a plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Entry {
    /// An edit.
    Edit(Box<Edit>),
    /// The latest edit was undone.
    Undo,
    /// What was undone latest was done again.
    Redo,
    /// Papers went out: what they say is kept, and undoing does not take it
    /// back.
    Issue(Box<Edit>),
}

impl Entry {
    /// Does it to a plan and its history.
    ///
    /// # Errors
    /// As [`History::apply`]; then both are as they were.
    pub fn apply(self, plan: &mut Plan, history: &mut History) -> Result<(), EditError> {
        match self {
            Self::Edit(edit) => history.apply(plan, *edit),
            Self::Undo => history.undo(plan).map(|_| ()),
            Self::Redo => history.redo(plan).map(|_| ()),
            Self::Issue(edit) => plan.apply(*edit).map(|_| ()),
        }
    }
}

/// The first line: which plan file the entries begin from.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
struct Head {
    /// The layout of the journal.
    journal: u32,
    /// The sum over the bytes of the plan file. None: there was none.
    begins_from: Option<String>,
}

/// The layout that this room reads and writes.
const LAYOUT: u32 = 1;

/// A journal that is open and locked.
#[derive(Debug)]
pub struct Journal {
    file: File,
    path: PathBuf,
    plan: PathBuf,
    /// Whether there is something that a power cut could still lose.
    loose: bool,
}

/// A journal that could not be opened or written.
#[derive(Debug, thiserror::Error)]
pub enum JournalError {
    /// Another process has it open.
    #[error("{}: this plan is open in another window", .0.display())]
    InUse(PathBuf),
    /// The system does not let it.
    #[error("{}: {cause}", path.display())]
    Io {
        /// The journal's file.
        path: PathBuf,
        /// What stood in the way.
        #[source]
        cause: io::Error,
    },
}

impl Journal {
    /// Where the journal of a plan file is: `.house.wend.journal` beside
    /// `house.wend`.
    #[must_use]
    pub fn path_of(plan: &Path) -> PathBuf {
        let name = plan.file_name().unwrap_or_default().to_string_lossy();
        plan.with_file_name(format!(".{name}.journal"))
    }

    fn knock_of(plan: &Path) -> PathBuf {
        let name = plan.file_name().unwrap_or_default().to_string_lossy();
        plan.with_file_name(format!(".{name}.knock"))
    }

    /// Leaves word for whoever has the journal of a plan open that somebody
    /// else came. Where the disk does not let it, nobody is told.
    pub fn knock(plan: &Path) {
        let _ = fs::write(Self::knock_of(plan), []);
    }

    /// Whether somebody knocked since this was last asked.
    #[must_use]
    pub fn knocked(&self) -> bool {
        fs::remove_file(Self::knock_of(&self.plan)).is_ok()
    }

    /// Opens the journal of a plan file and returns what was done to the plan
    /// since it was saved and is not in it: after a crash, what to do again;
    /// otherwise nothing. Entries that begin from another state of the plan
    /// file belong to a plan that is no more; they are kept aside under the
    /// name `….journal.old`, or `….journal-2.old` where that is taken.
    ///
    /// # Errors
    /// [`JournalError::InUse`] where another window has it; otherwise where
    /// the disk does not let it.
    pub fn open(plan: &Path) -> Result<(Self, Vec<Entry>), JournalError> {
        let path = Self::path_of(plan);
        let fail = |cause| JournalError::Io { path: path.clone(), cause };
        let file = OpenOptions::new()
            .read(true)
            .write(true)
            .create(true)
            .truncate(false)
            .open(&path)
            .map_err(fail)?;
        match file.try_lock() {
            Ok(()) => {}
            Err(TryLockError::WouldBlock) => return Err(JournalError::InUse(plan.to_owned())),
            Err(TryLockError::Error(cause)) => return Err(fail(cause)),
        }
        let mut journal = Self { file, path: path.clone(), plan: plan.to_owned(), loose: false };
        let entries = journal.recover().map_err(fail)?;
        // Meant for one who is gone.
        let _ = journal.knocked();
        Ok((journal, entries))
    }

    /// Reads what is there, and leaves the file ready for more.
    fn recover(&mut self) -> io::Result<Vec<Entry>> {
        let mut bytes = Vec::new();
        self.file.read_to_end(&mut bytes)?;
        let (head, entries, whole) = parse(&bytes);
        if head.is_some_and(|head| head == self.head()) {
            self.file.set_len(u64::try_from(whole).unwrap_or(u64::MAX))?;
            self.file.seek(SeekFrom::End(0))?;
            return Ok(entries);
        }
        if !entries.is_empty() {
            self.put_aside(&bytes)?;
        }
        self.begin()?;
        Ok(Vec::new())
    }

    /// Keeps what is noted so far aside, under a name that is free: the plan
    /// that it belongs to is about to be replaced.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn set_aside(&self) -> Result<(), JournalError> {
        let kept = fs::read(&self.path).and_then(|bytes| self.put_aside(&bytes));
        kept.map_err(|cause| self.fail(cause))
    }

    fn put_aside(&self, bytes: &[u8]) -> io::Result<()> {
        let name = self.path.file_name().unwrap_or_default().to_string_lossy();
        let aside = free_name(self.path.parent().unwrap_or(Path::new("")), &name, "old");
        let put = put(&SystemDisk, &aside, bytes, Manner::careful(Replace::Nothing));
        put.map(|_| ()).map_err(io::Error::other)
    }

    fn head(&self) -> Head {
        let begins_from = fs::read(&self.plan).ok().map(|bytes| sum(&bytes));
        Head { journal: LAYOUT, begins_from }
    }

    /// Empties it and notes the plan file as it is now.
    fn begin(&mut self) -> io::Result<()> {
        let head = line(&self.head())?;
        self.file.set_len(0)?;
        self.file.seek(SeekFrom::Start(0))?;
        self.file.write_all(head.as_bytes())?;
        self.file.sync_data()
    }

    /// Adds what was just done.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn add(&mut self, entry: &Entry) -> Result<(), JournalError> {
        let written = line(entry).and_then(|line| self.file.write_all(line.as_bytes()));
        self.loose = true;
        written.map_err(|cause| self.fail(cause))
    }

    /// Makes what was added outlive a power cut. Once a second is enough.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn sync(&mut self) -> Result<(), JournalError> {
        if std::mem::take(&mut self.loose) {
            self.file.sync_data().map_err(|cause| self.fail(cause))?;
        }
        Ok(())
    }

    /// The plan was saved: what was noted is in it.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn saved(&mut self) -> Result<(), JournalError> {
        self.loose = false;
        self.begin().map_err(|cause| self.fail(cause))
    }

    /// Nothing of it is wanted any more: the plan stays as it was saved.
    pub fn drop_all(self) {
        // A journal that stays behind would only offer the work again.
        let _ = fs::remove_file(&self.path);
    }

    fn fail(&self, cause: io::Error) -> JournalError {
        JournalError::Io { path: self.path.clone(), cause }
    }
}

impl Drop for Journal {
    /// Gives the lock back at once, even where a process that was started in
    /// the meantime still holds a copy of the file's handle.
    fn drop(&mut self) {
        let _ = self.file.unlock();
    }
}

/// A line of the journal: a sum over the rest, and the rest.
fn line(of: &impl Serialize) -> io::Result<String> {
    let json = serde_json::to_string(of)?;
    Ok(format!("{} {json}\n", sum(json.as_bytes())))
}

/// The head, the entries and how many bytes of them are whole.
fn parse(bytes: &[u8]) -> (Option<Head>, Vec<Entry>, usize) {
    let (mut head, mut entries, mut whole) = (None, Vec::new(), 0);
    for line in bytes.split_inclusive(|byte| *byte == b'\n') {
        let json = checked(line);
        if head.is_none() {
            head = json.and_then(|json| serde_json::from_str(json).ok());
            if head.is_none() {
                break;
            }
        } else {
            match json.and_then(|json| serde_json::from_str(json).ok()) {
                Some(entry) => entries.push(entry),
                None => break,
            }
        }
        whole += line.len();
    }
    (head, entries, whole)
}

/// What a line holds, if it is whole.
fn checked(line: &[u8]) -> Option<&str> {
    let text = std::str::from_utf8(line).ok()?.strip_suffix('\n')?;
    let (expect, json) = text.split_once(' ')?;
    (sum(json.as_bytes()) == expect).then_some(json)
}

/// Finds torn and rotten lines, protects from nobody.
fn sum(bytes: &[u8]) -> String {
    Known::of(bytes).text()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Published test values of FNV-1a, 64 bits: the empty text, `a`, `foobar`
    /// (draft-eastlake-fnv, appendix).
    #[test]
    fn sums_are_fnv_1a() {
        assert_eq!(sum(b""), "cbf29ce484222325");
        assert_eq!(sum(b"a"), "af63dc4c8601ec8c");
        assert_eq!(sum(b"foobar"), "85944171f73967e8");
    }
}
