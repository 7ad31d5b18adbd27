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
    let mut offer = |cost: Option<i64>, bends: i64, corners: [Option<(i64, i64)>; 2]| {
        let Some(cost) = cost else { return };
        let mut length = (a.u.at - b.u.at).abs() + (a.v.at - b.v.at).abs();
        if let [Some(one), Some(_)] = corners {
            // A jog outside both ends goes out and comes back.
            length = detour(a, b, one);
        }
        let key = Key::new(cost + bends * bend.cost().get(), length);
        if key < best.key {
            best = Join { key, corners };
        }
    };
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
    if a.v.slot == b.v.slot && a.v.slot % 2 == 1 && a.v.at != b.v.at {
        for (line, cost) in jogs(&tracks.u, &tracks.v, (a.u, a.v), (b.u, b.v)) {
            let u = tracks.u.at[line];
            offer(Some(cost), 2, [Some((u, a.v.at)), Some((u, b.v.at))]);
        }
    }
    if a.u.slot == b.u.slot && a.u.slot % 2 == 1 && a.u.at != b.u.at {
        for (line, cost) in jogs(&tracks.v, &tracks.u, (a.v, a.u), (b.v, b.u)) {
            let v = tracks.v.at[line];
            offer(Some(cost), 2, [Some((a.u.at, v)), Some((b.u.at, v))]);
        }
    }
    best
}

fn sum(one: Option<i64>, other: Option<i64>) -> Option<i64> {
    Some(one? + other?)
}

fn detour(a: Spot, b: Spot, by: (i64, i64)) -> i64 {
    let via = |from: i64, to: i64, by: i64| (from - by).abs() + (by - to).abs();
    via(a.u.at, b.u.at, by.0).max((a.u.at - b.u.at).abs())
        + via(a.v.at, b.v.at, by.1).max((a.v.at - b.v.at).abs())
}

/// Ways along a strip to a core line, across on it, and on along the strip.
fn jogs<'a>(
    along: &'a Lines,
    across: &'a Lines,
    a: (Along, Along),
    b: (Along, Along),
) -> impl Iterator<Item = (usize, i64)> + 'a {
    (0..along.at.len()).filter_map(move |line| {
        let on = along.on(line);
        let there = along.cost(a.1.slot, a.0, on)?;
        let back = along.cost(b.1.slot, on, b.0)?;
        let over = across.cost(on.slot, a.1, b.1)?;
        Some((line, there + over + back))
    })
}
