//! Takes stretches of neighbouring circuits out.

use super::circuits::{Circuits, NOWHERE};
use super::legs::narrow;
use crate::runs::chain::dice::Dice;

/// The longest stretch that is taken out of one circuit.
const STRETCH: usize = 4;
/// The most circuits that are touched at once.
const CIRCUITS: usize = 3;

/// Takes stretches out of the circuits around a point.
pub(super) fn ruin(now: &mut Circuits<'_>, seed: u32, dice: &mut Dice) {
    let legs = now.legs;
    let circuits = 1 + dice.below(CIRCUITS);
    let mut touched = [NOWHERE; CIRCUITS];
    let mut count = 0;
    for point in std::iter::once(seed).chain(legs.around(seed).iter().map(|near| near.point)) {
        if count >= circuits {
            break;
        }
        let group = now.link(point).group;
        if group == NOWHERE || touched[..count].contains(&group) {
            continue;
        }
        touched[count] = group;
        count += 1;
        let (from, points) = stretch(now, point, dice);
        now.take(from, points);
    }
}

/// A stretch with a point in it: where it begins and how many points it has.
fn stretch(now: &Circuits<'_>, point: u32, dice: &mut Dice) -> (u32, u32) {
    let size = now.size(now.link(point).group) as usize;
    let wanted = narrow(1 + dice.below(STRETCH.min(size)));
    let (mut from, mut to, mut points) = (point, point, 1);
    let mut ahead = narrow(dice.below(wanted as usize));
    while ahead > 0 && now.link(from).before != 0 {
        from = now.link(from).before;
        (ahead, points) = (ahead - 1, points + 1);
    }
    while points < wanted && now.link(to).after != now.legs.end() {
        (to, points) = (now.link(to).after, points + 1);
    }
    while points < wanted && now.link(from).before != 0 {
        (from, points) = (now.link(from).before, points + 1);
    }
    (from, points)
}
