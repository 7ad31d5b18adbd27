//! What was done to a plan, as the journal has it.

use std::path::Path;

use serde::{Deserialize, Serialize};

use super::lines::sum;
use crate::plan::Edit;

/// What was done to a plan. An undo and a doing again hold what they did to the
/// plan; None only in journals of an older layout.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Entry {
    /// An edit.
    Edit(Box<Edit>),
    /// The latest edit was undone.
    Undo(Option<Box<Edit>>),
    /// What was undone latest was done again.
    Redo(Option<Box<Edit>>),
    /// Papers went out: what they say is kept, and undoing does not take it
    /// back.
    Issue(Box<Edit>),
}

/// The first record: which plan file the others begin from.
#[derive(Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Head {
    /// The layout of the journal.
    pub(super) journal: u32,
    /// The sum over the bytes of the plan file. None: there was none.
    pub(super) begins_from: Option<String>,
}

/// The layout that this room writes. It reads the one before, whose lines have
/// no length, number or beginning.
pub(super) const LAYOUT: u32 = 2;

impl Head {
    /// That of a plan file as it is now.
    pub(super) fn of(plan: &Path) -> Self {
        let begins_from = std::fs::read(plan).ok().map(|bytes| sum(&bytes));
        Self { journal: LAYOUT, begins_from }
    }
}

/// One entry with its place among the others.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Record {
    /// Its number, from 1 on.
    pub(super) number: u64,
    /// Which record it undid or did again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) of: Option<u64>,
    /// As in the head.
    pub(super) from: Option<String>,
    /// What was done.
    pub(super) entry: Entry,
}

/// Which records' edits stand, and which are undone.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Stacks {
    last: u64,
    pub(super) done: Vec<u64>,
    pub(super) undone: Vec<u64>,
}

impl Stacks {
    /// The next record.
    pub(super) fn record(&mut self, entry: &Entry, from: Option<String>) -> Record {
        let number = self.last + 1;
        let of = match entry {
            Entry::Undo(_) => self.done.last().copied(),
            Entry::Redo(_) => self.undone.last().copied(),
            Entry::Edit(_) | Entry::Issue(_) => None,
        };
        let record = Record { number, of, from, entry: entry.clone() };
        self.follow(&record);
        record
    }

    /// Stands as after a record.
    pub(super) fn follow(&mut self, record: &Record) {
        self.last = self.last.max(record.number);
        match record.entry {
            Entry::Edit(_) => {
                self.done.push(record.number);
                self.undone.clear();
            }
            Entry::Undo(_) => self.undone.extend(self.done.pop()),
            Entry::Redo(_) => self.done.extend(self.undone.pop()),
            Entry::Issue(_) => {}
        }
    }
}
