//! One row of a table.

use super::{Grade, Owner};

/// A value in a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// A number in the unit of its heading.
    Number(f64),
    /// A word.
    Text(String),
}

/// One row: its key, its values, and where they come from.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// The key, a part for every key column; numbers in their shortest form.
    pub keys: Vec<String>,
    /// The values, one for every value column.
    pub cells: Vec<Cell>,
    /// Where they come from.
    pub source: String,
    /// How sure they are.
    pub grade: Grade,
    /// What else there is to say.
    pub note: String,
    /// Whose they are.
    pub owner: Owner,
}

impl Row {
    /// The number in a value column; None where it is empty or a word.
    #[must_use]
    pub fn number(&self, column: usize) -> Option<f64> {
        match self.cells.get(column) {
            Some(Cell::Number(number)) => Some(*number),
            _ => None,
        }
    }

    /// The first value, for tables that have one. Tables are checked on
    /// reading, so a row without it does not exist; zero stands in.
    #[must_use]
    pub fn value(&self) -> f64 {
        self.number(0).unwrap_or(0.0)
    }

    /// The word in a value column; empty where there is none.
    #[must_use]
    pub fn text(&self, column: usize) -> &str {
        match self.cells.get(column) {
            Some(Cell::Text(text)) => text,
            _ => "",
        }
    }

    /// A key column as a number.
    #[must_use]
    pub fn key_number(&self, column: usize) -> Option<f64> {
        self.keys.get(column)?.parse().ok()
    }

    /// Where the value comes from, how sure it is, and whose it is.
    #[must_use]
    pub fn credit(&self) -> String {
        match self.owner {
            Owner::User => format!("{} (your own table)", self.source),
            Owner::Shipped => format!("{} (grade {})", self.source, self.grade.letter()),
        }
    }
}
