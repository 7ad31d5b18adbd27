//! How a place of a void reaches the crossings of its core lines.

use super::super::Key;
use super::join::Spot;
use super::tracks::{Along, Lines, Tracks};

/// A crossing of core lines that a place reaches on its own lines, and how.
#[derive(Clone, Copy, Debug)]
pub(super) struct Entry {
    /// The index of the crossing, `j · nu + i`.
    pub(super) node: u32,
    /// Whether the last move is along `u`.
    pub(super) along_u: bool,
    /// What it costs, without a bend at the place itself.
    pub(super) key: Key,
    /// The corner on the way, if the way has one.
    pub(super) corner: Option<(i64, i64)>,
}

/// Every crossing that a place reaches by a move along its own line and, where
/// that line is no core line, a turn onto a core line up to the next crossing.
pub(super) fn stencil(tracks: &Tracks, bend: Key, spot: Spot) -> Vec<Entry> {
    let mut entries = Vec::new();
    let nu = tracks.u.at.len();
    let node = |i: usize, j: usize| u32::try_from(j * nu + i).unwrap_or(u32::MAX);
    reach(&tracks.u, &tracks.v, spot.u, spot.v, bend, |i, j, turned, key| {
        let corner = turned.then(|| (tracks.u.at[i], spot.v.at));
        entries.push(Entry { node: node(i, j), along_u: !turned, key, corner });
    });
    reach(&tracks.v, &tracks.u, spot.v, spot.u, bend, |j, i, turned, key| {
        let corner = turned.then(|| (spot.u.at, tracks.v.at[j]));
        entries.push(Entry { node: node(i, j), along_u: turned, key, corner });
    });
    entries
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
