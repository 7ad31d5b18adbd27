//! What makes one cut plan better than another.

use serde::Serialize;

/// One goal: what the plan reaches, and what no plan can better.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Goal {
    /// What the plan reaches.
    pub value: i64,
    /// No plan that is as good by the goals before this one reaches less.
    pub bound: i64,
}

impl Goal {
    /// Whether nothing better is possible.
    #[must_use]
    pub const fn is_proven(self) -> bool {
        self.value <= self.bound
    }

    /// The most by which another plan could be better.
    #[must_use]
    pub const fn gap(self) -> i64 {
        if self.value > self.bound { self.value - self.bound } else { 0 }
    }
}

/// The goals, first things first; less is better in each.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub struct Goals {
    /// What the new drums cost, in the currency's smallest unit; mm bought
    /// where not every drum has a price.
    pub paid: Goal,
    /// Left-overs too short to keep, mm.
    pub scrap: Goal,
    /// Taken from new drums, mm: the less, the larger is what is left on them.
    pub from_drums: Goal,
    /// How many drums and off-cuts are cut into.
    pub sources: Goal,
}

impl Goals {
    /// What the plan reaches, to be compared in order.
    #[must_use]
    pub const fn values(&self) -> [i64; 4] {
        [self.paid.value, self.scrap.value, self.from_drums.value, self.sources.value]
    }

    /// What no plan can better.
    #[must_use]
    pub const fn bounds(&self) -> [i64; 4] {
        [self.paid.bound, self.scrap.bound, self.from_drums.bound, self.sources.bound]
    }

    /// Whether no plan is better by any goal.
    #[must_use]
    pub const fn are_proven(&self) -> bool {
        self.paid.is_proven()
            && self.scrap.is_proven()
            && self.from_drums.is_proven()
            && self.sources.is_proven()
    }
}
