//! All tables together.

use std::collections::BTreeMap;

use super::shipped::SHIPPED;
use super::{Absent, Owner, Row, RuleError, SPECS, Spec, Table};
use crate::plan::Regime;

/// The tables of all regimes: those that ship, overridden by the user's own.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleBook {
    tables: BTreeMap<(Regime, &'static str), Table>,
}

impl Default for RuleBook {
    fn default() -> Self {
        Self::shipped()
    }
}

impl RuleBook {
    /// The tables that ship.
    ///
    /// # Panics
    /// When a shipped table cannot be read, which a test rules out.
    #[must_use]
    pub fn shipped() -> Self {
        let mut book = Self { tables: BTreeMap::new() };
        for (regime, name, text) in SHIPPED {
            book.add(*regime, name, text, Owner::Shipped).expect("every shipped table is tested");
        }
        book
    }

    /// The shipped tables, overridden row by row: same key, the user's value.
    /// Each override is a regime, the name of a table, and its text.
    ///
    /// # Errors
    /// [`RuleError`] where a table is unknown or cannot be read.
    pub fn with_overrides<'a>(
        overrides: impl IntoIterator<Item = (Regime, &'a str, &'a str)>,
    ) -> Result<Self, RuleError> {
        let mut book = Self::shipped();
        for (regime, name, text) in overrides {
            book.add(regime, name, text, Owner::User)?;
        }
        Ok(book)
    }

    fn add(
        &mut self,
        regime: Regime,
        name: &str,
        text: &str,
        owner: Owner,
    ) -> Result<(), RuleError> {
        let spec = Spec::named(name).ok_or_else(|| unknown(name))?;
        let table = Table::read(spec, text, owner)?;
        self.tables
            .entry((regime, spec.name))
            .or_insert_with(|| Table { spec, rows: indexmap::IndexMap::new() })
            .override_with(table);
        Ok(())
    }

    /// The row of a key in a regime's table, or else in the international one.
    ///
    /// # Errors
    /// [`Absent`] where neither has it.
    pub fn row(&self, regime: Regime, table: &'static str, keys: &[&str]) -> Result<&Row, Absent> {
        let within = |regime| self.tables.get(&(regime, table))?.row(keys);
        within(regime).or_else(|| within(Regime::Iec)).ok_or_else(|| Absent {
            regime: regime_folder(regime),
            table,
            key: keys.join(", "),
        })
    }

    /// All rows of a table: those of the regime, then the international ones
    /// whose keys the regime does not have.
    pub fn rows(&self, regime: Regime, table: &'static str) -> impl Iterator<Item = &Row> {
        let own = self.tables.get(&(regime, table));
        let base = self.tables.get(&(Regime::Iec, table)).filter(|_| regime != Regime::Iec);
        let taken = move |key: &String| own.is_some_and(|own| own.rows.contains_key(key));
        own.into_iter().flat_map(|own| own.rows.values()).chain(
            base.into_iter()
                .flat_map(|base| base.rows.iter())
                .filter(move |(key, _)| !taken(key))
                .map(|(_, row)| row),
        )
    }

    /// Every table with its regime, in a fixed order.
    pub fn tables(&self) -> impl Iterator<Item = (Regime, &Table)> {
        self.tables.iter().map(|((regime, _), table)| (*regime, table))
    }
}

/// The folder in which a regime's tables lie.
#[must_use]
pub const fn regime_folder(regime: Regime) -> &'static str {
    regime.key()
}

fn unknown(name: &str) -> RuleError {
    let nearest = SPECS
        .iter()
        .map(|spec| spec.name)
        .min_by_key(|known| strsim::levenshtein(known, name))
        .unwrap_or("");
    RuleError::UnknownTable { name: name.to_owned(), nearest }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_regime_without_a_row_leans_on_the_international_one() {
        let book = RuleBook::shipped();
        let size = |regime, size| {
            book.row(regime, "conductor_resistance", &["fixed", size]).unwrap().value()
        };
        assert_eq!(size(Regime::AsNzs, "1.5").to_bits(), 13.6f64.to_bits(), "its own row");
        assert_eq!(size(Regime::AsNzs, "2.5").to_bits(), 7.41f64.to_bits(), "IEC 60228");
    }

    #[test]
    fn the_user_overrides_one_row_and_is_named_for_it() {
        let text = "method,size_mm2,capacity_a,source\ntouching,2.50,30,my copy\n";
        let book = RuleBook::with_overrides([(Regime::AsNzs, "current_capacity", text)]).unwrap();
        let row = book.row(Regime::AsNzs, "current_capacity", &["touching", "2.5"]).unwrap();
        assert_eq!(row.value().to_bits(), 30.0f64.to_bits(), "the user's value");
        assert_eq!(row.credit(), "my copy (your own table)", "and the user's name");
    }

    #[test]
    fn a_wrong_table_is_refused_with_its_line() {
        let over = |name, text| RuleBook::with_overrides([(Regime::Bs, name, text)]).unwrap_err();
        assert_eq!(
            over("curent_capacity", "").to_string(),
            "there is no rule table \"curent_capacity\"; did you mean \"current_capacity\"?",
        );
        assert_eq!(
            over("current_capacity", "method,size_mm2,capacity_a,source\nC,2.5,lots,me\n")
                .to_string(),
            "current_capacity: line 2: \"capacity_a\" holds \"lots\", expected a number",
        );
        assert!(
            matches!(
                over("current_capacity", "method,size_mm2,capacity_a,source\nC,2.5,27,\n"),
                RuleError::Cell { .. }
            ),
            "a source must be there",
        );
    }
}
