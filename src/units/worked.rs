//! How a figure came about, so that every number can answer for itself.

use serde::Serialize;

/// One line of a working: what it is, how much, and why.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Term {
    /// What the term is: `drop from ceiling to point`.
    pub what: String,
    /// How much, with its unit: `2 100 mm`.
    pub value: String,
    /// Where it comes from: `plan`, `allowance`, a table's source line.
    pub source: String,
}

/// The terms, the formula and the source behind a figure.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Working {
    /// In symbols or words: `route + tails, rounded up to 100 mm`.
    pub formula: String,
    /// The terms in the order in which they enter.
    pub terms: Vec<Term>,
}

/// A value together with its working.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Worked<T> {
    /// The figure.
    pub value: T,
    /// How it came about.
    pub working: Working,
}

impl Term {
    /// A term from anything that can be written.
    #[must_use]
    pub fn new(what: impl Into<String>, value: impl ToString, source: impl Into<String>) -> Self {
        Self { what: what.into(), value: value.to_string(), source: source.into() }
    }
}
