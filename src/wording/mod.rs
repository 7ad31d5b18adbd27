//! Numbers, units, money and things in words: written once, for papers, findings, lists,
//! the window and the command line.
//!
//! [`Marks`] holds the decimal mark and the grouping; the functions here write
//! with those of papers and add the unit. [`Word`] is what the trade calls a
//! thing, by language; [`Local`] is how the papers of a regime speak. This room knows no plan.

mod local;
mod marks;
mod word;

pub use local::Local;
pub use marks::Marks;
pub use word::Word;

use crate::units::{Amps, Cents, Mm};

/// What figures on papers are written with.
const MARKS: Marks = Marks::PRINTED;

/// A length in metres, exactly: `2.40 m`, `2.405 m`.
#[must_use]
pub fn metres(length: Mm) -> String {
    format!("{} m", figure(length))
}

/// The same without its unit, where that stands elsewhere.
#[must_use]
pub fn figure(length: Mm) -> String {
    MARKS.metres(length)
}

/// A height as drawings give it, in metres to the nearest centimetre, without
/// its unit.
#[must_use]
pub fn height(height: Mm) -> String {
    MARKS.decimals(height.metres(), 2)
}

/// A length in metres to the millimetre, without its unit.
#[must_use]
pub fn metres_to_mm(length: Mm) -> String {
    MARKS.metres_to_mm(length)
}

/// Metres with two decimals, rounded up, as a length to cut is; without its
/// unit.
#[must_use]
pub fn metres_to_cut(length: Mm) -> String {
    MARKS.metres(length.round_up_to(Mm::new(10)))
}

/// Metres to one decimal: `3.2 m`.
#[must_use]
pub fn metres_about(metres: f64) -> String {
    format!("{} m", MARKS.decimals(metres, 1))
}

/// Square metres to one decimal: `12.4 m²`.
#[must_use]
pub fn square_metres(area: f64) -> String {
    format!("{} m²", MARKS.decimals(area, 1))
}

/// An amount without its currency: `14.50`.
#[must_use]
pub fn amount(amount: Cents) -> String {
    MARKS.money(amount)
}

/// An amount after its currency, as papers have it: `AUD 14.50`.
#[must_use]
pub fn money(currency: &str, amount: Cents) -> String {
    format!("{currency} {}", MARKS.money(amount)).trim().to_owned()
}

/// An amount before its currency, as columns have it: `14.50 AUD`.
#[must_use]
pub fn money_in_column(currency: &str, amount: Cents) -> String {
    format!("{} {currency}", MARKS.money(amount)).trim_end().to_owned()
}

/// Thousandths as percent: `12.5 %`.
#[must_use]
pub fn percent_of(permille: u16) -> String {
    format!("{} %", MARKS.percent_of(permille))
}

/// Percent to one decimal: `4.7 %`.
#[must_use]
pub fn percent(value: f64) -> String {
    format!("{} %", MARKS.decimals(value, 1))
}

/// A current to one decimal, none where it is nought: `16 A`, `13.5 A`.
#[must_use]
pub fn amps(value: f64) -> String {
    format!("{} A", MARKS.short(value, 1))
}

/// The current that a residual current device trips at: `30 mA`.
#[must_use]
pub fn residual(current: Amps) -> String {
    // To the microampere: what is left is how floating point writes 0.03.
    format!("{} mA", libm::round(current.0 * 1e6) / 1e3)
}

/// A resistance or impedance to three decimals: `0.300 Ω`.
#[must_use]
pub fn ohms(value: f64) -> String {
    format!("{} Ω", MARKS.decimals(value, 3))
}

/// A number to so many decimals at most, without idle noughts.
#[must_use]
pub fn short(value: f64, decimals: usize) -> String {
    MARKS.short(value, decimals)
}

/// A number to so many decimals.
#[must_use]
pub fn decimals(value: f64, decimals: usize) -> String {
    MARKS.decimals(value, decimals)
}

/// Hours to two decimals, rounded up, without their unit.
#[must_use]
pub fn hours(minutes: i64) -> String {
    let hundredths = (minutes * 100 + 59).div_euclid(60);
    MARKS.money(Cents::new(hundredths))
}

/// A text in quotation marks, what cannot be printed escaped.
#[must_use]
pub fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for sign in text.chars() {
        // A single quotation mark needs no escape between double ones.
        if sign == '\'' {
            quoted.push(sign);
        } else {
            quoted.extend(sign.escape_debug());
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn figures_have_their_units() {
        assert_eq!(
            (percent_of(100), percent_of(25)),
            ("10 %".to_owned(), "2.5 %".to_owned()),
            "shares"
        );
        assert_eq!(metres(Mm::new(2405)), "2.405 m");
        assert_eq!(metres_to_cut(Mm::new(2401)), "2.41", "a length to cut is never less");
        assert_eq!(metres_to_cut(Mm::new(2400)), "2.40");
        assert_eq!(money("", Cents::new(1450)), "14.50", "no currency, no gap");
        assert_eq!(money_in_column("AUD", Cents::new(-1450)), "-14.50 AUD");
        for (amps, text) in [(0.03, "30 mA"), (0.3, "300 mA"), (0.006, "6 mA")] {
            assert_eq!(residual(Amps(amps)), text);
        }
        assert_eq!(quoted("a\u{7}\n\"b'"), r#""a\u{7}\n\"b'""#);
        assert_eq!(hours(90), "1.50");
        assert_eq!(hours(1), "0.02", "rounded up");
    }
}
