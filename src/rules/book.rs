//! All tables together.

use super::shipped::SHIPPED;
use super::tables::Own;
use super::{Listed, Owner, RuleError, Tables};
use crate::plan::Regime;

/// The tables of all regimes: those that ship, overridden by the user's own.
#[derive(Clone, Debug, PartialEq)]
pub struct RuleBook {
    /// What each regime has itself, by the order of [`REGIMES`].
    own: [Own; 3],
    /// The same over what holds everywhere.
    tables: [Tables; 3],
}

/// Every regime; the international one last, on which the others lean.
pub const REGIMES: [Regime; 3] = [Regime::AsNzs, Regime::Bs, Regime::Iec];

const fn place(regime: Regime) -> usize {
    match regime {
        Regime::AsNzs => 0,
        Regime::Bs => 1,
        Regime::Iec => 2,
    }
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
        Self::whole(SHIPPED.iter().copied()).expect("every shipped table is tested")
    }

    /// A whole set of tables in place of those that ship: each a regime, the
    /// name of a table, and its text.
    ///
    /// # Errors
    /// [`RuleError`] where a table is missing, is unknown or cannot be read.
    pub fn whole<'a>(
        tables: impl IntoIterator<Item = (Regime, &'a str, &'a str)>,
    ) -> Result<Self, RuleError> {
        let mut own = <[Own; 3]>::default();
        add(&mut own, tables, Owner::Shipped)?;
        Self::of_own(own)
    }

    /// The shipped tables, overridden row by row: same key, the user's value.
    /// Each override is a regime, the name of a table, and its text.
    ///
    /// # Errors
    /// [`RuleError`] where a table is unknown or cannot be read.
    pub fn with_overrides<'a>(
        overrides: impl IntoIterator<Item = (Regime, &'a str, &'a str)>,
    ) -> Result<Self, RuleError> {
        let mut own = Self::shipped().own;
        add(&mut own, overrides, Owner::User)?;
        Self::of_own(own)
    }

    fn of_own(own: [Own; 3]) -> Result<Self, RuleError> {
        let [as_nzs, bs, iec] = &own;
        iec.check_all_there(regime_folder(Regime::Iec))?;
        let over = |regime, tables| Tables::gather(regime_folder(regime), tables, iec);
        let tables = [over(Regime::AsNzs, as_nzs)?, over(Regime::Bs, bs)?, over(Regime::Iec, iec)?];
        Ok(Self { own, tables })
    }

    /// The tables of a regime, the international ones where it has no row.
    #[must_use]
    pub const fn of(&self, regime: Regime) -> &Tables {
        &self.tables[place(regime)]
    }

    /// Every table with its regime, in a fixed order, as it was read.
    pub fn listed(&self) -> impl Iterator<Item = (Regime, Listed)> + '_ {
        let of = |(regime, own): (Regime, &Own)| own.listed().into_iter().map(move |t| (regime, t));
        REGIMES.into_iter().zip(&self.own).flat_map(of)
    }
}

fn add<'a>(
    own: &mut [Own; 3],
    tables: impl IntoIterator<Item = (Regime, &'a str, &'a str)>,
    owner: Owner,
) -> Result<(), RuleError> {
    for (regime, name, text) in tables {
        let file = format!("{}/{name}.csv", regime_folder(regime));
        own[place(regime)].add(name, &file, text, owner)?;
    }
    Ok(())
}

/// The folder in which a regime's tables lie.
#[must_use]
pub const fn regime_folder(regime: Regime) -> &'static str {
    regime.key()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::Method;
    use crate::rules::words::Strand;
    use crate::units::Csa;

    #[test]
    fn a_regime_without_a_row_leans_on_the_international_one() {
        let book = RuleBook::shipped();
        let size = |regime, hundredths| {
            let key = (Strand::Fixed, Csa::from_hundredths(hundredths));
            book.of(regime).conductor_resistance.row(key).unwrap().resistance.0
        };
        assert_eq!(size(Regime::AsNzs, 150).to_bits(), 13.6f64.to_bits(), "its own row");
        assert_eq!(size(Regime::AsNzs, 250).to_bits(), 7.41f64.to_bits(), "IEC 60228");
    }

    #[test]
    fn the_user_overrides_one_row_and_is_named_for_it() {
        let text = "method,size_mm2,capacity_a,source\ntouching,2.50,30,my copy\n";
        let book = RuleBook::with_overrides([(Regime::AsNzs, "current_capacity", text)]).unwrap();
        let key = (Method("touching".to_owned()), Csa::from_hundredths(250));
        let row = book.of(Regime::AsNzs).current_capacity.row(key).unwrap();
        assert_eq!(row.capacity.0.to_bits(), 30.0f64.to_bits(), "the user's value");
        assert_eq!(row.credit(), "my copy (your own table)", "and the user's name");
    }

    #[test]
    fn a_wrong_table_is_refused_with_its_line() {
        let over = |name, text| RuleBook::with_overrides([(Regime::Bs, name, text)]).unwrap_err();
        assert_eq!(
            over("curent_capacity", "").to_string(),
            "bs/curent_capacity.csv: there is no rule table \"curent_capacity\"; \
             did you mean \"current_capacity\"?",
        );
        assert_eq!(
            over("current_capacity", "method,size_mm2,capacity_a,source\nC,2.5,lots,me\n")
                .to_string(),
            "bs/current_capacity.csv: line 2: \"capacity_a\" holds \"lots\", expected a number",
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
