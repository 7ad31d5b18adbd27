//! Lists that came back from the site with their blanks filled: measured
//! lengths and readings, as comma-separated text (RFC 4180).
//!
//! They are the lists that the papers write. Only the columns named here are
//! read, in any order; semicolons and tabs part columns as well, and a comma
//! may stand for the decimal point. A list is taken whole or not at all.

mod measured;
mod readings;
mod table;
mod value;

pub use measured::{MEASURED_COLUMNS, read_measured};
pub use readings::{READING_COLUMNS, read_readings};
pub use table::LIST_BYTES_MAX;
pub use value::{read_day, read_length, read_reading};

/// What is wrong with a list, and where.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{file}: {}{problem}", place(*.row, .column))]
pub struct ListError {
    /// The file, as the caller named it.
    pub file: String,
    /// The row, counted from 1 as spreadsheets do; 0 for the list as a whole.
    pub row: u64,
    /// The heading of the column; empty for the row as a whole.
    pub column: String,
    /// What is wrong.
    pub problem: String,
}

fn place(row: u64, column: &str) -> String {
    match (row, column) {
        (0, _) => String::new(),
        (row, "") => format!("row {row}: "),
        (row, column) => format!("row {row}, column \"{column}\": "),
    }
}
