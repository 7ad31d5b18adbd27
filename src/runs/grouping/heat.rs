//! How much dearer a change may be and still be accepted: less and less.

use crate::runs::chain::dice::Dice;

/// The heat stands for so many steps.
const STEPS: u32 = 32;
/// So many lots can be drawn.
const LOTS: u32 = 1024;

/// Heat that falls by the same share every step (simulated annealing,
/// Kirkpatrick, Gelatt and Vecchi 1983).
#[derive(Debug)]
pub(super) struct Heat {
    warm: f64,
    /// At last, by what it was at first.
    cool: f64,
    now: f64,
    steps: f64,
    /// How many times the heat a change may be dearer: -ln of even lots.
    lots: Vec<f64>,
}

impl Heat {
    /// The heat at first and at last, in mean legs.
    #[expect(clippy::cast_precision_loss, reason = "only steers")]
    pub(super) fn new(mean: i64, (warm, cool): (f64, f64), steps: u32) -> Self {
        let lot = |lot: u32| -libm::log((f64::from(lot) + 0.5) / f64::from(LOTS));
        let lots = (0..LOTS).map(lot).collect();
        let warmth = warm * mean as f64;
        Self { warm: warmth, cool: cool / warm, now: warmth, steps: f64::from(steps), lots }
    }

    /// How much dearer the next change may be.
    #[expect(clippy::cast_possible_truncation, reason = "only steers; casts saturate")]
    pub(super) fn slack(&mut self, step: u32, dice: &mut Dice) -> i64 {
        if step.rem_euclid(STEPS) == 0 {
            self.now = self.warm * libm::pow(self.cool, f64::from(step) / self.steps);
        }
        (self.now * self.lots[dice.below(self.lots.len())]) as i64
    }
}
