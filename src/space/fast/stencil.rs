//! How a place of a void reaches the crossings of its core lines.

use super::super::Key;
use super::join::Spot;
use super::tracks::{Along, Lines, Tracks};

/// A crossing of core lines that a place reaches on its own lines.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    /// The line across `u`.
    pub(super) i: u32,
    /// The line across `v`.
    pub(super) j: u32,
    /// What it costs, without a bend at the place itself.
    pub(super) key: f64,
}

/// Every crossing that a place reaches by a move along its own line and, where
/// that line is no core line, a turn onto a core line up to the next crossing.
#[derive(Clone, Debug, Default)]
pub(super) struct Stencil {
    /// Those whose last move is along `u`; the turn, if any, is level with the
    /// crossing on the place's own line.
    pub(super) u: Vec<Entry>,
    /// Those whose last move is along `v`.
    pub(super) v: Vec<Entry>,
}

impl Stencil {
    /// The stencil of a place.
    pub(super) fn of(tracks: &Tracks, bend: Key, spot: Spot) -> Self {
        let mut stencil = Self::default();
        let index = |line: usize| u32::try_from(line).unwrap_or(u32::MAX);
        let entry =
            |i: usize, j: usize, key: Key| Entry { i: index(i), j: index(j), key: key.to_lane() };
        reach(&tracks.u, &tracks.v, spot.u, spot.v, bend, |i, j, turned, key| {
            let entries = if turned { &mut stencil.v } else { &mut stencil.u };
            entries.push(entry(i, j, key));
        });
        reach(&tracks.v, &tracks.u, spot.v, spot.u, bend, |j, i, turned, key| {
            let entries = if turned { &mut stencil.u } else { &mut stencil.v };
            entries.push(entry(i, j, key));
        });
        stencil
    }
}

/// Moves along one own line. On a core line only the next crossings count:
/// the others are reached from those.
fn reach(
    along: &Lines,
    across: &Lines,
    here: Along,
    side: Along,
    bend: Key,
    mut offer: impl FnMut(usize, usize, bool, Key),
) {
    let on_line = side.slot.is_multiple_of(2);
    let mut visit = |line: usize| -> bool {
        let on = along.on(line);
        let Some(cost) = along.cost(side.slot, here, on) else { return false };
        let way = Key::new(cost, (on.at - here.at).abs());
        if on_line {
            offer(line, side.line, false, way);
            return false;
        }
        for to in [side.line, side.line + 1] {
            let end = across.on(to);
            if let Some(cost) = across.cost(on.slot, side, end) {
                let turn = way.then(bend).then(Key::new(cost, (end.at - side.at).abs()));
                offer(line, to, true, turn);
            }
        }
        true
    };
    let mut line = here.line;
    while visit(line) && line > 0 {
        line -= 1;
    }
    let mut line = here.line + 1;
    while line < along.at.len() && visit(line) {
        line += 1;
    }
}
