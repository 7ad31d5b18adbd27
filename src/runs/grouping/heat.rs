//! How much dearer a change may be and still be accepted: less and less.

use super::task::Work;
use crate::runs::chain::dice::Dice;

/// At first, by the mean leg.
const WARM: f64 = 0.3;
/// At last, by what it was at first.
const COOL: f64 = 0.02;
/// The heat stands for so many steps.
const STEPS: u32 = 32;
/// So many lots can be drawn.
const LOTS: u32 = 1024;

/// Heat that falls by the same share every step (simulated annealing,
/// Kirkpatrick, Gelatt and Vecchi 1983).
#[derive(Debug)]
pub(super) struct Heat {
    warm: f64,
    now: f64,
    steps: f64,
    /// How many times the heat a change may be dearer: -ln of even lots.
    lots: Vec<f64>,
}

impl Heat {
    /// By what the first circuits weigh.
    #[expect(clippy::cast_precision_loss, reason = "only steers")]
    pub(super) fn new(work: &Work<'_>, weight: i64, steps: u32) -> Self {
        let warm = WARM * weight as f64 / work.points() as f64;
        let lot = |lot: u32| -libm::log((f64::from(lot) + 0.5) / f64::from(LOTS));
        Self { warm, now: warm, steps: f64::from(steps), lots: (0..LOTS).map(lot).collect() }
    }

    /// How much dearer the next change may be.
    #[expect(clippy::cast_possible_truncation, reason = "only steers; casts saturate")]
    pub(super) fn slack(&mut self, step: u32, dice: &mut Dice) -> i64 {
        if step.rem_euclid(STEPS) == 0 {
            self.now = self.warm * libm::pow(COOL, f64::from(step) / self.steps);
        }
        (self.now * self.lots[dice.below(self.lots.len())]) as i64
    }
}
