//! What overload costs while circuits are being improved.
//!
//! Where circuits are full, no point can change places without another making
//! room first. So circuits may be too full for a while, at a penalty; it rises
//! until most of what is tried keeps to the limits, and falls again.

use super::task::Load;

/// For how many steps a penalty stands.
const STEPS: u32 = 128;
/// In so many of them circuits should keep to their limits.
const WITHIN: u32 = 80;
/// The penalty is this many times the mean at first, in 1024ths.
const FIRST: i64 = 1024;
/// No penalty is higher: dearer than two missing legs.
pub(super) const NEVER: i32 = 1 << 29;

/// What is left of a limit; below nothing where it is exceeded.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) struct Room {
    pub(super) points: i32,
    pub(super) watts: i32,
}

impl Room {
    /// Loads are never so high that sums of them do not fit.
    pub(super) fn of(load: Load) -> Self {
        let part = |part: u32| i32::try_from(part).unwrap_or(i32::MAX).min(1 << 20);
        Self { points: part(load.points), watts: part(load.watts) }
    }

    pub(super) fn less(self, taken: Self) -> Self {
        Self { points: self.points - taken.points, watts: self.watts - taken.watts }
    }

    pub(super) fn more(self, given: Self) -> Self {
        Self { points: self.points + given.points, watts: self.watts + given.watts }
    }

    /// What lies beyond the limit.
    pub(super) fn over(self) -> Self {
        Self { points: (-self.points).max(0), watts: (-self.watts).max(0) }
    }
}

/// What a point and what a watt beyond the limit cost.
#[derive(Clone, Copy, Debug)]
pub(super) struct Penalty {
    point: i64,
    watt: i64,
}

impl Penalty {
    /// Overload is out of the question.
    pub(super) const ALL: Self = Self { point: NEVER as i64, watt: NEVER as i64 };

    /// What so much beyond all limits comes to.
    pub(super) fn of(self, over: Room) -> i64 {
        i64::from(over.points) * self.point + i64::from(over.watts) * self.watt
    }

    /// What a further load on each of the circuits comes to, at the most
    /// [`NEVER`] for the whole of it.
    pub(super) fn add(self, points: &[i32], watts: &[i32], load: Room, extra: &mut [i32]) {
        let beyond = |room: i32, load: i32| (load - room).max(0) - (-room).max(0);
        let each = |penalty: i64, load: i32| {
            i32::try_from(penalty.min(i64::from(NEVER.div_euclid(load.max(1))))).unwrap_or(NEVER)
        };
        let penalty = each(self.point, load.points);
        for (extra, room) in extra.iter_mut().zip(points) {
            *extra = penalty * beyond(*room, load.points);
        }
        if load.watts > 0 {
            let penalty = each(self.watt, load.watts);
            for (extra, room) in extra.iter_mut().zip(watts) {
                *extra = (*extra + penalty * beyond(*room, load.watts)).min(NEVER);
            }
        }
    }
}

/// A penalty that rises and falls.
#[derive(Debug)]
pub(super) struct Penalties {
    /// What it is multiplied with, in 1024ths.
    factor: i64,
    /// The mean leg, by the mean load of a point.
    mean: Penalty,
    within: u32,
    /// The penalty as it stands.
    pub(super) now: Penalty,
}

impl Penalties {
    /// By what the first circuits weigh.
    pub(super) fn new(loads: &[Room], weight: i64) -> Self {
        let sum = |part: fn(&Room) -> i32| -> i64 {
            loads.iter().skip(1).map(part).map(i64::from).sum::<i64>().max(1)
        };
        let (points, watts) = (sum(|load| load.points), sum(|load| load.watts));
        let mean = Penalty {
            point: weight.div_euclid(points).max(1),
            watt: weight.div_euclid(watts).max(1),
        };
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
        let times = |penalty: i64| ((penalty * self.factor) >> 10).clamp(1, i64::from(NEVER));
        self.now = Penalty { point: times(self.mean.point), watt: times(self.mean.watt) };
    }
}
