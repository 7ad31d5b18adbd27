//! Takes stretches of neighbouring circuits out.

use super::circuits::{Circuits, NOWHERE};
use super::task::Work;
use crate::runs::chain::dice::Dice;

/// So many points are taken out on average.
const POINTS: usize = 10;
/// The longest stretch that is taken out of one circuit.
const STRETCH: usize = 10;

/// Takes stretches out of the circuits around a point drawn by lot.
pub(super) fn ruin(work: &Work<'_>, now: &mut Circuits, dice: &mut Dice) {
    let used = now.groups.iter().filter(|group| !group.is_empty()).count().max(1);
    let longest = STRETCH.min(work.points().div_ceil(used)).max(1);
    let most = (4 * POINTS).div_euclid(1 + longest).max(2);
    let strings = 1 + dice.below(most);
    let seed = 1 + dice.below(work.points());
    let mut touched: Vec<usize> = Vec::new();
    let around = std::iter::once(&seed).chain(&work.near[seed]);
    for point in around {
        if touched.len() >= strings {
            break;
        }
        let group = now.of[*point];
        if group == NOWHERE || touched.contains(&group) {
            continue;
        }
        touched.push(group);
        let size = now.groups[group].len();
        let count = 1 + dice.below(longest.min(size));
        let place = now.place[*point];
        // A stretch of that many points with this one in it.
        let least = (place + 1).saturating_sub(count);
        let largest = place.min(size - count);
        let from = least + dice.below(largest - least + 1);
        now.take(work, group, from, count);
    }
}
