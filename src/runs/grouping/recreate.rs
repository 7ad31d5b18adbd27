//! Puts absent points back where that is cheapest.

use super::circuits::{Circuits, NOWHERE};
use super::task::Work;
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
type Found = (i64, usize, usize);

/// Puts every absent point on a circuit.
pub(super) fn fill(work: &Work<'_>, now: &mut Circuits, dice: &mut Dice) {
    let mut blink = Blink(1 + dice.below(2 * BLINK));
    sort(work, &mut now.absent, dice);
    for point in std::mem::take(&mut now.absent) {
        let alone = work.group_weight(&[point]);
        match cheapest(work, now, point, dice, &mut blink) {
            Some((more, group, at)) if more < alone => {
                now.put(work, point, group, at);
                now.weight += more;
            }
            _ => now.begin(work, point),
        }
    }
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
        4..=7 => absent.sort_by_key(|point| (std::cmp::Reverse(load(point)), *point)),
        8..=9 => absent.sort_by_key(|point| (std::cmp::Reverse(work.leg(0, *point)), *point)),
        _ => absent.sort_by_key(|point| (work.leg(0, *point), *point)),
    }
}

fn cheapest(
    work: &Work<'_>,
    now: &Circuits,
    point: usize,
    dice: &mut Dice,
    blink: &mut Blink,
) -> Option<Found> {
    let mut best: Option<Found> = None;
    let load = work.loads[point];
    let mut offer = |more: i64, group: usize, at: usize| {
        if best.is_none_or(|best| (more, group, at) < best) {
            best = Some((more, group, at));
        }
    };
    for other in work.close(point) {
        let group = now.of[*other];
        if group == NOWHERE || !now.loads[group].and(load).within(work.limit) || blink.now(dice) {
            continue;
        }
        let members = &now.groups[group];
        let place = now.place[*other];
        let there = work.leg(point, *other);
        let before = if place == 0 { 0 } else { members[place - 1] };
        offer(there + work.leg(before, point) - work.leg(before, *other), group, place);
        let (on, off) = match members.get(place + 1) {
            Some(next) => (work.leg(point, *next), work.leg(*other, *next)),
            None => (work.back(point), work.back(*other)),
        };
        offer(there + on - off, group, place + 1);
    }
    let first = work.leg(0, point);
    for (group, members) in now.groups.iter().enumerate() {
        let Some(next) = members.first() else { continue };
        if now.loads[group].and(load).within(work.limit) && !blink.now(dice) {
            offer(first + work.leg(point, *next) - work.leg(0, *next), group, 0);
        }
    }
    best
}
