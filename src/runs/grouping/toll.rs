//! What overload costs while circuits are being improved.
//!
//! Where circuits are full, no point can change places without another making
//! room first. So circuits may be too full for a while, at a toll; it rises
//! until most of what is tried keeps to the limits, and falls again.

use super::task::{Load, Work};

/// For how many steps a toll stands.
const STEPS: u32 = 128;
/// In so many of them circuits should keep to their limits.
const WITHIN: u32 = 100;
/// The toll is this many times the mean at first, in 1024ths.
const FIRST: i64 = 1024;

/// What a point and what a watt beyond the limit cost.
#[derive(Clone, Copy, Debug)]
pub(super) struct Toll {
    point: i64,
    watt: i64,
}

impl Toll {
    /// Overload is out of the question.
    pub(super) const NEVER: Self = Self { point: 1 << 60, watt: 1 << 60 };

    /// What so much beyond all limits comes to.
    pub(super) fn of(self, over: Load) -> i64 {
        let points = i64::from(over.points).saturating_mul(self.point);
        points.saturating_add(i64::from(over.watts).saturating_mul(self.watt))
    }

    /// What a further load on a circuit comes to.
    pub(super) fn more(self, limit: Load, load: Load, further: Load) -> i64 {
        let all = load.and(further);
        if all.within(limit) {
            return 0;
        }
        self.of(all.without(limit)).saturating_sub(self.of(load.without(limit)))
    }
}

/// A toll that rises and falls.
#[derive(Debug)]
pub(super) struct Tolls {
    /// What it is multiplied with, in 1024ths.
    factor: i64,
    /// The mean leg, by the mean load of a point.
    mean: Toll,
    within: u32,
    /// The toll as it stands.
    pub(super) now: Toll,
}

impl Tolls {
    /// By what the first circuits weigh.
    pub(super) fn new(work: &Work<'_>, weight: i64) -> Self {
        let sum = |part: fn(&Load) -> u32| -> i64 {
            let loads = work.loads.iter().skip(1).map(part);
            loads.map(i64::from).sum::<i64>().max(1)
        };
        let (points, watts) = (sum(|load| load.points), sum(|load| load.watts));
        // Weights may need all 62 bits: no room for more than the factor.
        let weight = weight.min(1 << 50);
        let mean =
            Toll { point: weight.div_euclid(points).max(1), watt: weight.div_euclid(watts).max(1) };
        Self { factor: FIRST, mean, within: 0, now: mean }
    }

    /// After every step: whether all circuits kept to their limits.
    pub(super) fn step(&mut self, step: u32, within: bool) {
        self.within += u32::from(within);
        if step.rem_euclid(STEPS) != STEPS - 1 {
            return;
        }
        let up = self.within < WITHIN;
        self.factor = ((self.factor * if up { 9 } else { 7 }) >> 3).clamp(16, 1 << 20);
        self.within = 0;
        let times = |toll: i64| {
            let product = i128::from(toll) * i128::from(self.factor);
            i64::try_from(product >> 10).unwrap_or(i64::MAX).max(1)
        };
        self.now = Toll { point: times(self.mean.point), watt: times(self.mean.watt) };
    }
}
