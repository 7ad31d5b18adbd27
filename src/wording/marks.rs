//! How figures are marked: the decimal mark, what stands between thousands, the
//! sign of what is less than nothing. One place for all of it.

use crate::units::{Cents, Mm};

/// The marks that figures are written with.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Marks {
    /// Between the whole and its parts.
    pub decimal: char,
    /// Between groups of three digits of the whole; empty where they stand
    /// together.
    pub thousands: &'static str,
    /// Before what is less than nothing.
    pub minus: char,
}

impl Marks {
    /// Of files and lists that programs read, whatever the language.
    pub const FILES: Self = Self { decimal: '.', thousands: "", minus: '-' };
    /// Of papers and of what the command line prints.
    pub const PRINTED: Self = Self::FILES;
    /// Of comparisons, where a minus is told from a dash.
    pub const COMPARED: Self = Self { minus: '−', ..Self::PRINTED };
    /// Of the window, where long figures stand alone.
    pub const SHOWN: Self = Self { thousands: " ", ..Self::PRINTED };

    /// A number to so many decimals.
    #[must_use]
    pub fn decimals(self, value: f64, decimals: usize) -> String {
        self.marked(&format!("{value:.decimals$}"))
    }

    /// The same without idle noughts at its end: `16`, `13.5`.
    #[must_use]
    pub fn short(self, value: f64, decimals: usize) -> String {
        let text = format!("{value:.decimals$}");
        if text.contains('.') {
            self.marked(text.trim_end_matches('0').trim_end_matches('.'))
        } else {
            self.marked(&text)
        }
    }

    /// A whole number.
    #[must_use]
    pub fn whole(self, number: i64) -> String {
        self.marked(&number.to_string())
    }

    /// An amount in whole units with two decimals, exactly.
    #[must_use]
    pub fn money(self, amount: Cents) -> String {
        let (sign, cents) = (if amount < Cents::ZERO { "-" } else { "" }, amount.get().abs());
        self.marked(&format!("{sign}{}.{:02}", cents.div_euclid(100), cents.rem_euclid(100)))
    }

    /// A length in metres, exactly: to the centimetre, `2.40`, or where whole
    /// millimetres count to these, `2.405`.
    #[must_use]
    pub fn metres(self, length: Mm) -> String {
        if length.get().rem_euclid(10) == 0 {
            let text = self.metres_to_mm(length);
            text.strip_suffix('0').map_or_else(|| text.clone(), str::to_owned)
        } else {
            self.metres_to_mm(length)
        }
    }

    /// A length in metres to the millimetre, exactly: `2.400`.
    #[must_use]
    pub fn metres_to_mm(self, length: Mm) -> String {
        let (sign, mm) = (if length < Mm::ZERO { "-" } else { "" }, length.abs().get());
        self.marked(&format!("{sign}{}.{:03}", mm.div_euclid(1000), mm.rem_euclid(1000)))
    }

    /// Thousandths as percent, exactly: `10`, `12.5`.
    #[must_use]
    pub fn percent_of(self, permille: u16) -> String {
        let (whole, tenth) = (permille.div_euclid(10), permille.rem_euclid(10));
        if tenth == 0 { whole.to_string() } else { self.marked(&format!("{whole}.{tenth}")) }
    }

    /// A number as Rust writes it, with these marks instead.
    fn marked(self, plain: &str) -> String {
        let (sign, digits) = plain.strip_prefix('-').map_or(("", plain), |rest| ("-", rest));
        let (whole, part) =
            digits.split_once('.').map_or((digits, None), |(whole, part)| (whole, Some(part)));
        let mut text = String::with_capacity(plain.len() + 4);
        if !sign.is_empty() {
            text.push(self.minus);
        }
        let count = whole.chars().count();
        for (index, digit) in whole.chars().enumerate() {
            if index > 0 && (count - index).is_multiple_of(3) {
                text.push_str(self.thousands);
            }
            text.push(digit);
        }
        if let Some(part) = part {
            text.push(self.decimal);
            text.push_str(part);
        }
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_marks_are_those_that_are_asked_for() {
        let comma = Marks { decimal: ',', thousands: "\u{202f}", minus: '−' };
        assert_eq!(comma.money(Cents::new(-1_349_311)), "−13\u{202f}493,11");
        assert_eq!(comma.metres(Mm::new(1_234_567)), "1\u{202f}234,567");
        assert_eq!(comma.short(0.5, 3), "0,5");
        assert_eq!(comma.percent_of(125), "12,5");
        for (number, text) in [(0, "0"), (999, "999"), (1_000, "1 000"), (-1_234_567, "-1 234 567")]
        {
            assert_eq!(Marks::SHOWN.whole(number), text);
        }
    }

    #[test]
    fn figures_are_exact() {
        let marks = Marks::PRINTED;
        for (mm, text) in [(0, "0.00"), (2400, "2.40"), (-2405, "-2.405"), (-5, "-0.005")] {
            assert_eq!(marks.metres(Mm::new(mm)), text);
        }
        assert_eq!(Marks::COMPARED.metres(Mm::new(-2405)), "−2.405");
        assert_eq!(marks.metres_to_mm(Mm::new(30)), "0.030");
        for (cents, text) in [(0, "0.00"), (5, "0.05"), (-5, "-0.05"), (123_456, "1234.56")] {
            assert_eq!(marks.money(Cents::new(cents)), text);
        }
        assert_eq!(
            [0, 5, 100, 125, 1000].map(|it| marks.percent_of(it)),
            ["0", "0.5", "10", "12.5", "100"]
        );
        for (value, text) in [(16.0, "16"), (13.5, "13.5"), (100.0, "100"), (0.0, "0")] {
            assert_eq!(marks.short(value, 1), text);
        }
        assert_eq!(marks.short(1200.0, 0), "1200", "noughts of the whole stay");
    }
}
