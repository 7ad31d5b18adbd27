//! Money in the currency's smallest unit.

use std::iter::Sum;
use std::ops::{Add, AddAssign, Sub};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

/// An amount in whole cents, pence or whatever the currency's smallest unit is.
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
pub struct Cents(i64);

impl Cents {
    /// Nothing to pay.
    pub const ZERO: Self = Self(0);

    /// So many cents.
    #[must_use]
    pub const fn new(cents: i64) -> Self {
        Self(cents)
    }

    /// The number of cents.
    #[must_use]
    pub const fn get(self) -> i64 {
        self.0
    }
}

impl Add for Cents {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self(self.0 + other.0)
    }
}

impl AddAssign for Cents {
    fn add_assign(&mut self, other: Self) {
        self.0 += other.0;
    }
}

impl Sub for Cents {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        Self(self.0 - other.0)
    }
}

impl Sum for Cents {
    fn sum<I: Iterator<Item = Self>>(amounts: I) -> Self {
        amounts.fold(Self::ZERO, Add::add)
    }
}
