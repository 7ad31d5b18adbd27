//! Takes stretches of neighbouring circuits out, whole or but for some points
//! in their middles.

use super::circuits::{Circuits, NOWHERE};
use super::legs::narrow;
use crate::runs::chain::dice::Dice;

/// The most points that are taken out of one circuit.
const STRETCH: usize = 6;
/// The most circuits that are touched at once.
const CIRCUITS: usize = 3;
/// Of so many stretches one is taken in two parts.
const PARTED: usize = 2;
/// The most points that stay between them.
const STAY: usize = 8;

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
        take(now, point, dice);
    }
}

/// Takes a stretch with a point in it out, or two that are a few points apart:
/// what stays keeps circuits full while what is around it changes.
fn take(now: &mut Circuits<'_>, point: u32, dice: &mut Dice) {
    let size = now.size(now.link(point).group) as usize;
    let wanted = 1 + dice.below(STRETCH.min(size));
    if wanted == 1 || wanted == size || dice.below(PARTED) > 0 {
        let (from, points) = stretch(now, point, narrow(wanted), dice);
        now.take(from, points);
        return;
    }
    let stay = 1 + dice.below(STAY.min(size - wanted));
    let (from, _) = stretch(now, point, narrow(wanted + stay), dice);
    let before = 1 + dice.below(wanted - 1);
    let after = (0..before + stay).fold(from, |at, _| now.link(at).after);
    now.take(from, narrow(before));
    now.take(after, narrow(wanted - before));
}

/// So many points with one among them, if the circuit has them: where they begin
/// and how many they are.
fn stretch(now: &Circuits<'_>, point: u32, wanted: u32, dice: &mut Dice) -> (u32, u32) {
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
