//! What is wrong with a list that came back.

use std::fmt;

/// A list that was refused: nothing of it was taken.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ListError {
    /// The file, as the caller named it.
    pub file: String,
    /// Every row that is wrong, in the order of the list.
    pub rows: Vec<RowError>,
}

/// What is wrong with a row, and where.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RowError {
    /// The row, counted from 1 as spreadsheets do; 0 for the list as a whole.
    pub row: u64,
    /// The heading of the column; empty for the row as a whole.
    pub column: String,
    /// What is wrong.
    pub problem: String,
}

impl std::error::Error for ListError {}

impl fmt::Display for ListError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.rows.as_slice() {
            [row] => write!(f, "{}: {row}", self.file),
            rows => {
                write!(
                    f,
                    "{}: {} rows are refused, so nothing was entered",
                    self.file,
                    rows.len()
                )?;
                rows.iter().try_for_each(|row| write!(f, "\n  {row}"))
            }
        }
    }
}

impl fmt::Display for RowError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.row, self.column.as_str()) {
            (0, _) => f.write_str(&self.problem),
            (row, "") => write!(f, "row {row}: {}", self.problem),
            (row, column) => write!(f, "row {row}, column \"{column}\": {}", self.problem),
        }
    }
}
