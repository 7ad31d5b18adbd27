//! Which places of a void must be joined without a crossing of core lines.

use std::collections::BTreeMap;

use super::join::Spot;
use super::{Dock, FastNetwork};

/// Docks by where they lie among core lines.
///
/// Between two places that are both on lines across `v`, and in different
/// strips between lines across `u`, every way of the kind that
/// [`join`](super::join::join) finds passes a crossing: it goes on one of their
/// two lines over a line between. A flood that covers both has found it. The
/// same holds with `u` and `v` changed over.
pub(super) struct Beside {
    /// Whether lines across `v` are meant.
    by_v: bool,
    all: Vec<usize>,
    /// Those on no such line.
    apart: Vec<usize>,
    /// The others by their strips.
    on_lines: BTreeMap<usize, Vec<usize>>,
}

impl Beside {
    pub(super) fn of(fast: &FastNetwork<'_>, docks: &[usize]) -> Self {
        let spot = |dock: &usize| fast.docks[*dock].spot;
        let on = |by_v: bool| docks.iter().filter(|dock| line(spot(dock), by_v)).count();
        let by_v = on(true) >= on(false);
        let mut beside =
            Self { by_v, all: docks.to_vec(), apart: Vec::new(), on_lines: BTreeMap::new() };
        for dock in docks {
            if line(spot(dock), by_v) {
                beside.on_lines.entry(strip(spot(dock), by_v)).or_default().push(*dock);
            } else {
                beside.apart.push(*dock);
            }
        }
        beside
    }

    /// Those that must be joined to a dock, a list or two.
    pub(super) fn to(&self, dock: &Dock) -> [&[usize]; 2] {
        if !line(dock.spot, self.by_v) {
            return [&self.all, &[]];
        }
        let same = self.on_lines.get(&strip(dock.spot, self.by_v));
        [&self.apart, same.map_or(&[], Vec::as_slice)]
    }
}

/// Whether a place is on a line across `v`, or across `u`.
fn line(spot: Spot, by_v: bool) -> bool {
    (if by_v { spot.v.slot } else { spot.u.slot }).is_multiple_of(2)
}

/// The slot of a place across the other way.
fn strip(spot: Spot, by_v: bool) -> usize {
    if by_v { spot.u.slot } else { spot.v.slot }
}
