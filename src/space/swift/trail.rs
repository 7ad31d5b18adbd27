//! Walking back along the cheapest way that a flood found.

use super::super::{Key, Step, Stop, Terminal};
use super::join::join;
use super::lanes::Flood;
use super::{Chunk, Exit, Group, LANES, Pass, Swift};
use crate::units::{Mm, Point3};

/// A way under construction: places, and what lies between each and the next.
struct Trail {
    places: Vec<Point3>,
    /// What lies between each place and the next, and how long it is.
    steps: Vec<(Step, i64)>,
}

impl Trail {
    /// A stretch. What goes straight on in a void is one, whatever lines it
    /// crosses on its way.
    fn push(&mut self, place: Point3, step: Step, length: i64) {
        if matches!(step, Step::Void(..))
            && let (Some(last), Some(at)) = (self.steps.last_mut(), self.places.last_mut())
            && last.0 == step
        {
            last.1 += length;
            *at = place;
            return;
        }
        self.places.push(place);
        self.steps.push((step, length));
    }

    /// Adds a part that was found from its far end, joined on by a step.
    fn push_back_to_front(&mut self, part: &[Stop], step: Step, length: i64) {
        let (mut step, mut length) = (step, length);
        for stop in part.iter().rev() {
            self.push(stop.place, step, length);
            (step, length) = (stop.step, stop.length);
        }
    }

    fn into_stops(mut self, reversed: bool) -> (Point3, Vec<Stop>) {
        if reversed {
            self.places.reverse();
            self.steps.reverse();
        }
        let stops = self.places[1..].iter().zip(&self.steps);
        let stops = stops
            .map(|(place, (step, length))| Stop { place: *place, step: *step, length: *length })
            .collect();
        (self.places[0], stops)
    }
}

impl Group<'_> {
    /// The cheapest way between two members, by their places in the group: where
    /// it begins, and then its stretches. None without a way.
    #[must_use]
    pub fn way(&self, from: usize, to: usize) -> Option<(Point3, Vec<Stop>)> {
        if !self.key(from, to).is_way() || from == to {
            return None;
        }
        // Found from the far end, so the trail begins at the other one.
        let (source, target) = (from.min(to), from.max(to));
        let chunk = self.chunks.get(source.div_euclid(LANES))?;
        let ends = (self.members[source], self.members[target]);
        let key = self.key(source, target);
        walk(self.swift, chunk, source % LANES, ends, key, source == from)
    }
}

/// Walks back from the second end to the first; reversed, the way begins at
/// the first.
pub(super) fn walk(
    swift: &Swift<'_>,
    chunk: &Chunk,
    lane: usize,
    (source, target): (usize, usize),
    key: Key,
    reversed: bool,
) -> Option<(Point3, Vec<Stop>)> {
    let walk = Walk { swift, chunk, lane, source, target };
    Some(walk.trail(key.to_lane())?.into_stops(reversed))
}

struct Walk<'a> {
    swift: &'a Swift<'a>,
    chunk: &'a Chunk,
    lane: usize,
    source: usize,
    target: usize,
}

#[expect(
    clippy::float_cmp,
    reason = "lanes hold whole numbers below 2^53; equality is exact and is what walking back needs"
)]
impl Walk<'_> {
    fn trail(&self, key: f64) -> Option<Trail> {
        let swift = self.swift;
        let mut trail = Trail { places: Vec::new(), steps: Vec::new() };
        if swift.direct(self.source, self.target).to_lane() == key {
            self.within_wall(&mut trail)?;
            return Some(trail);
        }
        let exit = swift.ends[self.target]
            .exits
            .iter()
            .find(|exit| self.value(exit.dock) + exit.key.to_lane() == key)?;
        self.begin(&mut trail, exit);
        self.push_upright(&mut trail, self.dock_place(exit.dock), exit.step);
        let mut dock = exit.dock;
        // Every turn of the loop leaves by a smaller key.
        while !self.finish(&mut trail, dock) {
            dock = self.back(&mut trail, dock)?;
        }
        Some(trail)
    }

    /// A stretch straight up or down from the last place.
    fn push_upright(&self, trail: &mut Trail, place: Point3, step: Step) {
        let length = trail.places.last().map_or(0, |last| rise(*last, place));
        trail.push(place, step, length);
    }

    fn value(&self, dock: usize) -> f64 {
        self.chunk.values[dock][self.lane]
    }

    fn dock_place(&self, dock: usize) -> Point3 {
        let dock = &self.swift.docks[dock];
        dock.page.at_height(Mm::new(self.swift.space.voids[dock.void].z))
    }

    fn within_wall(&self, trail: &mut Trail) -> Option<()> {
        let (a, b) = (&self.swift.ends[self.source], &self.swift.ends[self.target]);
        let Terminal::Wall { wall, .. } = a.terminal else { return None };
        let graph = self.swift.graphs[wall].as_ref()?;
        let part = graph.trail(self.swift.space, a.ways.as_ref()?, b.node, false);
        let (last, rest) = part.split_last()?;
        trail.places.push(last.place);
        trail.push_back_to_front(rest, last.step, last.length);
        Some(())
    }

    /// From the target to where it leaves its wall.
    fn begin(&self, trail: &mut Trail, exit: &Exit) {
        let part = self.end_part(self.target, exit);
        trail.places.push(part[0].place);
        for stop in &part[1..] {
            trail.push(stop.place, stop.step, stop.length);
        }
    }

    /// From an end to where it leaves its wall.
    fn end_part(&self, end: usize, exit: &Exit) -> Vec<Stop> {
        let end = &self.swift.ends[end];
        match (&end.terminal, &end.ways) {
            (Terminal::Wall { wall, .. }, Some(ways)) => self.swift.graphs[*wall]
                .as_ref()
                .map(|graph| graph.trail(self.swift.space, ways, exit.node, true))
                .unwrap_or_default(),
            (Terminal::Upright { place, .. }, _) => {
                vec![Stop { place: *place, step: exit.step, length: 0 }]
            }
            _ => Vec::new(),
        }
    }

    /// Whether a dock is reached straight from the source; then the trail ends.
    fn finish(&self, trail: &mut Trail, dock: usize) -> bool {
        let value = self.value(dock);
        let exits = &self.swift.ends[self.source].exits;
        let Some(exit) = exits.iter().find(|exit| exit.dock == dock && exit.key.to_lane() == value)
        else {
            return false;
        };
        let part = self.end_part(self.source, exit);
        let rise = rise(self.dock_place(dock), part[part.len() - 1].place);
        trail.push_back_to_front(&part, exit.step, rise);
        true
    }

    /// One step back from a dock to the dock before it.
    fn back(&self, trail: &mut Trail, dock: usize) -> Option<usize> {
        self.back_through_pass(trail, dock)
            .or_else(|| self.back_by_join(trail, dock))
            .or_else(|| self.back_over_tracks(trail, dock))
    }

    fn back_through_pass(&self, trail: &mut Trail, dock: usize) -> Option<usize> {
        let value = self.value(dock);
        let pass: &Pass =
            self.swift.passes.iter().find(|pass| {
                pass.to == dock && self.value(pass.from) + pass.key.to_lane() == value
            })?;
        if let Some((wall, start, end)) = pass.through {
            let graph = self.swift.graphs[wall].as_ref()?;
            let ways = graph.ways(start, true);
            let part = graph.trail(self.swift.space, &ways, end, true);
            let rise = rise(self.dock_place(dock), part[part.len() - 1].place);
            trail.push_back_to_front(&part, Step::Plate(wall), rise);
            self.push_upright(trail, self.dock_place(pass.from), Step::Plate(wall));
        } else {
            self.push_upright(trail, self.dock_place(pass.from), Step::Passage);
        }
        Some(pass.from)
    }

    fn back_by_join(&self, trail: &mut Trail, dock: usize) -> Option<usize> {
        let (value, void) = (self.value(dock), self.swift.docks[dock].void);
        let field = self.swift.fields[void].as_ref()?;
        let bends = 2.0 * self.swift.bend.to_lane();
        let here = self.swift.docks[dock].spot;
        for &other in self.chunk.let_in[void].iter().filter(|other| **other != dock) {
            if self.value(other) + self.swift.least(&field.tracks, other, dock) > value {
                continue;
            }
            let there = self.swift.docks[other].spot;
            let way = join(&field.tracks, self.swift.bend, there, here);
            if self.value(other) + way.key.to_lane() + bends == value {
                let mut at = here.at();
                for corner in way.corners.into_iter().rev().flatten() {
                    self.across(trail, void, &mut at, corner);
                }
                self.to_dock(trail, other, at);
                return Some(other);
            }
        }
        None
    }

    /// A straight stretch of a void to a place of its frame.
    fn across(&self, trail: &mut Trail, void: usize, at: &mut (i64, i64), to: (i64, i64)) {
        if *at == to {
            return;
        }
        let field = &self.swift.space.voids[void];
        let place = field.frame.page_from_frame(to).at_height(Mm::new(field.z));
        let length = (at.0 - to.0).abs() + (at.1 - to.1).abs();
        trail.push(place, Step::Void(void, at.1 == to.1), length);
        *at = to;
    }

    /// A straight stretch of a void to a dock.
    fn to_dock(&self, trail: &mut Trail, dock: usize, at: (i64, i64)) {
        let to = &self.swift.docks[dock];
        if at == to.spot.at() {
            // The place is there already, but for the rounding of the frame.
            if let Some(last) = trail.places.last_mut() {
                *last = self.dock_place(dock);
            }
        } else {
            let there = to.spot.at();
            let length = (at.0 - there.0).abs() + (at.1 - there.1).abs();
            trail.push(self.dock_place(dock), Step::Void(to.void, at.1 == there.1), length);
        }
    }

    fn back_over_tracks(&self, trail: &mut Trail, dock: usize) -> Option<usize> {
        let (value, void) = (self.value(dock), self.swift.docks[dock].void);
        let flood = self.chunk.floods[void].as_ref()?;
        let bend = self.swift.bend.to_lane();
        let entry = self.swift.docks[dock].entries.iter().find(|entry| {
            let key = self.at_node(flood, entry.node as usize, entry.along_u);
            key + entry.key.to_lane() + bend == value
        })?;
        let mut at = self.swift.docks[dock].spot.at();
        if let Some(corner) = entry.corner {
            self.across(trail, void, &mut at, corner);
        }
        let (mut node, mut along_u) = (entry.node as usize, entry.along_u);
        loop {
            let place = self.node_at(void, node)?;
            self.across(trail, void, &mut at, place);
            if let Some(from) = self.entered(trail, void, flood, node, along_u, at) {
                return Some(from);
            }
            (node, along_u) = self.node_before(void, flood, node, along_u)?;
        }
    }

    fn at_node(&self, flood: &Flood, node: usize, along_u: bool) -> f64 {
        let lanes = if along_u { &flood.u } else { &flood.v };
        lanes[node][self.lane]
    }

    fn node_at(&self, void: usize, node: usize) -> Option<(i64, i64)> {
        let tracks = &self.swift.fields[void].as_ref()?.tracks;
        let (nu, _) = tracks.size();
        Some((tracks.u.at[node % nu], tracks.v.at[node.div_euclid(nu)]))
    }

    /// Whether a crossing was entered straight from a dock; then the dock.
    fn entered(
        &self,
        trail: &mut Trail,
        void: usize,
        flood: &Flood,
        node: usize,
        along_u: bool,
        mut at: (i64, i64),
    ) -> Option<usize> {
        let value = self.at_node(flood, node, along_u);
        let bend = self.swift.bend.to_lane();
        for &dock in &self.chunk.let_in[void] {
            let rest = value - self.value(dock) - bend;
            if rest < 0.0 {
                continue;
            }
            let entry = self.swift.docks[dock].entries.iter().find(|entry| {
                entry.node as usize == node
                    && entry.along_u == along_u
                    && entry.key.to_lane() == rest
            });
            if let Some(entry) = entry {
                if let Some(corner) = entry.corner {
                    self.across(trail, void, &mut at, corner);
                }
                self.to_dock(trail, dock, at);
                return Some(dock);
            }
        }
        None
    }

    /// The crossing, or the direction at the same crossing, before this one.
    fn node_before(
        &self,
        void: usize,
        flood: &Flood,
        node: usize,
        along_u: bool,
    ) -> Option<(usize, bool)> {
        let prices = &self.swift.fields[void].as_ref()?.prices;
        let (nu, nv) = prices.size();
        let (i, j) = (node % nu, node.div_euclid(nu));
        let value = self.at_node(flood, node, along_u);
        let from = |node: usize, step: f64| self.at_node(flood, node, along_u) + step == value;
        if along_u {
            if i > 0 && from(node - 1, prices.step_u(i - 1, j)) {
                return Some((node - 1, true));
            }
            if i + 1 < nu && from(node + 1, prices.step_u(i, j)) {
                return Some((node + 1, true));
            }
        } else {
            if j > 0 && from(node - nu, prices.step_v(i, j - 1)) {
                return Some((node - nu, false));
            }
            if j + 1 < nv && from(node + nu, prices.step_v(i, j)) {
                return Some((node + nu, false));
            }
        }
        let turned = self.at_node(flood, node, !along_u) + self.swift.bend.to_lane() == value;
        turned.then_some((node, !along_u))
    }
}

fn rise(one: Point3, other: Point3) -> i64 {
    (one.z - other.z).abs().get()
}
