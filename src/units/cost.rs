//! What steers a route.

use std::fmt;
use std::iter::Sum;
use std::ops::{Add, AddAssign};

use serde::{Deserialize, Serialize};

/// What a route is chosen by, in hundredths of a millimetre of plain run.
///
/// Cost steers, length is reported: the two are never mixed. It is whole, so
/// that two routes of equal cost are equal on every machine, and in
/// hundredths, so that a percentage of a whole millimetre is whole too.
#[derive(
    Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize,
)]
#[serde(transparent)]
pub struct Cost(i64);

impl Cost {
    /// Free.
    pub const ZERO: Self = Self(0);
    /// How much one millimetre of plain run costs.
    pub const PER_MM: i64 = 100;

    /// So many hundredths of a millimetre of plain run.
    #[must_use]
    pub const fn new(hundredths: i64) -> Self {
        Self(hundredths)
    }

    /// As much as this many millimetres of plain run.
    #[must_use]
    pub const fn of_mm(millimetres: i64) -> Self {
        Self(millimetres * Self::PER_MM)
    }

    /// The number of hundredths.
    #[must_use]
    pub const fn get(self) -> i64 {
        self.0
    }
}

impl Add for Cost {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Cost {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sum for Cost {
    fn sum<I: Iterator<Item = Self>>(costs: I) -> Self {
        costs.fold(Self::ZERO, Add::add)
    }
}

impl fmt::Display for Cost {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}.{:02}", self.0.div_euclid(100), self.0.rem_euclid(100))
    }
}
