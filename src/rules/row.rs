//! What a table is, and what a row of it is.

use super::{Cells, Cited, Column, Key, RuleError};

/// The heading of a column.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Heading {
    /// As the file writes it, its unit at the end.
    pub name: &'static str,
    /// The unit; empty where there is none.
    pub unit: &'static str,
    /// What a person should write below it.
    pub expected: &'static str,
}

impl Heading {
    /// Of a column that holds cells of a type.
    #[must_use]
    pub const fn of<T: Column>(name: &'static str) -> Self {
        Self { name, unit: T::UNIT, expected: T::EXPECTED }
    }

    /// Whether the heading says the unit of what stands below it: as its end,
    /// or before `_min` or `_max`. Checked when the house is built.
    pub(super) const fn says_its_unit(&self) -> bool {
        let (name, unit) = (self.name.as_bytes(), self.unit.as_bytes());
        let end = match name {
            [start @ .., b'_', b'm', b'i', b'n'] | [start @ .., b'_', b'm', b'a', b'x'] => {
                start.len()
            }
            _ => name.len(),
        };
        if unit.len() > end {
            return false;
        }
        let mut at = 0;
        while at < unit.len() {
            if name[end - unit.len() + at] != unit[at] {
                return false;
            }
            at += 1;
        }
        true
    }
}

/// How physics says a value must go as a key rises, the other keys alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trend {
    /// Never falls.
    Rising {
        /// The key column, a number.
        by: &'static str,
        /// The value column.
        value: &'static str,
    },
    /// Never rises.
    Falling {
        /// The key column, a number.
        by: &'static str,
        /// The value column.
        value: &'static str,
    },
}

/// What a table is: its name and columns. Every table also has `source`,
/// `grade` and `note`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Spec {
    /// The name of its file, without `.csv`.
    pub name: &'static str,
    /// The key columns.
    pub keys: &'static [Heading],
    /// The value columns.
    pub values: &'static [Heading],
    /// What physics says of it.
    pub trend: Option<Trend>,
}

impl Spec {
    /// All columns with a meaning of their own: keys, then values.
    pub fn headings(&self) -> impl Iterator<Item = &'static Heading> + use<> {
        self.keys.iter().chain(self.values)
    }
}

/// A row of a table, its columns as named fields.
pub trait Row: Clone {
    /// What finds it.
    type Key: Key;
    /// What its table is.
    const SPEC: Spec;

    /// From the cells of a line, keys first.
    ///
    /// # Errors
    /// [`RuleError`] where a cell does not hold what its column asks for.
    fn read(cells: &mut Cells<'_>) -> Result<Self, RuleError>;

    /// What finds it.
    #[must_use]
    fn key(&self) -> Self::Key;

    /// Its cells as a file has them, keys first.
    #[must_use]
    fn texts(&self) -> Vec<String>;

    /// Where it comes from.
    #[must_use]
    fn cited(&self) -> &Cited;
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Amps, Csa, Seconds};

    #[test]
    fn a_heading_says_the_unit_of_what_stands_below_it() {
        assert!(Heading::of::<Amps>("capacity_a").says_its_unit(), "at its end");
        assert!(Heading::of::<Csa>("size_mm2_max").says_its_unit(), "before max");
        assert!(Heading::of::<f64>("factor").says_its_unit(), "no unit to say");
        assert!(!Heading::of::<Amps>("capacity_ma").says_its_unit(), "milliamperes");
        assert!(!Heading::of::<Amps>("capacity").says_its_unit(), "none");
        assert!(!Heading::of::<Seconds>("time_ms").says_its_unit(), "milliseconds");
    }
}
