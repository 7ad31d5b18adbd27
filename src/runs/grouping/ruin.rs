//! Takes stretches of neighbouring circuits out.

use super::circuits::{Circuits, NOWHERE};
use super::task::Work;
use crate::runs::chain::dice::Dice;

/// So many points are taken out on average.
const POINTS: usize = 4;
/// The longest stretch that is taken out of one circuit.
const STRETCH: usize = 4;

/// The most circuits that are touched at once.
const CIRCUITS: usize = 16;

/// Takes stretches out of the circuits around a point drawn by lot.
pub(super) fn ruin(work: &Work<'_>, now: &mut Circuits, dice: &mut Dice) {
    let used = now.feeds.iter().filter(|feed| feed.size > 0).count().max(1);
    let longest = STRETCH.min(work.points().div_ceil(used)).max(1);
    let most = (4 * POINTS).div_euclid(1 + longest).max(2);
    let circuits = (1 + dice.below(most)).min(CIRCUITS);
    let seed = 1 + dice.below(work.points());
    let mut touched = [NOWHERE; CIRCUITS];
    let mut count = 0;
    for point in std::iter::once(&seed).chain(&work.near[seed]) {
        if count >= circuits {
            break;
        }
        let group = now.links[*point].group;
        if group == NOWHERE || touched[..count].contains(&group) {
            continue;
        }
        touched[count] = group;
        count += 1;
        let (from, points) = stretch(now, *point, longest, dice);
        now.take(work, group, from, points);
    }
}

/// A stretch with a point in it: where it begins and how many points it has.
fn stretch(now: &Circuits, point: usize, longest: usize, dice: &mut Dice) -> (usize, usize) {
    let size = now.feeds[now.links[point].group].size;
    let wanted = 1 + dice.below(longest.min(size));
    let (mut from, mut to, mut points) = (point, point, 1);
    let mut ahead = dice.below(wanted);
    while ahead > 0 && now.links[from].before != 0 {
        from = now.links[from].before;
        (ahead, points) = (ahead - 1, points + 1);
    }
    while points < wanted && now.links[to].after != 0 {
        (to, points) = (now.links[to].after, points + 1);
    }
    while points < wanted && now.links[from].before != 0 {
        (from, points) = (now.links[from].before, points + 1);
    }
    (from, points)
}
