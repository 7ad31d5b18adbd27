//! Ways between two places of a void that use no core crossing.

use super::super::Key;
use super::tracks::{Along, Lines, Tracks};

/// A place of a void among its core lines.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Spot {
    pub(super) u: Along,
    pub(super) v: Along,
}

impl Spot {
    /// A place among the lines. None outside them.
    pub(super) fn of(tracks: &Tracks, (u, v): (i64, i64)) -> Option<Self> {
        Some(Self { u: tracks.u.find(u)?, v: tracks.v.find(v)? })
    }

    /// On the page of the frame.
    pub(super) const fn at(&self) -> (i64, i64) {
        (self.u.at, self.v.at)
    }
}

/// The best such way: its key without the bends at its ends, and its corners.
#[derive(Clone, Copy, Debug)]
pub(super) struct Join {
    pub(super) key: Key,
    pub(super) corners: [Option<(i64, i64)>; 2],
}

/// The best way between two places straight, by one bend, or by two bends on
/// a core line between neighbours in one strip. Every other best way passes a
/// crossing of core lines.
pub(super) fn join(tracks: &Tracks, bend: Key, a: Spot, b: Spot) -> Join {
    let mut best = Join { key: Key::NONE, corners: [None, None] };
    let mut offer = |cost, bends, corners| offer_to(&mut best, a, b, bend, cost, bends, corners);
    if a.v.at == b.v.at {
        offer(tracks.u.cost(a.v.slot, a.u, b.u), 0, [None, None]);
    }
    if a.u.at == b.u.at {
        offer(tracks.v.cost(a.u.slot, a.v, b.v), 0, [None, None]);
    }
    if a.u.at != b.u.at && a.v.at != b.v.at {
        let first = sum(tracks.u.cost(a.v.slot, a.u, b.u), tracks.v.cost(b.u.slot, a.v, b.v));
        offer(first, 1, [Some((b.u.at, a.v.at)), None]);
        let second = sum(tracks.v.cost(a.u.slot, a.v, b.v), tracks.u.cost(b.v.slot, a.u, b.u));
        offer(second, 1, [Some((a.u.at, b.v.at)), None]);
    }
    // Two bends are worth a look where one bend costs more than they must.
    let least = tracks.least(a.at(), b.at()) + 2 * bend.cost().get();
    if best.key.is_way() && best.key.cost().get() <= least {
        return best;
    }
    if a.v.slot == b.v.slot && a.v.slot % 2 == 1 && a.v.at != b.v.at {
        jogs(&tracks.u, &tracks.v, (a.u, a.v), (b.u, b.v), |line, cost| {
            let u = tracks.u.at[line];
            let corners = [Some((u, a.v.at)), Some((u, b.v.at))];
            offer_to(&mut best, a, b, bend, Some(cost), 2, corners);
            dearer_by(&best, bend)
        });
    }
    if a.u.slot == b.u.slot && a.u.slot % 2 == 1 && a.u.at != b.u.at {
        jogs(&tracks.v, &tracks.u, (a.v, a.u), (b.v, b.u), |line, cost| {
            let v = tracks.v.at[line];
            let corners = [Some((a.u.at, v)), Some((b.u.at, v))];
            offer_to(&mut best, a, b, bend, Some(cost), 2, corners);
            dearer_by(&best, bend)
        });
    }
    best
}

/// What a way with two bends must stay below to be better, bends left aside.
fn dearer_by(best: &Join, bend: Key) -> i64 {
    best.key.cost().get() - 2 * bend.cost().get()
}

fn offer_to(
    best: &mut Join,
    a: Spot,
    b: Spot,
    bend: Key,
    cost: Option<i64>,
    bends: i64,
    corners: [Option<(i64, i64)>; 2],
) {
    let Some(cost) = cost else { return };
    let mut length = (a.u.at - b.u.at).abs() + (a.v.at - b.v.at).abs();
    if let [Some(one), Some(_)] = corners {
        // A jog outside both ends goes out and comes back.
        length = detour(a, b, one);
    }
    let key = Key::new(cost + bends * bend.cost().get(), length);
    if key < best.key {
        *best = Join { key, corners };
    }
}

fn sum(one: Option<i64>, other: Option<i64>) -> Option<i64> {
    Some(one? + other?)
}

fn detour(a: Spot, b: Spot, by: (i64, i64)) -> i64 {
    let via = |from: i64, to: i64, by: i64| (from - by).abs() + (by - to).abs();
    via(a.u.at, b.u.at, by.0).max((a.u.at - b.u.at).abs())
        + via(a.v.at, b.v.at, by.1).max((a.v.at - b.v.at).abs())
}

/// Ways along a strip to a core line, across on it, and on along the strip:
/// offers the line and the cost, and learns what such ways must not exceed.
/// From the second end away, first down and then up, as the crossings near a
/// place are looked at (see [`super::stencil`]): of equal ways the same is
/// taken wherever lines from elsewhere cut the strip.
fn jogs(
    along: &Lines,
    across: &Lines,
    a: (Along, Along),
    b: (Along, Along),
    mut offer: impl FnMut(usize, i64) -> i64,
) {
    let mut most = i64::MAX;
    // Whether going on beyond can be worth it: not where it is blocked, nor
    // past both ends where it costs more already.
    let mut look = |line: usize| -> bool {
        let on = along.on(line);
        let Some(back) = along.cost(b.1.slot, on, b.0) else { return false };
        let between = (on.at >= a.0.at) == (b.0.at >= on.at);
        let Some(there) = along.cost(a.1.slot, a.0, on) else { return between };
        if there + back > most {
            return between;
        }
        if let Some(over) = across.cost(on.slot, a.1, b.1) {
            most = offer(line, there + over + back);
        }
        true
    };
    let past = along.at.partition_point(|line| *line <= b.0.at);
    let _ = (0..past).rev().all(&mut look);
    let _ = (past..along.at.len()).all(&mut look);
}
