//! Numbers as files hold them: a sheet has a hundred thousand, so that they
//! are made of whole numbers, digit by digit, in a place of their own.

/// A number in writing: at most sixteen bytes, the first one lowest, so that
/// they are put together without touching memory.
#[derive(Clone, Copy, Debug)]
pub(super) struct Digits {
    word: u128,
    count: usize,
}

impl Digits {
    /// A whole number.
    #[inline]
    pub(super) fn whole(value: u32) -> Self {
        let mut digits = Self { word: 0, count: 0 };
        digits.put(u64::from(value));
        digits
    }

    /// A number rounded to so many places behind the point, all of them
    /// written. What is no number becomes nought.
    #[inline]
    pub(super) fn fixed<const PLACES: u32>(value: f64) -> Self {
        Self::of::<PLACES>(value, false)
    }

    /// The same without idle noughts behind the point.
    #[inline]
    pub(super) fn short<const PLACES: u32>(value: f64) -> Self {
        Self::of::<PLACES>(value, true)
    }

    #[inline]
    fn of<const PLACES: u32>(value: f64, is_short: bool) -> Self {
        let per_one = const { 10_u64.pow(PLACES) };
        #[expect(clippy::cast_precision_loss, reason = "a small power of ten")]
        let parts = rounded(value * per_one as f64);
        let (whole, mut part) = (parts.div_euclid(per_one), parts.rem_euclid(per_one));
        let mut digits = Self { word: 0, count: 0 };
        let mut left = if is_short && part == 0 { 0 } else { PLACES };
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

    /// Written at the end of these bytes.
    #[inline]
    pub(super) fn end(self, bytes: &mut Vec<u8>) {
        let whole = bytes.len() + self.count;
        // All sixteen, then cut: of a known size that is one step.
        bytes.extend_from_slice(&self.word.to_le_bytes());
        bytes.truncate(whole);
    }

    /// As text.
    pub(super) fn text(self) -> String {
        self.word.to_le_bytes()[..self.count].iter().map(|byte| char::from(*byte)).collect()
    }

    /// Before all others.
    #[inline]
    const fn push(&mut self, byte: u8) {
        self.word = (self.word << 8) | byte as u128;
        self.count += 1;
    }

    #[inline]
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
#[inline]
fn digit(value: u64) -> u8 {
    b'0' + u8::try_from(value.rem_euclid(10)).unwrap_or(0)
}

/// The size of a number to the nearest whole one, halves up; nought where it is
/// no number.
#[inline]
fn rounded(value: f64) -> u64 {
    /// The largest number below a half, so that sums do not round it up first.
    const HALF: f64 = 0.5 - 0.25 * f64::EPSILON;
    /// Fourteen digits: with a point and a sign they fill the word.
    const MOST: f64 = 99_999_999_999_999.0;
    #[expect(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "paper is small, and what is above is cut off"
    )]
    let size = if value.is_finite() { (value.abs() + HALF).min(MOST) as u64 } else { 0 };
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
            assert_eq!(Digits::fixed::<2>(value).text(), plain, "{value}");
            let short = plain.trim_end_matches('0').trim_end_matches('.');
            let short = if plain == "0.00" { "0" } else { short };
            assert_eq!(Digits::short::<2>(value).text(), short, "{value}");
        }
        assert_eq!(Digits::fixed::<3>(f64::NAN).text(), "0.000", "no number is nought");
        assert_eq!(Digits::whole(1_234_567).text(), "1234567", "a whole number");
        assert_eq!(Digits::fixed::<3>(-0.004_9).text(), "-0.005", "noughts before");
        assert_eq!(Digits::short::<1>(-0.25).text(), "-0.3", "halves away from nought");
        assert_eq!(Digits::fixed::<3>(-1e300).text(), "-99999999999.999", "the most there is");
        let mut bytes = b"x ".to_vec();
        Digits::short::<6>(-12.5).end(&mut bytes);
        assert_eq!(bytes, b"x -12.5", "behind what was there");
    }
}
