//! The cells of one line, taken one after the other.

use super::column::Column;
use super::read::Columns;
use super::{Cited, Grade, Owner, RuleError};

/// The cells of one line of a table: keys, then values, as its description
/// lists them, wherever they stand in the file.
#[derive(Debug)]
pub struct Cells<'a> {
    pub(super) file: &'a str,
    pub(super) line: u64,
    pub(super) owner: Owner,
    pub(super) record: &'a csv::StringRecord,
    pub(super) columns: &'a Columns,
    pub(super) next: usize,
}

impl Cells<'_> {
    /// The next cell.
    ///
    /// # Errors
    /// [`RuleError::Cell`] where it does not hold what its column asks for.
    pub fn take<T: Column>(&mut self) -> Result<T, RuleError> {
        let (name, place) = self.columns.named.get(self.next).copied().unwrap_or(("", usize::MAX));
        self.next += 1;
        let text = self.record.get(place).unwrap_or("");
        T::read(text).ok_or_else(|| self.wrong(name, text, T::EXPECTED))
    }

    /// Where the line comes from.
    ///
    /// # Errors
    /// [`RuleError::Cell`] where no source is named, or a grade is not one.
    pub fn cited(&self) -> Result<Cited, RuleError> {
        let at = |place: Option<usize>| place.and_then(|at| self.record.get(at)).unwrap_or("");
        let source = at(Some(self.columns.source));
        if source.is_empty() {
            return Err(self.wrong("source", "", "where the value comes from"));
        }
        let letter = at(self.columns.grade);
        let grade = match (Grade::from_letter(letter), self.owner) {
            (Some(grade), _) => grade,
            (None, Owner::User) if letter.is_empty() => Grade::B,
            _ => return Err(self.wrong("grade", letter, "A, B, C or D")),
        };
        let note = at(self.columns.note).to_owned();
        Ok(Cited { source: source.to_owned(), grade, note, owner: self.owner })
    }

    fn wrong(&self, column: &str, found: &str, expected: &'static str) -> RuleError {
        RuleError::Cell {
            file: self.file.to_owned(),
            line: self.line,
            column: column.to_owned(),
            found: found.to_owned(),
            expected,
        }
    }
}
