//! The journal of a plan: every edit as it is made, in a file beside the plan,
//! so that a crash or a power cut loses at most the last second.
//!
//! Each record is one line, `LENGTH CHECKSUM {json}`; the first names the state
//! of the plan file that the others begin from, and each of the others does so
//! again. They are numbered, and each holds in full what it did to the plan, an
//! undo as well: where one is rotten the others can still be done, and it is
//! known how many are lost. Records reach the system as they are made, which
//! outlives the process, and the disk when [`Journal::sync`] is called, which
//! outlives a power cut. A torn last line counts for nothing.
//!
//! Whoever has a journal open holds a lock on it: a second window on the same
//! file is told so, and knocks: then whoever has it open hears of the second.

mod entry;
mod lines;
mod noted;

use std::fs::{self, File, OpenOptions, TryLockError};
use std::io::{self, Read as _, Seek as _, SeekFrom, Write as _};
use std::path::{Path, PathBuf};

pub use entry::Entry;
pub use noted::{Noted, Replayed};

use self::entry::{Head, LAYOUT, Record, Stacks};
use super::files::{Manner, Replace, SystemDisk, free_name, put};

/// A journal that is open and locked.
#[derive(Debug)]
pub struct Journal {
    file: File,
    path: PathBuf,
    plan: PathBuf,
    /// What its records begin from.
    from: Option<String>,
    /// Which record did what was done last, and what was undone.
    stacks: Stacks,
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
    /// otherwise nothing. Records that begin from another state of the plan
    /// file belong to a plan that is no more, and a file in which something is
    /// rotten is not written on: both are kept aside under the name
    /// `….journal.old`, or `….journal-2.old` where that is taken, and
    /// [`Noted::aside`] tells it.
    ///
    /// # Errors
    /// [`JournalError::InUse`] where another window has it; otherwise where
    /// the disk does not let it.
    pub fn open(plan: &Path) -> Result<(Self, Noted), JournalError> {
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
        let (path, plan) = (path.clone(), plan.to_owned());
        let mut journal =
            Self { file, path, plan, from: None, stacks: Stacks::default(), loose: false };
        let noted = journal.recover().map_err(|cause| journal.fail(cause))?;
        // Meant for one who is gone.
        let _ = journal.knocked();
        Ok((journal, noted))
    }

    /// Reads what is there, and leaves the file ready for more.
    fn recover(&mut self) -> io::Result<Noted> {
        let mut bytes = Vec::new();
        self.file.read_to_end(&mut bytes)?;
        let mut noted = Noted::of(&bytes);
        self.from = Head::of(&self.plan).begins_from;
        if noted.begins_from != Some(self.from.clone()) {
            // Not of this state of the plan: nothing of it is to be done again.
            let aside = if noted.is_nothing() { None } else { Some(self.put_aside(&bytes)?) };
            let strange = noted.len();
            self.begin()?;
            return Ok(Noted { aside, strange, ..Noted::default() });
        }
        if noted.is_damaged {
            noted.aside = Some(self.put_aside(&bytes)?);
        }
        if noted.is_damaged || noted.is_older {
            noted.close_gaps();
            self.write_anew(&noted)?;
        } else {
            self.file.set_len(u64::try_from(noted.whole).unwrap_or(u64::MAX))?;
            self.file.seek(SeekFrom::End(0))?;
            let has_end = bytes.get(..noted.whole).is_none_or(|whole| whole.ends_with(b"\n"));
            if !has_end {
                // A line that lacks its end alone.
                self.file.write_all(b"\n")?;
            }
        }
        self.file.seek(SeekFrom::End(0))?;
        self.stacks = noted.stacks();
        Ok(noted)
    }

    /// What can be read goes into a file without what is rotten.
    fn write_anew(&mut self, noted: &Noted) -> io::Result<()> {
        let mut text = lines::line(&Head { journal: LAYOUT, begins_from: self.from.clone() })?;
        for record in noted.records() {
            let from = self.from.clone();
            text.push_str(&lines::line(&Record { from, ..record.clone() })?);
        }
        self.file.set_len(0)?;
        self.file.seek(SeekFrom::Start(0))?;
        self.file.write_all(text.as_bytes())?;
        self.file.sync_data()
    }

    /// Keeps what is noted so far aside, under a name that is free: the plan
    /// that it belongs to is about to be replaced.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn set_aside(&self) -> Result<(), JournalError> {
        let kept = fs::read(&self.path).and_then(|bytes| self.put_aside(&bytes));
        kept.map(|_| ()).map_err(|cause| self.fail(cause))
    }

    fn put_aside(&self, bytes: &[u8]) -> io::Result<PathBuf> {
        let name = self.path.file_name().unwrap_or_default().to_string_lossy();
        let aside = free_name(self.path.parent().unwrap_or(Path::new("")), &name, "old");
        let put = put(&SystemDisk, &aside, bytes, Manner::careful(Replace::Nothing));
        put.map(|_| aside).map_err(io::Error::other)
    }

    /// Empties it and notes the plan file as it is now.
    fn begin(&mut self) -> io::Result<()> {
        let head = Head::of(&self.plan);
        let text = lines::line(&head)?;
        self.from = head.begins_from;
        self.stacks = Stacks::default();
        self.file.set_len(0)?;
        self.file.seek(SeekFrom::Start(0))?;
        self.file.write_all(text.as_bytes())?;
        self.file.sync_data()
    }

    /// Adds what was just done.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn add(&mut self, entry: &Entry) -> Result<(), JournalError> {
        let record = self.stacks.record(entry, self.from.clone());
        let written = lines::line(&record).and_then(|line| self.file.write_all(line.as_bytes()));
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
