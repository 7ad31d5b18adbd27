//! Where a row comes from.

use super::{Grade, Owner};

/// Where the values of a row come from, how sure they are and whose.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Cited {
    /// Where they come from.
    pub source: String,
    /// How sure they are.
    pub grade: Grade,
    /// What else there is to say.
    pub note: String,
    /// Whose they are.
    pub owner: Owner,
}

impl Cited {
    /// In one line, as findings and workings say it.
    #[must_use]
    pub fn credit(&self) -> String {
        match self.owner {
            Owner::User => format!("{} (your own table)", self.source),
            Owner::Shipped => format!("{} (grade {})", self.source, self.grade.letter()),
        }
    }
}
