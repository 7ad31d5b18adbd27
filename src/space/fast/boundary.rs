//! What it costs to come to the sides of a window, and what a way that goes on
//! from there costs at least.

use super::super::{DetourBound, Frame, Key};
use super::FastNetwork;
use super::flood::Chunk;
use super::join::Spot;
use super::stencil::Entry;
use super::tracks::Tracks;
use crate::units::{Mm, Point2};

/// Where ways from one source come to the sides of a window, and what that costs.
#[derive(Debug)]
pub(super) struct Boundary(Vec<(Point2, i64)>);

impl Boundary {
    /// Where a source of some floods comes to the edge of the bounded box for less than so much.
    ///
    /// A way that leaves has a first place on a side, and up to there the floods
    /// know it. Its last stretch before can be slid back along the side, to where
    /// it lies on a core line or on the own line of a dock: that saves at least
    /// what is then farther beyond. Where the floods did not come, no way leads
    /// for as much as is known already.
    pub(super) fn of<const L: usize>(
        fast: &FastNetwork<'_>,
        detour_bound: &DetourBound,
        chunk: &Chunk<L>,
        lane: usize,
        source: usize,
        most: i64,
    ) -> Self {
        let mut places = Vec::new();
        for (void, field) in fast.fields.iter().enumerate() {
            let Some(field) = field else { continue };
            let frame = fast.space.voids[void].frame;
            let sides = detour_bound.sides_in(frame);
            let mut add = |at: (i64, i64), cost: i64| {
                if cost < most {
                    places.push((frame.page_from_frame(at), cost));
                }
            };
            if let Some(flood) = &chunk.floods[void] {
                crossings(&field.tracks, &sides, |entry| {
                    let key = Key::from_lane(flood.least(&entry)[lane]);
                    if key.is_way() {
                        let at = field.tracks.at((entry.i as usize, entry.j as usize));
                        add(at, key.cost().get());
                    }
                });
            }
            let exits = fast.ends[source].exits.iter().map(|exit| exit.dock);
            for dock in exits.chain(fast.gates[void].iter().copied()) {
                let come = Key::from_lane(chunk.values[dock][lane]).then(fast.bend);
                if fast.docks[dock].void == void && come.is_way() {
                    own_lines(&field.tracks, &sides, fast.docks[dock].spot, |at, cost| {
                        add(at, come.cost().get() + cost);
                    });
                }
            }
        }
        Self(places)
    }

    /// Those places from which a way to an end can go on outside for as little as this.
    pub(super) fn open(
        &self,
        fast: &FastNetwork<'_>,
        detour_bound: &DetourBound,
        to: usize,
        cost: i64,
    ) -> Self {
        let exits = &fast.ends[to].exits;
        let is_open = |(here, come): &&(Point2, i64)| {
            exits.iter().any(|exit| {
                come + least(detour_bound, *here, exit.page) + exit.key.cost().get() <= cost
            })
        };
        Self(self.0.iter().filter(is_open).copied().collect())
    }

    pub(super) const fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether a way can leave here and come back by the boundary of the end to which
    /// it leads for as little as this.
    pub(super) fn is_joined(&self, detour_bound: &DetourBound, other: &Self, cost: i64) -> bool {
        self.0.iter().any(|(out, come)| {
            let mut ways = other.0.iter();
            ways.any(|(back, rest)| come + rest + least(detour_bound, *out, *back) <= cost)
        })
    }
}

/// What going on outside from one place to another costs at least.
fn least(detour_bound: &DetourBound, from: Point2, to: Point2) -> i64 {
    detour_bound.cost((from.x - to.x).abs().get(), (from.y - to.y).abs().get())
}

/// The sides of a window in the frame of a void: across `u`, and across `v`.
type Sides = [Vec<i64>; 2];

/// The crossings of core lines on the sides.
fn crossings(tracks: &Tracks, sides: &Sides, mut offer: impl FnMut(Entry)) {
    let index = |line: usize| u32::try_from(line).unwrap_or(u32::MAX);
    let (nu, nv) = tracks.size();
    for i in sides[0].iter().filter_map(|side| tracks.u.at.binary_search(side).ok()) {
        (0..nv).for_each(|j| offer(Entry { i: index(i), j: index(j), key: 0.0 }));
    }
    for j in sides[1].iter().filter_map(|side| tracks.v.at.binary_search(side).ok()) {
        (0..nu).for_each(|i| offer(Entry { i: index(i), j: index(j), key: 0.0 }));
    }
}

/// Where the own lines of a place come to the sides, and what they cost.
fn own_lines(tracks: &Tracks, sides: &Sides, spot: Spot, mut offer: impl FnMut((i64, i64), i64)) {
    for side in &sides[0] {
        let line = tracks.u.at.binary_search(side).ok();
        let cost = line.and_then(|i| tracks.u.cost(spot.v.slot, spot.u, tracks.u.on(i)));
        cost.into_iter().for_each(|cost| offer((*side, spot.v.at), cost));
    }
    for side in &sides[1] {
        let line = tracks.v.at.binary_search(side).ok();
        let cost = line.and_then(|j| tracks.v.cost(spot.u.slot, spot.v, tracks.v.on(j)));
        cost.into_iter().for_each(|cost| offer((spot.u.at, *side), cost));
    }
}

impl DetourBound {
    /// Those sides beyond which anything can run, in a frame with the axes of the page.
    fn sides_in(&self, frame: Frame) -> Sides {
        let mut sides = Sides::default();
        let turned = frame.page_from_frame((1000, 0)).x == Mm::ZERO;
        for (index, side) in self.sides.into_iter().enumerate() {
            let Some(at) = side else { continue };
            let upright = index < 2;
            let on_it = if upright { Point2::new(at, 0) } else { Point2::new(0, at) };
            let (u, v) = frame.frame_from_page(on_it);
            if upright == turned { sides[1].push(v) } else { sides[0].push(u) }
        }
        sides
    }
}
