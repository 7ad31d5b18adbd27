//! Cost and length in one number, so that one search minimises both.

use crate::units::{Cost, Mm};

/// A cost and, among equal costs, a length: `cost · 2²² + length`.
///
/// Whole, so that equal is equal on every machine. A leg stays below 4 km
/// (2²² mm) and below 21 km of plain run in cost (2³¹ hundredths), so that a key
/// is also exact in an `f64`, whose minimum every processor has in wide form.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Key(i64);

const LENGTH_BITS: u32 = 22;

impl Key {
    /// Free and without length.
    pub const ZERO: Self = Self(0);
    /// No way. Far above every real key, and small enough to be added to.
    pub const NONE: Self = Self(1 << 60);
    /// The longest leg a key can hold, mm.
    pub const LENGTH_MAX: Mm = Mm::new((1 << LENGTH_BITS) - 1);

    /// From hundredths of cost and millimetres.
    #[must_use]
    pub const fn new(cost: i64, length: i64) -> Self {
        Self((cost << LENGTH_BITS) + length)
    }

    /// A straight move: so many millimetres at so many hundredths each.
    #[must_use]
    pub const fn run(length: i64, density: i64) -> Self {
        Self::new(length * density, length)
    }

    /// A toll without length.
    #[must_use]
    pub const fn toll(cost: Cost) -> Self {
        Self::new(cost.get(), 0)
    }

    /// Whether there is a way at all.
    #[must_use]
    pub const fn is_way(self) -> bool {
        self.0 < Self::NONE.0
    }

    /// The cost in it.
    #[must_use]
    pub const fn cost(self) -> Cost {
        Cost::new(self.0 >> LENGTH_BITS)
    }

    /// The length in it.
    #[must_use]
    pub const fn length(self) -> Mm {
        Mm::new(self.0 & ((1 << LENGTH_BITS) - 1))
    }

    /// One after the other.
    #[must_use]
    pub const fn then(self, next: Self) -> Self {
        let sum = self.0 + next.0;
        if sum >= Self::NONE.0 { Self::NONE } else { Self(sum) }
    }

    /// For wide arithmetic; infinite where there is no way.
    #[must_use]
    #[expect(clippy::cast_precision_loss, reason = "keys of ways are below 2^53")]
    pub const fn to_lane(self) -> f64 {
        if self.is_way() { self.0 as f64 } else { f64::INFINITY }
    }

    /// Back from wide arithmetic.
    #[must_use]
    #[expect(clippy::cast_possible_truncation, reason = "finite lanes are whole and below 2^53")]
    pub const fn from_lane(lane: f64) -> Self {
        if lane.is_finite() { Self(lane as i64) } else { Self::NONE }
    }

    /// The key as a whole number: the order of keys is the order of these.
    #[must_use]
    pub const fn get(self) -> i64 {
        self.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cost_comes_first_and_length_breaks_ties() {
        assert!(Key::new(5, 900) < Key::new(6, 0), "cheaper wins whatever the length");
        assert!(Key::new(5, 899) < Key::new(5, 900), "of equal cost the shorter wins");
        let sum = Key::new(5, 900).then(Key::run(100, 150));
        assert_eq!((sum.cost(), sum.length()), (Cost::new(15_005), Mm::new(1000)));
        assert_eq!(Key::from_lane(sum.to_lane()), sum, "exact in a float");
        assert_eq!(Key::from_lane(Key::NONE.to_lane()), Key::NONE);
    }
}
