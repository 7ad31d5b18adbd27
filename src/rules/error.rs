//! What can be wrong with a table, and what can be missing from one.

use crate::plan::RegimeError;

/// A table that cannot be read; each says its file, by regime and table, and
/// where it can the line, from 1.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RuleError {
    /// No table has this name.
    #[error("{file}: there is no rule table \"{name}\"; did you mean \"{nearest}\"?")]
    UnknownTable {
        /// The file.
        file: String,
        /// The name that was given.
        name: String,
        /// The table whose name is nearest.
        nearest: &'static str,
    },
    /// No regime can have the name of this folder.
    #[error("{folder}: no name for a folder of rules: {problem}")]
    Folder {
        /// The folder.
        folder: String,
        /// What is wrong with its name.
        problem: RegimeError,
    },
    /// A regime that is named is not there.
    #[error("{file}: {problem}")]
    NoRegime {
        /// Where it is named, or its own folder.
        file: String,
        /// What is said of it.
        problem: String,
    },
    /// A regime inherits, in the end, from itself.
    #[error("{file}: \"inherits\" leads back to where it began")]
    InheritsItself {
        /// The manifest.
        file: String,
    },
    /// A table that must be there is not.
    #[error("{file}: this table is missing")]
    MissingTable {
        /// The file.
        file: String,
    },
    /// A table that holds every key lacks one.
    #[error("{file}: no row for \"{key}\", which this table must have")]
    MissingRow {
        /// The file.
        file: String,
        /// The key that is missing.
        key: String,
    },
    /// The heading lacks a column.
    #[error("{file}: line {line}: the heading lacks the column \"{column}\"")]
    MissingColumn {
        /// The file.
        file: String,
        /// The line of the heading.
        line: u64,
        /// The column that is missing.
        column: &'static str,
    },
    /// The heading has a column that the table does not know.
    #[error("{file}: line {line}: the column \"{column}\" is not one of this table{hint}")]
    UnknownColumn {
        /// The file.
        file: String,
        /// The line of the heading.
        line: u64,
        /// The column.
        column: String,
        /// The column that may be meant, as a question.
        hint: String,
    },
    /// The heading has a column twice.
    #[error("{file}: line {line}: the column \"{column}\" stands there twice")]
    ColumnTwice {
        /// The file.
        file: String,
        /// The line of the heading.
        line: u64,
        /// The column.
        column: String,
    },
    /// A cell does not hold what its column asks for.
    #[error("{file}: line {line}: \"{column}\" holds \"{found}\", expected {expected}")]
    Cell {
        /// The file.
        file: String,
        /// The line.
        line: u64,
        /// The column.
        column: String,
        /// What stood there.
        found: String,
        /// What was expected.
        expected: &'static str,
    },
    /// The text is not a table at all.
    #[error("{file}: line {line}: {problem}")]
    Syntax {
        /// The file.
        file: String,
        /// The line.
        line: u64,
        /// What the reader says.
        problem: String,
    },
    /// The same key stands twice in one file.
    #[error("{file}: line {line}: a second row for {key}")]
    Twice {
        /// The file.
        file: String,
        /// The line.
        line: u64,
        /// The key.
        key: String,
    },
}

/// A figure that no table holds: a check that needs it cannot be made.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("table {regime}/{table} has no row for {key}")]
pub struct Absent {
    /// The folder of the regime.
    pub regime: String,
    /// The table.
    pub table: &'static str,
    /// The key that was looked for.
    pub key: String,
}
