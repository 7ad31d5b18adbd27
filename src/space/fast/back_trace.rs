//! Walking back along the cheapest way that a flood found.

use super::super::{Key, Step, Stop, Terminal};
use super::flood::Chunk;
use super::join::join;
use super::lanes::Flood;
use super::stencil::Entry;
use super::{Exit, FastNetwork, Pass};
use crate::units::{Mm, Point2, Point3};

/// A way under construction: places, and what lies between each and the next.
struct BackTrace {
    places: Vec<Point3>,
    /// What lies between each place and the next, and how long it is.
    steps: Vec<(Step, i64)>,
}

impl BackTrace {
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

    /// The last place is the same as this one, but for the rounding of a frame.
    fn stand_at(&mut self, place: Point3) {
        if let Some(last) = self.places.last_mut() {
            *last = place;
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

impl FastNetwork<'_> {
    /// Walks back from the second end to the first. The way begins at the
    /// first, or at the second if asked.
    pub(super) fn walk<const L: usize>(
        &self,
        chunk: &Chunk<L>,
        lane: usize,
        (source, target): (usize, usize),
        key: Key,
        back: bool,
    ) -> Option<(Point3, Vec<Stop>)> {
        let walk = Walk { fast: self, chunk, lane, source, target };
        Some(walk.back_trace(key.to_lane())?.into_stops(!back))
    }
}

struct Walk<'a, const L: usize> {
    fast: &'a FastNetwork<'a>,
    chunk: &'a Chunk<L>,
    lane: usize,
    source: usize,
    target: usize,
}

#[expect(
    clippy::float_cmp,
    reason = "lanes hold whole numbers below 2^53; equality is exact and is what walking back needs"
)]
impl<const L: usize> Walk<'_, L> {
    fn back_trace(&self, key: f64) -> Option<BackTrace> {
        let fast = self.fast;
        let mut back_trace = BackTrace { places: Vec::new(), steps: Vec::new() };
        if fast.direct(self.source, self.target).to_lane() == key {
            self.within_wall(&mut back_trace)?;
            return Some(back_trace);
        }
        let exit = fast.ends[self.target]
            .exits
            .iter()
            .find(|exit| self.value(exit.dock) + exit.key.to_lane() == key)?;
        self.begin(&mut back_trace, exit);
        self.push_upright(&mut back_trace, self.place(exit.dock, exit.page), exit.step);
        let mut dock = exit.dock;
        // Every turn of the loop leaves by a smaller key.
        while !self.finish(&mut back_trace, dock) {
            dock = self.back(&mut back_trace, dock)?;
        }
        Some(back_trace)
    }

    /// A stretch straight up or down from the last place.
    fn push_upright(&self, back_trace: &mut BackTrace, place: Point3, step: Step) {
        let length = back_trace.places.last().map_or(0, |last| rise(*last, place));
        back_trace.push(place, step, length);
    }

    fn value(&self, dock: usize) -> f64 {
        self.chunk.values[dock][self.lane]
    }

    /// Where a dock is, at its own place on the page.
    fn place(&self, dock: usize, page: Point2) -> Point3 {
        page.at_height(Mm::new(self.fast.space.voids[self.fast.docks[dock].void].z))
    }

    fn within_wall(&self, back_trace: &mut BackTrace) -> Option<()> {
        let (a, b) = (&self.fast.ends[self.source], &self.fast.ends[self.target]);
        let part = if let Some(landlocked) = &self.fast.landlocked {
            landlocked.way(self.source, self.target)?
        } else {
            let Terminal::Wall { wall, .. } = a.terminal else { return None };
            let graph = self.fast.graphs[wall].as_ref()?;
            graph.back_trace(self.fast.space, a.ways.as_ref()?, b.node, false)
        };
        let (last, rest) = part.split_last()?;
        back_trace.places.push(last.place);
        back_trace.push_back_to_front(rest, last.step, last.length);
        Some(())
    }

    /// From the target to where it leaves its wall.
    fn begin(&self, back_trace: &mut BackTrace, exit: &Exit) {
        let part = self.end_part(self.target, exit);
        back_trace.places.push(part[0].place);
        for stop in &part[1..] {
            back_trace.push(stop.place, stop.step, stop.length);
        }
    }

    /// From an end to where it leaves its wall.
    fn end_part(&self, end: usize, exit: &Exit) -> Vec<Stop> {
        let number = end;
        let end = &self.fast.ends[number];
        if let (Some(landlocked), Terminal::Wall { .. }) = (&self.fast.landlocked, &end.terminal) {
            return landlocked.way_out(number, exit.node);
        }
        match (&end.terminal, &end.ways) {
            (Terminal::Wall { wall, .. }, Some(ways)) => self.fast.graphs[*wall]
                .as_ref()
                .map(|graph| graph.back_trace(self.fast.space, ways, exit.node, true))
                .unwrap_or_default(),
            (Terminal::Upright { place, .. }, _) => {
                vec![Stop { place: *place, step: exit.step, length: 0 }]
            }
            _ => Vec::new(),
        }
    }

    /// Whether a dock is reached straight from the source; then the back-trace ends.
    fn finish(&self, back_trace: &mut BackTrace, dock: usize) -> bool {
        let Some(exit) = self.exit_at(dock) else { return false };
        let part = self.end_part(self.source, exit);
        let here = self.place(dock, exit.page);
        back_trace.stand_at(here);
        back_trace.push_back_to_front(&part, exit.step, rise(here, part[part.len() - 1].place));
        true
    }

    /// The exit by which the source comes out at a dock, if it is the best way
    /// there.
    fn exit_at(&self, dock: usize) -> Option<&Exit> {
        let value = self.value(dock);
        let mut exits = self.fast.ends[self.source].exits.iter();
        exits.find(|exit| exit.dock == dock && exit.key.to_lane() == value)
    }

    /// The pass that is the best way to a dock, if one is.
    fn pass_to(&self, dock: usize) -> Option<&Pass> {
        let value = self.value(dock);
        let mut passes = self.fast.inward[dock].iter().map(|pass| &self.fast.passes[*pass]);
        passes.find(|pass| self.value(pass.from) + pass.key.to_lane() == value)
    }

    /// The docks by which ways came into a void.
    fn let_in(&self, void: usize) -> impl Iterator<Item = usize> {
        let exits = self.fast.ends[self.source].exits.iter().map(|exit| exit.dock);
        let exits = exits.filter(move |dock| self.fast.docks[*dock].void == void);
        exits.chain(self.fast.gates[void].iter().copied())
    }

    /// Whether a way came into its void by a dock.
    fn is_let_in(&self, dock: usize) -> bool {
        self.exit_at(dock).is_some() || self.pass_to(dock).is_some()
    }

    /// One step back from a dock to the dock before it.
    fn back(&self, back_trace: &mut BackTrace, dock: usize) -> Option<usize> {
        self.back_through_pass(back_trace, dock)
            .or_else(|| self.back_by_join(back_trace, dock))
            .or_else(|| self.back_over_tracks(back_trace, dock))
    }

    fn back_through_pass(&self, back_trace: &mut BackTrace, dock: usize) -> Option<usize> {
        let pass = self.pass_to(dock)?;
        let (from, to) = (self.place(pass.from, pass.pages[0]), self.place(dock, pass.pages[1]));
        back_trace.stand_at(to);
        if let Some((wall, start, end)) = pass.through {
            let graph = self.fast.graphs[wall].as_ref()?;
            let ways = graph.ways(start, true);
            let part = graph.back_trace(self.fast.space, &ways, end, true);
            let rise = rise(to, part[part.len() - 1].place);
            back_trace.push_back_to_front(&part, Step::Plate(wall), rise);
            self.push_upright(back_trace, from, Step::Plate(wall));
        } else {
            self.push_upright(back_trace, from, Step::Passage);
        }
        Some(pass.from)
    }

    fn back_by_join(&self, back_trace: &mut BackTrace, dock: usize) -> Option<usize> {
        let (value, void) = (self.value(dock), self.fast.docks[dock].void);
        let field = self.fast.fields[void].as_ref()?;
        let bends = 2.0 * self.fast.bend.to_lane();
        let here = self.fast.docks[dock].spot;
        for other in self.let_in(void).filter(|other| *other != dock) {
            if self.value(other) + self.fast.least(&field.tracks, other, dock) > value {
                continue;
            }
            let there = self.fast.docks[other].spot;
            let way = join(&field.tracks, self.fast.bend, there, here);
            if self.value(other) + way.key.to_lane() + bends == value && self.is_let_in(other) {
                let mut at = here.at();
                for corner in way.corners.into_iter().rev().flatten() {
                    self.across(back_trace, void, &mut at, corner);
                }
                self.to_dock(back_trace, other, at);
                return Some(other);
            }
        }
        None
    }

    /// A straight stretch of a void to a place of its frame.
    fn across(&self, back_trace: &mut BackTrace, void: usize, at: &mut (i64, i64), to: (i64, i64)) {
        if *at == to {
            return;
        }
        let field = &self.fast.space.voids[void];
        let place = field.frame.page_from_frame(to).at_height(Mm::new(field.z));
        let length = (at.0 - to.0).abs() + (at.1 - to.1).abs();
        back_trace.push(place, Step::Void(void, at.1 == to.1), length);
        *at = to;
    }

    /// A straight stretch of a void to a dock.
    fn to_dock(&self, back_trace: &mut BackTrace, dock: usize, mut at: (i64, i64)) {
        let to = &self.fast.docks[dock];
        self.across(back_trace, to.void, &mut at, to.spot.at());
    }

    /// The corner of a stencil between its place and a crossing.
    fn corner(&self, dock: usize, entry: &Entry, along_u: bool) -> Option<(i64, i64)> {
        let dock = &self.fast.docks[dock];
        let (at, crossing) = (dock.spot.at(), self.crossing_at(dock.void, entry)?);
        Some(if along_u { (at.0, crossing.1) } else { (crossing.0, at.1) })
    }

    fn crossing_at(&self, void: usize, entry: &Entry) -> Option<(i64, i64)> {
        let tracks = &self.fast.fields[void].as_ref()?.tracks;
        Some((tracks.u.at[entry.i as usize], tracks.v.at[entry.j as usize]))
    }

    fn back_over_tracks(&self, back_trace: &mut BackTrace, dock: usize) -> Option<usize> {
        let (value, void) = (self.value(dock), self.fast.docks[dock].void);
        let flood = self.chunk.floods[void].as_ref()?;
        let bend = self.fast.bend.to_lane();
        let stencil = self.fast.stencil(self.fast.fields[void].as_ref()?, dock);
        let leaves = |entry: &&Entry, along_u: bool| {
            flood.at(entry, along_u, self.lane) + entry.key + bend == value
        };
        let by_u = stencil.u.iter().find(|entry| leaves(entry, true)).map(|entry| (*entry, true));
        let (mut entry, mut along_u) = by_u.or_else(|| {
            stencil.v.iter().find(|entry| leaves(entry, false)).map(|entry| (*entry, false))
        })?;
        let mut at = self.fast.docks[dock].spot.at();
        self.across(back_trace, void, &mut at, self.corner(dock, &entry, along_u)?);
        loop {
            self.across(back_trace, void, &mut at, self.crossing_at(void, &entry)?);
            if let Some(from) = self.entered(back_trace, void, flood, &entry, along_u, at) {
                return Some(from);
            }
            (entry, along_u) = self.crossing_before(void, flood, &entry, along_u)?;
        }
    }

    /// Whether a crossing was entered straight from a dock; then the dock.
    fn entered(
        &self,
        back_trace: &mut BackTrace,
        void: usize,
        flood: &Flood<L>,
        here: &Entry,
        along_u: bool,
        mut at: (i64, i64),
    ) -> Option<usize> {
        let value = flood.at(here, along_u, self.lane);
        let bend = self.fast.bend.to_lane();
        let field = self.fast.fields[void].as_ref()?;
        for dock in self.let_in(void) {
            let rest = value - self.value(dock) - bend;
            if rest < 0.0 || !self.is_let_in(dock) {
                continue;
            }
            let stencil = self.fast.stencil(field, dock);
            let entries = if along_u { &stencil.u } else { &stencil.v };
            let same = |entry: &&Entry| (entry.i, entry.j) == (here.i, here.j);
            if entries.iter().any(|entry| same(&entry) && entry.key == rest) {
                self.across(back_trace, void, &mut at, self.corner(dock, here, along_u)?);
                self.to_dock(back_trace, dock, at);
                return Some(dock);
            }
        }
        None
    }

    /// The crossing, or the direction at the same crossing, before this one.
    fn crossing_before(
        &self,
        void: usize,
        flood: &Flood<L>,
        here: &Entry,
        along_u: bool,
    ) -> Option<(Entry, bool)> {
        let field = self.fast.fields[void].as_ref()?;
        let (prices, (nu, nv)) = (&field.prices, field.tracks.size());
        let (i, j) = (here.i as usize, here.j as usize);
        let value = flood.at(here, along_u, self.lane);
        let from = |entry: &Entry, step: f64| flood.at(entry, along_u, self.lane) + step == value;
        if along_u {
            let (low, high) = (here.i.wrapping_sub(1), here.i + 1);
            let (low, high) = (Entry { i: low, ..*here }, Entry { i: high, ..*here });
            if i > 0 && from(&low, prices.step_u(i - 1, j)) {
                return Some((low, true));
            }
            if i + 1 < nu && from(&high, prices.step_u(i, j)) {
                return Some((high, true));
            }
        } else {
            let (low, high) = (here.j.wrapping_sub(1), here.j + 1);
            let (low, high) = (Entry { j: low, ..*here }, Entry { j: high, ..*here });
            if j > 0 && from(&low, prices.step_v(i, j - 1)) {
                return Some((low, false));
            }
            if j + 1 < nv && from(&high, prices.step_v(i, j)) {
                return Some((high, false));
            }
        }
        let turned = flood.at(here, !along_u, self.lane) + self.fast.bend.to_lane() == value;
        turned.then_some((*here, !along_u))
    }
}

fn rise(one: Point3, other: Point3) -> i64 {
    (one.z - other.z).abs().get()
}
