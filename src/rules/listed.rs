//! A table as a list of texts, for whoever wants to show or judge them all.

use super::{Cited, Row, Spec};

/// A table as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct Listed {
    /// What the table is.
    pub spec: Spec,
    /// Its rows, in the order of the file.
    pub rows: Vec<ListedRow>,
}

/// A row as it was read.
#[derive(Clone, Debug, PartialEq)]
pub struct ListedRow {
    /// Its cells in their shortest form: keys, then values.
    pub cells: Vec<String>,
    /// Where they come from.
    pub cited: Cited,
}

impl Listed {
    pub(super) fn of<'r, R: Row + 'r>(rows: impl Iterator<Item = &'r R>) -> Self {
        let listed = |row: &R| ListedRow { cells: row.texts(), cited: row.cited().clone() };
        Self { spec: R::SPEC, rows: rows.map(listed).collect() }
    }
}
