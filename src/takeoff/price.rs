//! Looking things up in the price book, and the one rounding of money.

use super::Quantity;
use crate::plan::{PriceBook, PriceItem};
use crate::units::Cents;

/// The price of a code: its own, or else that of what remains when the parts
/// behind its last underscores are dropped one by one. `box_masonry_35` may be
/// priced as `box_masonry_35`, `box_masonry` or `box`.
pub(super) fn find<'a>(prices: &'a PriceBook, code: &str, unit: &str) -> Option<&'a PriceItem> {
    let mut code = code;
    loop {
        let found = prices.items.iter().find(|item| item.code == code && item.unit == unit);
        if found.is_some() {
            return found;
        }
        code = code.rsplit_once('_')?.0;
    }
}

/// The unit by which a quantity is priced.
pub(super) const fn unit(quantity: Quantity) -> &'static str {
    match quantity {
        Quantity::Each(_) => "each",
        Quantity::Length(_) => "m",
    }
}

/// What a quantity costs at a price for one, or for one metre.
pub(super) fn amount(quantity: Quantity, price: Cents) -> Cents {
    match quantity {
        Quantity::Each(count) => Cents::new(i64::from(count).saturating_mul(price.get())),
        Quantity::Length(length) => share(price, length.get(), 1000),
    }
}

/// `part` of `whole` times an amount, to the nearest cent, halves up: the one
/// rounding of money. It is done once for every line, once for the margin and
/// once for the tax; sums are exact.
pub(super) fn share(amount: Cents, part: i64, whole: i64) -> Cents {
    let (numerator, whole) = (i128::from(amount.get()) * i128::from(part), i128::from(whole));
    let rounded = (2 * numerator + whole).div_euclid(2 * whole);
    Cents::new(i64::try_from(rounded).unwrap_or(i64::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Mm;

    #[test]
    fn money_is_rounded_half_up_once() {
        for (part, expect) in [(1, 3), (2, 5), (3, 8), (-2, -5), (-1, -2)] {
            assert_eq!(share(Cents::new(25), part, 10), Cents::new(expect), "{part} tenths of 25");
        }
        let metres = Quantity::Length(Mm::new(2500));
        assert_eq!(amount(metres, Cents::new(333)), Cents::new(833), "832.5 goes up");
    }

    #[test]
    fn a_code_falls_back_on_a_more_general_one_of_the_same_unit() {
        let item = |code: &str, unit: &str| PriceItem {
            code: code.to_owned(),
            name: String::new(),
            unit: unit.to_owned(),
            price: Cents::new(1),
        };
        let items = vec![item("box", "each"), item("box_hollow", "m")];
        let book = PriceBook { items, ..PriceBook::default() };
        let found = find(&book, "box_hollow_35", "each").map(|item| item.code.as_str());
        assert_eq!(found, Some("box"), "the unit decides too");
        assert_eq!(find(&book, "clip", "each"), None, "nothing is made up");
    }
}
