//! What can be wrong with a table, and what can be missing from one.

/// A table that cannot be read.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum RuleError {
    /// No table has this name.
    #[error("there is no rule table \"{name}\"; did you mean \"{nearest}\"?")]
    UnknownTable {
        /// The name that was given.
        name: String,
        /// The table whose name is nearest.
        nearest: &'static str,
    },
    /// The heading lacks a column.
    #[error("{table}: the heading lacks the column \"{column}\"")]
    MissingColumn {
        /// The table.
        table: &'static str,
        /// The column that is missing.
        column: &'static str,
    },
    /// The heading has a column that the table does not know.
    #[error("{table}: the column \"{column}\" is not one of this table")]
    UnknownColumn {
        /// The table.
        table: &'static str,
        /// The column.
        column: String,
    },
    /// A cell does not hold what its column asks for.
    #[error("{table}: line {line}: \"{column}\" holds \"{found}\", expected {expected}")]
    Cell {
        /// The table.
        table: &'static str,
        /// The line, from 1.
        line: u64,
        /// The column.
        column: String,
        /// What stood there.
        found: String,
        /// What was expected.
        expected: &'static str,
    },
    /// The text is not a table at all.
    #[error("{table}: line {line}: {problem}")]
    Syntax {
        /// The table.
        table: &'static str,
        /// The line, from 1.
        line: u64,
        /// What the reader says.
        problem: String,
    },
    /// The same key stands twice in one file.
    #[error("{table}: line {line}: a second row for {key}")]
    Twice {
        /// The table.
        table: &'static str,
        /// The line, from 1.
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
    pub regime: &'static str,
    /// The table.
    pub table: &'static str,
    /// The key that was looked for.
    pub key: String,
}
