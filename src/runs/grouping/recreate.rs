//! Puts absent points back where that is cheapest.

use super::circuits::{Circuits, NOWHERE};
use super::task::Work;
use super::toll::Toll;
use crate::runs::chain::dice::Dice;

/// One place in so many is overlooked, so that the same points do not always
/// come back to the same places.
const BLINK: usize = 100;

/// Counts down to the next place that is overlooked.
struct Blink(usize);

impl Blink {
    fn now(&mut self, dice: &mut Dice) -> bool {
        self.0 = self.0.saturating_sub(1);
        if self.0 > 0 {
            return false;
        }
        self.0 = 1 + dice.below(2 * BLINK);
        true
    }
}

/// Where a point would go, and what that adds.
#[derive(Clone, Copy)]
struct Found {
    /// With the toll for overload.
    dear: i64,
    weight: i64,
    group: usize,
    between: (usize, usize),
}

/// Puts every absent point on a circuit.
pub(super) fn fill(work: &Work<'_>, now: &mut Circuits, toll: Toll, dice: &mut Dice) {
    let mut blink = Blink(1 + dice.below(2 * BLINK));
    let mut absent = std::mem::take(&mut now.absent);
    sort(work, &mut absent, dice);
    for point in absent.drain(..) {
        match cheapest(work, now, point, toll, dice, &mut blink) {
            Some(found) => {
                now.put(work, point, found.group, found.between);
                now.weight += found.weight;
            }
            None => now.begin(work, point),
        }
    }
    now.absent = absent;
}

/// By lot, or the heaviest, the furthest or the nearest first.
fn sort(work: &Work<'_>, absent: &mut [usize], dice: &mut Dice) {
    let load = |point: &usize| (work.loads[*point].points, work.loads[*point].watts);
    match dice.below(11) {
        0..=3 => {
            for last in (1..absent.len()).rev() {
                absent.swap(last, dice.below(last + 1));
            }
        }
        4..=7 => absent.sort_unstable_by_key(|point| (std::cmp::Reverse(load(point)), *point)),
        8..=9 => {
            absent.sort_unstable_by_key(|point| (std::cmp::Reverse(work.leg(0, *point)), *point))
        }
        _ => absent.sort_unstable_by_key(|point| (work.leg(0, *point), *point)),
    }
}

/// None: a circuit of its own.
fn cheapest(
    work: &Work<'_>,
    now: &Circuits,
    point: usize,
    toll: Toll,
    dice: &mut Dice,
    blink: &mut Blink,
) -> Option<Found> {
    let alone = work.alone(point);
    let mut best = Found { dear: alone, weight: alone, group: NOWHERE, between: (0, 0) };
    let load = work.loads[point];
    let row = work.row(point);
    let extra = |group: usize| toll.more(work.limit, now.feeds[group].load, load);
    for other in work.close(point) {
        let link = now.links[*other];
        if link.group == NOWHERE {
            continue;
        }
        let there = row[*other];
        // Of the two ends of a leg only the nearer needs a look, so that the
        // other is at least as far: most places can be told to be too dear
        // without knowing how far.
        let least = |leg: i64| 2 * there - leg;
        let before = link.before != 0 && least(link.leg_before) < best.dear;
        let after = link.after == 0 || least(link.leg_after) < best.dear;
        if !(before || after) {
            continue;
        }
        let extra = extra(link.group);
        if extra >= best.dear || blink.now(dice) {
            continue;
        }
        let mut offer = |weight: i64, between| {
            if weight + extra < best.dear {
                best = Found { dear: weight + extra, weight, group: link.group, between };
            }
        };
        if before {
            offer(there + row[link.before] - link.leg_before, (link.before, *other));
        }
        if link.after == 0 {
            offer(there + work.back(point) - link.leg_after, (*other, 0));
        } else if after {
            offer(there + row[link.after] - link.leg_after, (*other, link.after));
        }
    }
    let from_board = work.row(0);
    for (group, feed) in now.feeds.iter().enumerate() {
        if feed.size == 0 {
            continue;
        }
        let weight = row[0] + row[feed.first] - from_board[feed.first];
        if weight < best.dear {
            let dear = weight.saturating_add(extra(group));
            if dear < best.dear && !blink.now(dice) {
                best = Found { dear, weight, group, between: (0, feed.first) };
            }
        }
    }
    (best.group != NOWHERE).then_some(best)
}
