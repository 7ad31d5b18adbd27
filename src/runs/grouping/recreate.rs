//! Puts absent points back where that is cheapest.

use super::circuits::{Circuits, NOWHERE};
use super::legs::narrow;
use super::penalty::{NEVER, Penalty};
use crate::runs::chain::dice::Dice;

/// Once in so many points the best place is overlooked, so that the same
/// points do not always come back to the same places.
const BLINK: usize = 50;
/// So many neighbours are looked at before it is asked whether more can help.
const PART: usize = 8;

/// Puts points back.
#[derive(Debug)]
pub(super) struct Filler {
    /// Counts down to the next place that is overlooked.
    blink: usize,
    /// What the penalty comes to on each circuit.
    extra: Vec<i32>,
}

/// Where a point goes, and what that adds.
#[derive(Clone, Copy)]
struct Found {
    /// With the penalty.
    dear: i64,
    weight: i32,
    group: u32,
    between: (u32, u32),
}

impl Filler {
    pub(super) fn new() -> Self {
        Self { blink: BLINK, extra: Vec::new() }
    }

    /// Puts every absent point on a circuit; whether that comes to no more than
    /// so much above what was last kept, penalty included. If not, the rest is left
    /// out as soon as that shows: no point makes the others cheaper.
    pub(super) fn fill(
        &mut self,
        now: &mut Circuits<'_>,
        penalty: Penalty,
        most: i64,
        dice: &mut Dice,
    ) -> bool {
        let mut absent = std::mem::take(&mut now.absent);
        sort(now, &mut absent, dice);
        let mut filled = true;
        let mut spare = most - now.gained() - penalty.of(now.over);
        for point in absent.drain(..) {
            let found = self.cheapest(now, point, penalty, dice);
            spare -= found.as_ref().map_or(i64::from(now.legs.alone(point)), |found| found.dear);
            if spare < 0 {
                filled = false;
                break;
            }
            match found {
                Some(found) => {
                    now.put(point, found.group, found.between);
                    now.weight += i64::from(found.weight);
                }
                None => now.begin(point),
            }
        }
        now.absent = absent;
        filled
    }

    /// None: a circuit of its own.
    fn cheapest(
        &mut self,
        now: &Circuits<'_>,
        point: u32,
        penalty: Penalty,
        dice: &mut Dice,
    ) -> Option<Found> {
        now.extra(penalty, point, &mut self.extra);
        self.extra[NOWHERE as usize] = NEVER;
        let mut best = scan::<false>(now, point, &self.extra, Place(0));
        self.blink -= 1;
        if self.blink == 0 {
            self.blink = 1 + dice.below(2 * BLINK);
            best = scan::<true>(now, point, &self.extra, best.place());
        }
        found(now, point, &self.extra, best)
    }
}

/// By lot, or the heaviest, the furthest or the nearest first.
fn sort(now: &Circuits<'_>, absent: &mut [u32], dice: &mut Dice) {
    let load = |point: &u32| {
        let load = now.load(*point);
        (load.points, load.watts)
    };
    let board = now.legs.row(0);
    match dice.below(11) {
        0..=3 => {
            for last in (1..absent.len()).rev() {
                absent.swap(last, dice.below(last + 1));
            }
        }
        4..=7 => absent.sort_unstable_by_key(|point| (std::cmp::Reverse(load(point)), *point)),
        8..=9 => {
            absent
                .sort_unstable_by_key(|point| (std::cmp::Reverse(board[*point as usize]), *point));
        }
        _ => absent.sort_unstable_by_key(|point| (board[*point as usize], *point)),
    }
}

/// A circuit of its own (0); before or behind a neighbour (two for each, from
/// 1 on); first on a circuit (from [`Place::FIRST`] on).
#[derive(Clone, Copy, PartialEq, Eq)]
struct Place(u32);

impl Place {
    const FIRST: u32 = 1 << 16;

    fn beside(index: usize) -> Self {
        Self(1 + 2 * narrow(index))
    }
}

/// What a place takes, penalty included, and which it is, in one number: the
/// least is then found without branches.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Offer(i64);

impl Offer {
    fn new(dear: i32, place: Place) -> Self {
        Self((i64::from(dear) << 32) | i64::from(place.0))
    }

    fn dear(self) -> i64 {
        self.0 >> 32
    }

    fn place(self) -> Place {
        Place(u32::try_from(self.0 & 0xFFFF_FFFF).unwrap_or(0))
    }
}

/// The best offer, a place possibly left out.
fn scan<const BUT: bool>(now: &Circuits<'_>, point: u32, extra: &[i32], but: Place) -> Offer {
    let legs = now.legs;
    let row = legs.row(point);
    let mut best = Offer::new(legs.alone(point), Place(0));
    let mut place = Place(Place::FIRST);
    for ((first, leg), extra) in now.beginnings().zip(extra) {
        if !(BUT && but == place) {
            best = best.min(Offer::new(row[0] + row[first as usize] - leg + extra, place));
        }
        place.0 += 1;
    }
    for (part, nears) in legs.close(point).chunks(PART).enumerate() {
        let there = nears[0].leg;
        // A circuit goes on from it, or one leg becomes two.
        if i64::from(there.min(2 * there - now.longest)) >= best.dear() {
            break;
        }
        for (index, near) in nears.iter().enumerate() {
            let place = Place::beside(PART * part + index);
            if BUT && (but == place || but == Place(place.0 + 1)) {
                continue;
            }
            let link = now.link(near.point);
            let there = near.leg + extra[link.group as usize];
            let before = there + row[link.before as usize] - link.leg_before;
            let behind = there + row[link.after as usize] - link.leg_after;
            best = best.min(Offer::new(before, place));
            best = best.min(Offer::new(behind, Place(place.0 + 1)));
        }
    }
    best
}

fn found(now: &Circuits<'_>, point: u32, extra: &[i32], best: Offer) -> Option<Found> {
    let place = best.place().0;
    let (group, between) = if let Some(group) = place.checked_sub(Place::FIRST) {
        (group, (0, now.begins(group)))
    } else {
        let beside = place.checked_sub(1)?;
        let other = now.legs.close(point)[beside as usize >> 1].point;
        let link = now.link(other);
        let between = if beside & 1 == 0 { (link.before, other) } else { (other, link.after) };
        (link.group, between)
    };
    let dear = i32::try_from(best.dear()).unwrap_or(i32::MAX);
    Some(Found { dear: best.dear(), weight: dear - extra[group as usize], group, between })
}
