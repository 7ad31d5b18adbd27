//! Tables as they are asked: those of a regime over the international ones.

use super::read::Rows;
use super::{Absent, Every, Key, Row, RuleError};

/// A table that holds what rows there are: for a key that none has, what
/// needs it cannot be known.
#[derive(Clone, Debug, PartialEq)]
pub struct Table<R> {
    /// The folder of the regime.
    regime: String,
    rows: Rows<R>,
}

impl<R: Row> Table<R> {
    /// The row of a key.
    ///
    /// # Errors
    /// [`Absent`] where neither the regime nor the international table has it.
    pub fn row(&self, key: R::Key) -> Result<&R, Absent> {
        let text = key.text();
        self.rows.get(&text).ok_or_else(|| self.lacks(text))
    }

    /// All rows: those of the regime, then the international ones whose keys
    /// the regime does not have.
    pub fn rows(&self) -> impl Iterator<Item = &R> {
        self.rows.values()
    }

    /// That it has nothing for what was looked for among its rows.
    #[must_use]
    pub fn lacks(&self, key: String) -> Absent {
        Absent { regime: self.regime.clone(), table: R::SPEC.name, key }
    }
}

/// A table that has a row for every key there is, which is seen to when it is
/// read, so that asking it cannot fail.
#[derive(Clone, Debug, PartialEq)]
pub struct Complete<R> {
    /// By the ordinals of their keys.
    rows: Vec<R>,
}

impl<R: Row> Complete<R>
where
    R::Key: Every,
{
    /// The row of a key.
    #[must_use]
    pub fn row(&self, key: R::Key) -> &R {
        &self.rows[key.ordinal()]
    }
}

/// How a table comes of the rows of a regime, those that it inherits among
/// them.
pub(super) trait Gathered<R>: Sized {
    /// With the name of the regime's folder.
    fn gather(folder: &str, rows: &Rows<R>) -> Result<Self, RuleError>;
}

impl<R: Row> Gathered<R> for Table<R> {
    fn gather(folder: &str, rows: &Rows<R>) -> Result<Self, RuleError> {
        Ok(Self { regime: folder.to_owned(), rows: rows.clone() })
    }
}

impl<R: Row> Gathered<R> for Complete<R>
where
    R::Key: Every,
{
    fn gather(folder: &str, rows: &Rows<R>) -> Result<Self, RuleError> {
        let row = |key: R::Key| {
            let text = key.text();
            rows.get(&text).cloned().ok_or_else(|| RuleError::MissingRow {
                file: format!("{folder}/{}.csv", R::SPEC.name),
                key: text,
            })
        };
        Ok(Self { rows: R::Key::every().into_iter().map(row).collect::<Result<_, _>>()? })
    }
}
