//! Filling a house with the keys of eight sources at once.

use super::join::join;
use super::lanes::{Flood, LANES, Lane, NO_WAY};
use super::window::Window;
use super::{Ask, Field, Swift};

/// Eight floods, kept for walking back.
#[derive(Debug)]
pub(super) struct Chunk {
    /// For every void, if ways over its core lines were looked for.
    pub(super) floods: Vec<Option<Flood>>,
    /// The least keys with which each dock is reached.
    pub(super) values: Vec<Lane>,
}

/// A set of sources, a bit for each.
type Mask = u8;

const ALL: Mask = Mask::MAX;

/// Floods being made.
struct Filling<'a> {
    swift: &'a Swift<'a>,
    asks: &'a [Ask],
    chunk: Chunk,
    /// For every void, whether its window was looked for.
    opened: Vec<bool>,
    /// For every void, the docks that let keys in anew.
    pending: Vec<Vec<usize>>,
    /// For every void, the docks where ways that are asked for come in, and
    /// the sources that ask.
    arrivals: Vec<Vec<(usize, Mask)>>,
}

impl Swift<'_> {
    /// The keys of up to eight sources.
    pub(super) fn fill(&self, asks: &[Ask]) -> Chunk {
        let mut filling = Filling {
            swift: self,
            asks,
            chunk: Chunk {
                floods: self.fields.iter().map(|_| None).collect(),
                values: vec![NO_WAY; self.docks.len()],
            },
            opened: vec![false; self.fields.len()],
            pending: vec![Vec::new(); self.fields.len()],
            arrivals: vec![Vec::new(); self.fields.len()],
        };
        filling.begin();
        while let Some(void) = filling.pending.iter().position(|docks| !docks.is_empty()) {
            let mut fresh = std::mem::take(&mut filling.pending[void]);
            fresh.sort_unstable();
            fresh.dedup();
            if let Some(field) = &self.fields[void] {
                filling.cross(void, field, &fresh);
            }
        }
        filling.chunk
    }
}

impl Filling<'_> {
    /// Lets the sources out of their walls.
    fn begin(&mut self) {
        let swift = self.swift;
        for (lane, ask) in self.asks.iter().enumerate() {
            for exit in &swift.ends[ask.source].exits {
                let value = &mut self.chunk.values[exit.dock][lane];
                *value = value.min(exit.key.to_lane());
                self.pending[swift.docks[exit.dock].void].push(exit.dock);
                self.go_on(exit.dock, &NO_WAY);
            }
            for exit in ask.targets.iter().flat_map(|end| &swift.ends[*end].exits) {
                self.arrivals[swift.docks[exit.dock].void].push((exit.dock, 1 << lane));
            }
        }
        for docks in &mut self.arrivals {
            docks.sort_unstable();
            docks.dedup_by(|next, kept| {
                let same = next.0 == kept.0;
                if same {
                    kept.1 |= next.1;
                }
                same
            });
        }
    }

    /// From docks of a void to its other docks.
    fn cross(&mut self, void: usize, field: &Field, fresh: &[usize]) {
        let swift = self.swift;
        let arrivals = std::mem::take(&mut self.arrivals[void]);
        // Ways without crossings first: they bound the others.
        let mut nearer: Vec<usize> = Vec::new();
        for &(dock, mask) in &arrivals {
            if self.arrive(field, dock, fresh, mask, NO_WAY, &NO_WAY) {
                nearer.push(dock);
            }
        }
        let limit = self.let_in(void, field, fresh);
        let flood = self.chunk.floods[void].take();
        let bend = swift.bend.to_lane();
        let over = |dock: usize| match &flood {
            Some(flood) => flood.leave(swift.stencil(field, dock)).map(|key| key + bend),
            None => NO_WAY,
        };
        if flood.is_some() {
            for &(dock, mask) in &arrivals {
                if self.arrive(field, dock, &[], mask, over(dock), &NO_WAY) {
                    nearer.push(dock);
                }
            }
        }
        for &gate in &swift.gates[void] {
            // A target may be a gate as well.
            if self.arrive(field, gate, fresh, ALL, over(gate), &limit) || nearer.contains(&gate) {
                self.go_on(gate, &limit);
            }
        }
        self.chunk.floods[void] = flood;
        self.arrivals[void] = arrivals;
    }

    /// Floods the window of a void; gives the limits of the sources.
    fn let_in(&mut self, void: usize, field: &Field, fresh: &[usize]) -> Lane {
        let swift = self.swift;
        let values = &self.chunk.values;
        let at_most = |lane: usize, target: usize| {
            let known = swift.direct(self.asks[lane].source, target).to_lane();
            let exits = swift.ends[target].exits.iter();
            exits.map(|exit| values[exit.dock][lane] + exit.key.to_lane()).fold(known, f64::min)
        };
        let limit = Swift::limit(self.asks, &at_most);
        if !std::mem::replace(&mut self.opened[void], true) {
            let window: Option<Window> = swift.window(&field.tracks, self.asks, &at_most);
            self.chunk.floods[void] = window.map(Flood::within);
        }
        if let Some(flood) = &mut self.chunk.floods[void] {
            let bend = swift.bend.to_lane();
            for dock in fresh {
                let keys = self.chunk.values[*dock].map(|value| value + bend);
                flood.enter(swift.stencil(field, *dock), &keys);
            }
            field.prices.settle(flood, &limit);
        }
        limit
    }

    /// Updates what it costs to arrive at a dock, for some of the sources;
    /// whether that became less and is below the limit.
    fn arrive(
        &mut self,
        field: &Field,
        dock: usize,
        from: &[usize],
        mask: Mask,
        mut best: Lane,
        limit: &Lane,
    ) -> bool {
        let (swift, values) = (self.swift, &mut self.chunk.values);
        let bends = 2.0 * swift.bend.to_lane();
        let known = values[dock];
        for lane in 0..LANES {
            let most = if mask & (1 << lane) == 0 { 0.0 } else { known[lane].min(limit[lane]) };
            best[lane] = best[lane].min(most);
        }
        for other in from.iter().filter(|other| **other != dock) {
            let value = &values[*other];
            let near = swift.least(&field.tracks, *other, dock);
            if !(0..LANES).any(|lane| value[lane] + near < best[lane]) {
                continue;
            }
            let (a, b) = (swift.docks[*other].spot, swift.docks[dock].spot);
            let way = join(&field.tracks, swift.bend, a, b).key.to_lane() + bends;
            for (best, value) in best.iter_mut().zip(value) {
                *best = best.min(value + way);
            }
        }
        let mut less = false;
        for lane in (0..LANES).filter(|lane| mask & (1 << lane) != 0) {
            if best[lane] < known[lane] && best[lane] < limit[lane] {
                values[dock][lane] = best[lane];
                less = true;
            }
        }
        less
    }

    /// From a dock through walls and risers.
    fn go_on(&mut self, dock: usize, limit: &Lane) {
        let swift = self.swift;
        let mut stack = vec![dock];
        while let Some(from) = stack.pop() {
            for (to, key) in &swift.onward[from] {
                let come = self.chunk.values[from].map(|value| value + key.to_lane());
                let there = &mut self.chunk.values[*to];
                let mut less = false;
                for lane in 0..LANES {
                    if come[lane] < there[lane] && come[lane] < limit[lane] {
                        there[lane] = come[lane];
                        less = true;
                    }
                }
                if less {
                    self.pending[swift.docks[*to].void].push(*to);
                    stack.push(*to);
                }
            }
        }
    }
}
