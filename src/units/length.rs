//! Lengths and coordinates in whole millimetres.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign, Neg, Sub, SubAssign};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// A length or coordinate in whole millimetres.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    JsonSchema,
)]
#[serde(transparent)]
pub struct Mm(i64);

/// A quantity that a type of this room cannot hold.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum UnitError {
    /// Not a finite number, or outside what the type can hold.
    #[error("a number outside what this unit can hold")]
    OutOfRange,
}

impl Mm {
    /// No length at all.
    pub const ZERO: Self = Self(0);
    /// The largest coordinate a plan may use: 10 km either way, so that an
    /// orientation test on four of them is exact in `i64` and in `f64`.
    pub const COORDINATE_MAX: Self = Self(10_000_000);

    /// So many millimetres.
    #[must_use]
    pub const fn new(millimetres: i64) -> Self {
        Self(millimetres)
    }

    /// The number of millimetres.
    #[must_use]
    pub const fn get(self) -> i64 {
        self.0
    }

    /// The nearest whole millimetre, halves away from zero: the one rounding
    /// by which shapes computed in floating point come back into the model.
    ///
    /// # Errors
    /// [`UnitError::OutOfRange`] when the value is not finite or beyond a
    /// thousand times [`Mm::COORDINATE_MAX`].
    pub fn from_f64(millimetres: f64) -> Result<Self, UnitError> {
        if millimetres.is_finite() && millimetres.abs() <= 1.0e10 {
            #[expect(clippy::cast_possible_truncation, reason = "bounded on the line above")]
            Ok(Self(libm::round(millimetres) as i64))
        } else {
            Err(UnitError::OutOfRange)
        }
    }

    /// The same number as a float, for shape and physics. Exact below 2^53 mm.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "coordinates are far below 2^53")]
    pub const fn to_f64(self) -> f64 {
        self.0 as f64
    }

    /// Metres, for formulas in SI.
    #[must_use]
    pub fn metres(self) -> f64 {
        self.to_f64() / 1000.0
    }

    /// Without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }

    /// Twice, thrice … this length.
    #[must_use]
    pub const fn times(self, count: i64) -> Self {
        Self(self.0 * count)
    }

    /// Half of it, rounded towards zero.
    #[must_use]
    #[expect(clippy::integer_division, reason = "the rounding is stated")]
    pub const fn half(self) -> Self {
        Self(self.0 / 2)
    }

    /// The shortest whole step that covers this length, as a cable is cut.
    /// A step of zero or less leaves the length as it is.
    #[must_use]
    pub const fn round_up_to(self, step: Self) -> Self {
        if step.0 <= 0 {
            return self;
        }
        let over = self.0.rem_euclid(step.0);
        if over == 0 { self } else { Self(self.0 - over + step.0) }
    }

    /// So many thousandths of this length, rounded up: an allowance is never
    /// less than asked for.
    #[must_use]
    pub const fn permille_up(self, permille: i64) -> Self {
        let thousandths = self.0 * permille;
        Self(thousandths.div_euclid(1000) + if thousandths.rem_euclid(1000) == 0 { 0 } else { 1 })
    }
}

impl Add for Mm {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Mm {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Mm {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl SubAssign for Mm {
    fn sub_assign(&mut self, other: Self) {
        self.0 -= other.0;
    }
}

impl Neg for Mm {
    type Output = Self;
    fn neg(self) -> Self {
        Self(-self.0)
    }
}

impl Sum for Mm {
    fn sum<I: Iterator<Item = Self>>(lengths: I) -> Self {
        lengths.fold(Self::ZERO, Add::add)
    }
}

impl fmt::Display for Mm {
    /// As on a drawing: `1 200 mm` has no thousands mark here, so `1200 mm`.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm", self.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounding_up_covers_and_never_overshoots_a_step() {
        for (length, step, expect) in
            [(0, 100, 0), (1, 100, 100), (100, 100, 100), (101, 100, 200), (7, 0, 7)]
        {
            assert_eq!(Mm::new(length).round_up_to(Mm::new(step)), Mm::new(expect), "{length}");
        }
    }

    #[test]
    fn an_allowance_is_rounded_up() {
        assert_eq!(Mm::new(1001).permille_up(50), Mm::new(51), "5 % of 1001 is 50.05");
        assert_eq!(Mm::new(1000).permille_up(50), Mm::new(50), "5 % of 1000 is exactly 50");
    }

    #[test]
    fn floats_come_back_by_the_nearest_millimetre() {
        assert_eq!(Mm::from_f64(2.5), Ok(Mm::new(3)), "halves away from zero");
        assert_eq!(Mm::from_f64(-2.5), Ok(Mm::new(-3)), "halves away from zero");
        assert_eq!(Mm::from_f64(f64::NAN), Err(UnitError::OutOfRange), "not a number");
    }
}
