//! Rows of a list, by the names of its columns.

use std::collections::{BTreeMap, BTreeSet};

use csv::StringRecord;

use super::{ListError, RowError};
use crate::plan::{End, Plan, labels};
use crate::store::error::{nearest, shown};

/// The largest list that is read, bytes.
pub const LIST_BYTES_MAX: usize = 20_000_000;

/// A list with the columns that were asked for.
pub(super) struct Table<'a, const N: usize> {
    file: &'a str,
    columns: [&'static str; N],
    places: [Option<usize>; N],
    rows: Vec<StringRecord>,
    ends: BTreeMap<String, End>,
    /// The marks of what is gone.
    gone: BTreeSet<String>,
}

/// One row of it.
pub(super) struct Row<'t, const N: usize> {
    table: &'t Table<'t, N>,
    record: &'t StringRecord,
}

impl<'a, const N: usize> Table<'a, N> {
    /// Reads a list that must have the first `needed` of these columns, and may
    /// have the others.
    pub(super) fn read(
        bytes: &[u8],
        file: &'a str,
        columns: [&'static str; N],
        needed: usize,
        plan: &Plan,
    ) -> Result<Self, ListError> {
        let whole = |problem: String| ListError {
            file: file.to_owned(),
            rows: vec![RowError { row: 0, column: String::new(), problem }],
        };
        if bytes.len() > LIST_BYTES_MAX {
            return Err(whole(format!("larger than {LIST_BYTES_MAX} bytes, the largest list")));
        }
        let bytes = bytes.strip_prefix(b"\xef\xbb\xbf").unwrap_or(bytes);
        let text = std::str::from_utf8(bytes)
            .map_err(|_| whole("not UTF-8 text: save it as CSV UTF-8".to_owned()))?;
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(delimiter(text))
            .flexible(true)
            .from_reader(text.as_bytes());
        let headings = reader.headers().map_err(|error| whole(error.to_string()))?.clone();
        let place = |name| headings.iter().position(|heading| heading.trim() == name);
        let places = columns.map(place);
        let missing = columns.iter().zip(places).take(needed).find(|(_, place)| place.is_none());
        if let Some((name, _)) = missing {
            let all: Vec<String> = headings.iter().map(shown).collect();
            return Err(whole(format!("no column \"{name}\"; it has {}", all.join(", "))));
        }
        let rows: Result<Vec<StringRecord>, csv::Error> = reader.records().collect();
        let rows = rows.map_err(|error| whole(error.to_string()))?;
        let marks = labels(plan);
        let boards = plan.boards.keys().map(|id| End::Board(*id));
        let points = plan.points.keys().map(|id| End::Point(*id));
        let ends = boards.chain(points).map(|end| (marks.end(end).trim().to_owned(), end));
        let ends: BTreeMap<String, End> = ends.collect();
        let gone = plan.kept.marks.keys().filter(|mark| !ends.contains_key(*mark)).cloned();
        Ok(Self { file, columns, places, rows, gone: gone.collect(), ends })
    }

    /// Whether it has one of the columns that were asked for.
    pub(super) const fn has(&self, column: usize) -> bool {
        self.places[column].is_some()
    }

    /// What all its filled rows say, or what is wrong with every one that is.
    pub(super) fn read_rows<T>(
        &self,
        filled: usize,
        mut read: impl FnMut(&Row<'_, N>) -> Result<T, RowError>,
    ) -> Result<Vec<T>, ListError> {
        let (mut entries, mut rows) = (Vec::new(), Vec::new());
        for row in self.rows().filter(|row| !row.field(filled).is_empty()) {
            match read(&row) {
                Ok(entry) => entries.push(entry),
                Err(error) => rows.push(error),
            }
        }
        if rows.is_empty() {
            Ok(entries)
        } else {
            Err(ListError { file: self.file.to_owned(), rows })
        }
    }

    /// Its rows, blank ones left out.
    pub(super) fn rows(&self) -> impl Iterator<Item = Row<'_, N>> {
        let filled = |row: &&StringRecord| row.iter().any(|field| !field.trim().is_empty());
        self.rows.iter().filter(filled).map(|record| Row { table: self, record })
    }
}

impl<const N: usize> Row<'_, N> {
    /// What stands in a column, by its place among those asked for; nothing
    /// where the list does not have it.
    pub(super) fn field(&self, column: usize) -> &str {
        let place = self.table.places[column];
        let text = place.and_then(|place| self.record.get(place)).unwrap_or("").trim();
        // The mark before text that a spreadsheet would take for a formula.
        match text.strip_prefix('\'') {
            Some(rest) if rest.starts_with(['=', '+', '-', '@']) => rest,
            _ => text,
        }
    }

    /// Its number, counted from 1.
    pub(super) fn number(&self) -> u64 {
        self.record.position().map_or(0, csv::Position::line)
    }

    /// What is wrong in a column.
    pub(super) fn error(&self, column: usize, problem: impl Into<String>) -> RowError {
        RowError {
            row: self.number(),
            column: self.table.columns[column].to_owned(),
            problem: problem.into(),
        }
    }

    /// The point or board whose mark stands in a column.
    pub(super) fn end(&self, column: usize) -> Result<End, RowError> {
        let mark = self.field(column);
        self.table.ends.get(mark).copied().ok_or_else(|| {
            let found = shown(mark);
            let problem = if self.table.gone.contains(mark) {
                format!("{found} is no longer in the plan")
            } else {
                format!("found {found}, expected the mark of a point or board")
            };
            self.error(column, problem)
        })
    }

    /// What is wrong with a name, and the one that was most likely meant.
    pub(super) fn unknown(&self, column: usize, names: &[&'static str]) -> RowError {
        let found = self.field(column);
        let near = nearest(found, names)
            .map_or_else(String::new, |name| format!("; did you mean \"{name}\"?"));
        let expected = names.join(", ");
        self.error(column, format!("found {}, expected one of {expected}{near}", shown(found)))
    }
}

/// What parts the columns of a list: most of what stands in its first line.
fn delimiter(text: &str) -> u8 {
    let first = text.lines().next().unwrap_or("");
    let count = |letter: u8| first.bytes().filter(|byte| *byte == letter).count();
    let (commas, semicolons, tabs) = (count(b','), count(b';'), count(b'\t'));
    if semicolons > commas.max(tabs) {
        b';'
    } else if tabs > commas {
        b'\t'
    } else {
        b','
    }
}
