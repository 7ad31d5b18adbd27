//! What a journal holds, read as far as it can be.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use super::entry::{Entry, Head, Record, Stacks};
use super::lines::{next_whole, older, whole_at};
use crate::plan::{Edit, EditError, History, Plan};

/// What was noted and can be read.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Noted {
    pub(super) records: Vec<Record>,
    /// What the records begin from, where that can be read.
    pub(super) begins_from: Option<Option<String>>,
    /// How many records are rotten or gone.
    pub(super) lost: usize,
    /// How many records there were that belong to another state of the plan.
    pub(super) strange: usize,
    /// How many bytes from the beginning are without damage.
    pub(super) whole: usize,
    /// Whether anything is not as it was written, be it the head alone.
    pub(super) is_damaged: bool,
    /// Whether its lines have the older layout.
    pub(super) is_older: bool,
    /// Where the file as it was is kept.
    pub(super) aside: Option<PathBuf>,
}

/// What came of doing it again.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Replayed {
    /// How many steps were done again.
    pub done: usize,
    /// How many the plan refuses without those that are lost.
    pub refused: usize,
}

impl Noted {
    /// What the bytes of a journal hold.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        if is_older(bytes) { Self::of_older(bytes) } else { Self::of_lines(bytes) }
    }

    fn of_lines(bytes: &[u8]) -> Self {
        let mut noted = Self::default();
        let (mut at, mut is_sound) = (0, true);
        while at < bytes.len() {
            let Some((json, end)) = whole_at(bytes, at) else {
                let Some(next) = next_whole(bytes, at + 1) else {
                    // The last line: torn by a kill, or rotten to its end.
                    noted.lost += usize::from(bytes.ends_with(b"\n"));
                    break;
                };
                (at, is_sound) = (next, false);
                continue;
            };
            noted.take(json);
            at = end;
            if is_sound {
                noted.whole = at;
            }
        }
        let last = noted.records.last().map_or(0, |record| record.number);
        let there = u64::try_from(noted.records.len()).unwrap_or(u64::MAX);
        noted.lost += usize::try_from(last.saturating_sub(there)).unwrap_or(usize::MAX);
        noted.is_damaged = !is_sound || noted.lost > 0;
        noted
    }

    fn take(&mut self, json: &str) {
        if let Ok(record) = serde_json::from_str::<Record>(json) {
            self.begins_from.get_or_insert_with(|| record.from.clone());
            // Whatever is there twice counts once.
            let last = self.records.last().map_or(0, |last| last.number);
            if record.number > last {
                self.records.push(record);
            }
        } else if let Ok(head) = serde_json::from_str::<Head>(json) {
            self.begins_from.get_or_insert(head.begins_from);
        } else {
            self.lost += 1;
        }
    }

    /// Lines without numbers: read as far as the first that is rotten.
    fn of_older(bytes: &[u8]) -> Self {
        let mut noted = Self { is_older: true, ..Self::default() };
        let mut stacks = Stacks::default();
        let mut lines = bytes.split_inclusive(|byte| *byte == b'\n');
        let head = lines.next().and_then(older).and_then(|json| serde_json::from_str(json).ok());
        noted.begins_from = head.map(|head: Head| head.begins_from);
        for (index, line) in lines.enumerate() {
            match older(line).and_then(entry_of_older) {
                Some(entry) if noted.records.len() == index => {
                    let from = noted.begins_from.clone().flatten();
                    noted.records.push(stacks.record(&entry, from));
                }
                _ => noted.lost += usize::from(line.ends_with(b"\n")),
            }
        }
        noted.is_damaged = noted.lost > 0 || noted.begins_from.is_none();
        noted
    }

    pub(super) fn records(&self) -> &[Record] {
        &self.records
    }

    /// Numbers them anew, without gaps: what is lost was told.
    pub(super) fn close_gaps(&mut self) {
        let numbers: BTreeMap<u64, u64> =
            self.records.iter().zip(1..).map(|(record, number)| (record.number, number)).collect();
        for record in &mut self.records {
            record.number = numbers.get(&record.number).copied().unwrap_or(record.number);
            record.of = record.of.and_then(|of| numbers.get(&of).copied());
        }
    }

    pub(super) fn stacks(&self) -> Stacks {
        let mut stacks = Stacks::default();
        self.records.iter().for_each(|record| stacks.follow(record));
        stacks
    }

    /// The entries that can be read.
    pub fn entries(&self) -> impl Iterator<Item = &Entry> {
        self.records.iter().map(|record| &record.entry)
    }

    /// How many entries can be read.
    #[must_use]
    pub const fn len(&self) -> usize {
        self.records.len()
    }

    /// Whether there is nothing to do again.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.records.is_empty()
    }

    /// Whether nothing was noted, and nothing lost.
    pub(super) const fn is_nothing(&self) -> bool {
        self.records.is_empty() && !self.is_damaged
    }

    /// How many entries are rotten.
    #[must_use]
    pub const fn lost(&self) -> usize {
        self.lost
    }

    /// Where the file as it was is kept, where it was not as it should be.
    #[must_use]
    pub fn aside(&self) -> Option<&Path> {
        self.aside.as_deref()
    }

    /// Does all of it again, as far as it can be done.
    pub fn replay(&self, plan: &mut Plan, history: &mut History) -> Replayed {
        let (mut stacks, mut came) = (Stacks::default(), Replayed::default());
        for record in &self.records {
            match again(record, &mut stacks, plan, history) {
                Ok(()) => came.done += 1,
                Err(_) => came.refused += 1,
            }
        }
        came
    }

    /// What came of it, in words; nothing where there was nothing.
    #[must_use]
    pub fn says(&self, came: Replayed) -> Option<String> {
        let edits = |count: usize| match count {
            1 => "1 edit".to_owned(),
            count => format!("{count} edits"),
        };
        let mut says = Vec::new();
        if came.done > 0 {
            says.push(format!("{} done again that had not been saved", edits(came.done)));
        }
        if self.strange > 0 {
            says.push(format!("{} found that another state of this plan had", edits(self.strange)));
        }
        if self.lost > 0 {
            says.push(format!("{} cannot be read any more", edits(self.lost)));
        }
        if came.refused > 0 {
            says.push(format!("{} cannot be done without those", edits(came.refused)));
        }
        if let Some(aside) = &self.aside {
            let name = aside.file_name().unwrap_or_default().to_string_lossy();
            says.push(format!("the journal as it was is kept as {name}"));
        }
        (!says.is_empty()).then(|| says.join("; "))
    }
}

impl FromIterator<Entry> for Noted {
    /// As a journal has them that was written without a break.
    fn from_iter<I: IntoIterator<Item = Entry>>(entries: I) -> Self {
        let mut stacks = Stacks::default();
        let records = entries.into_iter().map(|entry| stacks.record(&entry, None)).collect();
        Self { records, ..Self::default() }
    }
}

/// Does a record again. Where what it undid is there, it is undone, so that the
/// history is as it was; else the record itself tells what it did.
fn again(
    record: &Record,
    stacks: &mut Stacks,
    plan: &mut Plan,
    history: &mut History,
) -> Result<(), EditError> {
    match &record.entry {
        Entry::Edit(edit) => anew(record, edit, stacks, plan, history),
        Entry::Issue(edit) => plan.apply((**edit).clone()).map(|_| ()),
        Entry::Undo(edit) => match (edit, stacks.done.last() == record.of.as_ref()) {
            (Some(edit), false) => anew(record, edit, stacks, plan, history),
            (_, true) if history.can_undo() => {
                stacks.undone.extend(stacks.done.pop());
                history.undo(plan).map(|_| ())
            }
            (Some(edit), true) => anew(record, edit, stacks, plan, history),
            (None, _) => history.undo(plan).map(|_| ()),
        },
        Entry::Redo(edit) => match (edit, stacks.undone.last() == record.of.as_ref()) {
            (Some(edit), false) => anew(record, edit, stacks, plan, history),
            (_, true) if history.can_redo() => {
                stacks.done.extend(stacks.undone.pop());
                history.redo(plan).map(|_| ())
            }
            (Some(edit), true) => anew(record, edit, stacks, plan, history),
            (None, _) => history.redo(plan).map(|_| ()),
        },
    }
}

/// Applies what a record did as an edit of its own.
fn anew(
    record: &Record,
    edit: &Edit,
    stacks: &mut Stacks,
    plan: &mut Plan,
    history: &mut History,
) -> Result<(), EditError> {
    history.apply(plan, edit.clone())?;
    stacks.done.push(record.number);
    stacks.undone.clear();
    Ok(())
}

/// Whether the lines have no length before their sum.
fn is_older(bytes: &[u8]) -> bool {
    bytes.split_inclusive(|byte| *byte == b'\n').any(|line| older(line).is_some())
}

/// An entry as the older layout writes it.
fn entry_of_older(json: &str) -> Option<Entry> {
    match json {
        "\"undo\"" => Some(Entry::Undo(None)),
        "\"redo\"" => Some(Entry::Redo(None)),
        json => serde_json::from_str(json).ok(),
    }
}
