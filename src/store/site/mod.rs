//! Lists that came back from the site with their blanks filled: measured
//! lengths and readings, as comma-separated text (RFC 4180).
//!
//! They are the lists that the papers write. Only the columns named here are
//! read, in any order; semicolons and tabs part columns as well, and a comma
//! may stand for the decimal point. Every filled row is held against the plan;
//! a list is taken whole or not at all.

mod error;
mod leg_number;
mod measured;
mod readings;
mod revision;
mod table;
mod value;

pub use error::{ListError, RowError};
pub use measured::{MEASURED_COLUMNS, read_measured};
pub use readings::{READING_COLUMNS, read_readings};
pub use table::LIST_BYTES_MAX;
pub use value::{read_day, read_length, read_reading};

/// What a list says.
#[derive(Clone, Debug, PartialEq)]
pub struct Filled<T> {
    /// What its filled rows enter, in their order.
    pub entries: Vec<T>,
    /// What whoever enters it should know.
    pub notes: Vec<String>,
}
