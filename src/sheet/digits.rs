//! Numbers as files hold them: a sheet has a hundred thousand, so that they
//! are made of whole numbers, digit by digit, in a place of their own.

/// A number in writing.
#[derive(Debug)]
pub(super) struct Digits {
    bytes: [u8; 28],
    start: usize,
}

impl Digits {
    /// A whole number.
    pub(super) fn whole(value: u64) -> Self {
        let mut digits = Self { bytes: [0; 28], start: 28 };
        digits.put(value);
        digits
    }

    /// A number rounded to so many places behind the point, all of them
    /// written. What is no number becomes nought.
    pub(super) fn fixed(value: f64, places: u32) -> Self {
        Self::of(value, places, false)
    }

    /// The same without idle noughts behind the point.
    pub(super) fn short(value: f64, places: u32) -> Self {
        Self::of(value, places, true)
    }

    fn of(value: f64, places: u32, is_short: bool) -> Self {
        let per_one = 10_u64.pow(places);
        #[expect(clippy::cast_precision_loss, reason = "a small power of ten")]
        let parts = rounded(value * per_one as f64);
        let (whole, mut part) = (parts.div_euclid(per_one), parts.rem_euclid(per_one));
        let mut digits = Self { bytes: [0; 28], start: 28 };
        let mut left = if is_short && part == 0 { 0 } else { places };
        while is_short && left > 0 && part.is_multiple_of(10) {
            part = part.div_euclid(10);
            left -= 1;
        }
        if left > 0 {
            for _ in 0..left {
                digits.push(digit(part));
                part = part.div_euclid(10);
            }
            digits.push(b'.');
        }
        digits.put(whole);
        // Never minus nought.
        if value < 0.0 && parts > 0 {
            digits.push(b'-');
        }
        digits
    }

    /// As text.
    pub(super) fn text(&self) -> &str {
        core::str::from_utf8(self.bytes()).unwrap_or("0")
    }

    /// As bytes.
    pub(super) fn bytes(&self) -> &[u8] {
        &self.bytes[self.start..]
    }

    fn push(&mut self, byte: u8) {
        self.start -= 1;
        self.bytes[self.start] = byte;
    }

    fn put(&mut self, mut value: u64) {
        loop {
            self.push(digit(value));
            value = value.div_euclid(10);
            if value == 0 {
                return;
            }
        }
    }
}

/// The last digit.
fn digit(value: u64) -> u8 {
    b'0' + u8::try_from(value.rem_euclid(10)).unwrap_or(0)
}

/// The size of a number to the nearest whole one, halves up; nought where it is
/// no number.
fn rounded(value: f64) -> u64 {
    /// The largest number below a half, so that sums do not round it up first.
    const HALF: f64 = 0.5 - 0.25 * f64::EPSILON;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "paper is small, and what is above is cut off"
    )]
    let size = if value.is_finite() { (value.abs() + HALF).min(1e15) as u64 } else { 0 };
    size
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Against the writing of the standard library, of numbers off any half.
    #[test]
    fn numbers_are_written_as_elsewhere() {
        for step in -40_000_i32..40_000 {
            let value = f64::from(step) * 0.001_373_13;
            let plain = format!("{value:.2}");
            let plain = if plain == "-0.00" { "0.00" } else { plain.as_str() };
            assert_eq!(Digits::fixed(value, 2).text(), plain, "{value}");
            let short = plain.trim_end_matches('0').trim_end_matches('.');
            let short = if plain == "0.00" { "0" } else { short };
            assert_eq!(Digits::short(value, 2).text(), short, "{value}");
        }
        assert_eq!(Digits::fixed(f64::NAN, 3).text(), "0.000", "no number is nought");
        assert_eq!(Digits::whole(1_234_567).text(), "1234567", "a whole number");
        assert_eq!(Digits::fixed(-0.004_9, 3).text(), "-0.005", "noughts before");
        assert_eq!(Digits::short(-0.25, 1).text(), "-0.3", "halves away from nought");
    }
}
