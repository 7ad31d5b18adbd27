//! A folder whose files are made by Wirewend and can be made again: each is
//! listed there with its sum, so that they can be written anew without asking,
//! and what others put there, or changed, cannot.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use super::{Disk, Known, Manner, Replace, Thing, WriteError, WriteProblem, Written, look, put};

/// The name of the list.
pub const OWN_LIST: &str = ".wirewend-papers";
/// Its first line.
const HEAD: &str = "wirewend papers 1\n";

/// A folder that is written into.
pub struct OwnFolder<'d> {
    disk: &'d dyn Disk,
    folder: PathBuf,
    /// What was written here before, by name.
    before: BTreeMap<String, BTreeSet<Known>>,
    now: BTreeMap<String, Known>,
    anyway: bool,
}

impl std::fmt::Debug for OwnFolder<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("OwnFolder").field("folder", &self.folder).finish_non_exhaustive()
    }
}

impl<'d> OwnFolder<'d> {
    /// Opens a folder, or makes it, to write files of these names. `anyway`
    /// replaces what others put there too. `to_be` tells what a file will hold;
    /// it is asked only about names that others have taken: what is there
    /// already as it will be is nobody's loss.
    ///
    /// # Errors
    /// Where files of others have these names, and where the disk does not let
    /// it. Then nothing was written.
    pub fn open(
        disk: &'d dyn Disk,
        folder: &Path,
        names: &[String],
        anyway: bool,
        to_be: &mut dyn FnMut(&str) -> Option<Known>,
    ) -> Result<Self, WriteError> {
        let fail = |problem: WriteProblem| problem.at(folder);
        match disk.look(folder).map_err(|error| fail(WriteProblem::Io(error)))? {
            Thing::Nothing | Thing::Folder => {}
            Thing::Dangling => return Err(fail(WriteProblem::Dangling)),
            Thing::Plain { .. } | Thing::Other => return Err(fail(WriteProblem::NoRoom)),
        }
        let mut own = Self {
            disk,
            folder: folder.to_owned(),
            before: BTreeMap::new(),
            now: BTreeMap::new(),
            anyway,
        };
        let listed = own.read_list();
        let mut strangers = Vec::new();
        if !listed && look(disk, &own.path(OWN_LIST))?.is_some() {
            strangers.push(OWN_LIST.to_owned());
        }
        for name in names {
            let there = look(disk, &own.path(name))?;
            if there.is_some_and(|there| !own.is_own(name, there)) && there != to_be(name) {
                strangers.push(name.clone());
            }
        }
        if !strangers.is_empty() && !anyway {
            return Err(fail(WriteProblem::Strangers(strangers)));
        }
        disk.make_folder(folder).map_err(|error| fail(WriteProblem::Io(error)))?;
        if !listed {
            let may = if anyway { Replace::Anything } else { Replace::Nothing };
            put(disk, &own.path(OWN_LIST), HEAD.as_bytes(), Manner::careful(may))?;
        }
        Ok(own)
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.join(name)
    }

    fn is_own(&self, name: &str, held: Known) -> bool {
        self.before.get(name).is_some_and(|own| own.contains(&held))
    }

    /// Reads the list; false where there is none, or another's.
    fn read_list(&mut self) -> bool {
        let bytes = self.disk.read(&self.path(OWN_LIST)).unwrap_or_default();
        let text = String::from_utf8_lossy(&bytes);
        let Some(lines) = text.strip_prefix(HEAD) else { return false };
        for line in lines.lines() {
            if let Some((name, known)) = read_line(line) {
                self.before.entry(name.to_owned()).or_default().insert(known);
            }
        }
        true
    }

    /// Writes one file. It is listed first: whatever a kill leaves behind can be
    /// told as one's own.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn write(&mut self, name: &str, bytes: &[u8]) -> Result<Written, WriteError> {
        let (path, known) = (self.path(name), Known::of(bytes));
        let there = look(self.disk, &path)?;
        if !self.is_own(name, known) {
            let listed = self.disk.append(&self.path(OWN_LIST), line(name, known).as_bytes());
            listed.map_err(|error| WriteProblem::Io(error).at(&self.path(OWN_LIST)))?;
        }
        let manner = match there {
            // Can be made again from what it was made from.
            Some(held) if self.is_own(name, held) => {
                Manner { replace: Replace::AsRead(held), keep: false, settle: false }
            }
            Some(held) if self.anyway => {
                Manner { replace: Replace::AsRead(held), keep: true, settle: false }
            }
            // One that came after all were looked at is not replaced either.
            Some(_) | None => Manner { replace: Replace::Nothing, keep: true, settle: false },
        };
        let written = put(self.disk, &path, bytes, manner)?;
        self.now.insert(name.to_owned(), known);
        Ok(written)
    }

    /// All is written: the list becomes as short as it can. What was written
    /// here before, is still as it was, and was not written now.
    ///
    /// # Errors
    /// Where the disk does not let it.
    pub fn close(self) -> Result<Vec<String>, WriteError> {
        let still = |name: &String| -> Option<(String, Known)> {
            let held = look(self.disk, &self.path(name)).ok()??;
            self.is_own(name, held).then(|| (name.clone(), held))
        };
        let others = self.before.keys().filter(|name| !self.now.contains_key(*name));
        let others: BTreeMap<String, Known> = others.filter_map(still).collect();
        let mut text = HEAD.to_owned();
        for (name, known) in others.iter().chain(&self.now) {
            text.push_str(&line(name, *known));
        }
        let own = Manner { replace: Replace::Anything, keep: false, settle: true };
        put(self.disk, &self.path(OWN_LIST), text.as_bytes(), own)?;
        Ok(others.into_keys().collect())
    }
}

/// On a line of its own, whatever a kill left of the one before.
fn line(name: &str, known: Known) -> String {
    format!("\n{:016x} {} {name}\n", known.sum, known.bytes)
}

fn read_line(line: &str) -> Option<(&str, Known)> {
    let (sum, rest) = line.split_once(' ')?;
    let (bytes, name) = rest.split_once(' ')?;
    let sum = u64::from_str_radix(sum, 16).ok()?;
    Some((name, Known { sum, bytes: bytes.parse().ok()? }))
}
