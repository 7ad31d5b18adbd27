//! One search: circuits are emptied in places and filled again.

use super::circuits::Circuits;
use super::heat::Heat;
use super::legs::{Legs, narrow};
use super::penalty::{Penalties, Penalty, Room};
use super::picture::Picture;
use super::recreate::Filler;
use super::ruin::ruin;
use crate::runs::chain::dice::Dice;

/// The longest leg is looked for again after so many steps.
const MEASURE: u32 = 128;

/// More than all legs and penalties together.
const NO_LIMIT: i64 = i64::MAX >> 1;

/// A search with a stream of chance of its own.
#[derive(Debug)]
pub(super) struct Stream<'w> {
    now: Circuits<'w>,
    dice: Dice,
    filler: Filler,
    penalties: Penalties,
    /// The mean leg at first.
    mean: i64,
    /// The best that keeps to all limits.
    pub(super) best: Picture,
}

impl<'w> Stream<'w> {
    pub(super) fn new(legs: &'w Legs, loads: &'w [Room], limit: Room, stream: u64) -> Self {
        let mut now = Circuits::first(legs, loads, limit);
        let (mut dice, mut filler) = (Dice::of_stream(stream), Filler::new());
        filler.fill(&mut now, Penalty::ALL, NO_LIMIT, &mut dice);
        now.keep();
        let mut best = Picture::default();
        now.take_picture(&mut best);
        let penalties = Penalties::new(loads, now.weight);
        let mean = now.weight.div_euclid(i64::from(narrow(legs.points()).max(1)));
        Self { now, dice, filler, penalties, mean, best }
    }

    /// Ruins and recreates around points that are drawn from some, or from
    /// all where there are none; accepts what is not much dearer, less and
    /// less so. `warm` and `cool` are the heat at first and at last, in mean
    /// legs.
    pub(super) fn search(&mut self, steps: u32, seeds: &[u32], (warm, cool): (f64, f64)) {
        let Self { now, dice, filler, penalties, mean, best } = self;
        let mut heat = Heat::new(*mean, (warm, cool), steps);
        for step in 0..steps {
            if step.rem_euclid(MEASURE) == 0 {
                now.measure();
            }
            let penalty = penalties.now;
            let before = penalty.of(now.kept_over());
            let seed = match seeds {
                [] => narrow(1 + dice.below(now.legs.points())),
                some => some[dice.below(some.len())],
            };
            ruin(now, seed, dice);
            let most = before + heat.slack(step, dice);
            let filled = filler.fill(now, penalty, most, dice);
            let within = now.within();
            if filled {
                now.keep();
                if within && now.weight < best.weight {
                    now.take_picture(best);
                }
            } else {
                now.take_back();
            }
            penalties.step(step, within);
        }
    }

    /// Goes on from another's best.
    pub(super) fn go_on_from(&mut self, picture: &Picture) {
        self.best.clone_from(picture);
        self.now.restore(picture);
    }
}
