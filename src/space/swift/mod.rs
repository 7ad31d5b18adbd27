//! The cheapest ways between all ends of a house at once, fast.
//!
//! Gives the same keys as the plain [`Network`](super::Network), which stays
//! as the reference, from much smaller pieces: each wall is searched on its own,
//! each void is flooded over its core lines for eight ends at a time, and ends
//! reach the core lines by stencils. It does not serve pins, nor walls from
//! which no void can be reached; there the plain network does.

mod join;
mod lanes;
mod near;
mod prepare;
mod stencil;
mod tracks;
mod trail;
mod wall_graph;

use self::join::{Spot, join};
use self::lanes::{Flood, LANES, Lane, NO_WAY, Prices};
pub use self::near::Star;
use self::prepare::Preparation;
use self::stencil::Entry;
use self::tracks::Tracks;
use self::wall_graph::{WallGraph, WallWays};
use super::{Key, Modes, Space, Step, Terminal};
use crate::units::Point2;

/// All ends of a house in one mode, ready for floods.
#[derive(Debug)]
pub struct Swift<'a> {
    space: &'a Space,
    bend: Key,
    fields: Vec<Option<Field>>,
    docks: Vec<Dock>,
    ends: Vec<SwiftEnd>,
    graphs: Vec<Option<WallGraph>>,
    passes: Vec<Pass>,
    /// For every dock, the passes from it and where they lead.
    onward: Vec<Vec<(usize, Key)>>,
    /// For every void, the docks from which passes lead on.
    gates: Vec<Vec<usize>>,
}

#[derive(Debug)]
struct Field {
    tracks: Tracks,
    prices: Prices,
}

/// A place where something joins a void.
#[derive(Debug)]
struct Dock {
    void: usize,
    spot: Spot,
    page: Point2,
    entries: Vec<Entry>,
}

/// An end, the ways out of its wall, and the ways to others on it.
#[derive(Debug)]
struct SwiftEnd {
    terminal: Terminal,
    exits: Vec<Exit>,
    /// The ways within its wall, if it is on one.
    ways: Option<WallWays>,
    node: usize,
}

/// A way from an end into a void, arriving upright.
#[derive(Clone, Copy, Debug)]
struct Exit {
    dock: usize,
    key: Key,
    /// The place in the wall's grid where it leaves.
    node: usize,
    step: Step,
}

/// A way through a wall or a riser from one dock to another.
#[derive(Clone, Copy, Debug)]
struct Pass {
    from: usize,
    to: usize,
    key: Key,
    /// The wall and the places in its grid; None for a riser.
    through: Option<(usize, usize, usize)>,
}

/// The cheapest ways between the members of a group.
#[derive(Debug)]
pub struct Group<'a> {
    swift: &'a Swift<'a>,
    members: Vec<usize>,
    keys: Vec<Vec<Key>>,
    chunks: Vec<Chunk>,
}

/// Eight floods, kept for walking back.
#[derive(Debug)]
struct Chunk {
    floods: Vec<Option<Flood>>,
    values: Vec<Lane>,
    /// The docks that let keys into each void.
    let_in: Vec<Vec<usize>>,
}

impl<'a> Swift<'a> {
    /// Prepares a house.
    #[must_use]
    pub fn of(space: &'a Space, modes: Modes, terminals: &[Terminal]) -> Self {
        Preparation::new(space, modes, terminals).finish()
    }

    /// Whether these ends can be served: each has a way into a void. Otherwise
    /// the plain network must serve.
    #[must_use]
    pub fn serves(&self, members: &[usize]) -> bool {
        members.iter().all(|end| !self.ends[*end].exits.is_empty())
    }

    /// The cheapest ways between some ends, by their numbers.
    #[must_use]
    pub fn group(&'a self, members: &[usize]) -> Group<'a> {
        let count = members.len();
        let mut group = Group {
            swift: self,
            members: members.to_vec(),
            keys: vec![vec![Key::NONE; count]; count],
            chunks: Vec::new(),
        };
        // The last member is reached from all others: ways are the same both ways.
        let sources = count.saturating_sub(1);
        let mut first = 0;
        while first < sources {
            let lanes = (sources - first).min(LANES);
            let chunk = self.flood(&members[first..first + lanes], &members[first + 1..]);
            for lane in 0..lanes {
                for to in first + lane + 1..count {
                    let key = self.key(&chunk, lane, members[first + lane], members[to]);
                    group.keys[first + lane][to] = key;
                    group.keys[to][first + lane] = key;
                }
            }
            group.chunks.push(chunk);
            first += lanes;
        }
        for index in 0..count {
            group.keys[index][index] = Key::ZERO;
        }
        group
    }

    fn key(&self, chunk: &Chunk, lane: usize, from: usize, to: usize) -> Key {
        let direct = self.direct(from, to);
        let arrive = |exit: &Exit| Key::from_lane(chunk.values[exit.dock][lane]).then(exit.key);
        self.ends[to].exits.iter().map(arrive).fold(direct, Key::min)
    }

    /// Within one wall.
    fn direct(&self, from: usize, to: usize) -> Key {
        let (a, b) = (&self.ends[from], &self.ends[to]);
        match (&a.terminal, &b.terminal, &a.ways) {
            (Terminal::Wall { wall, .. }, Terminal::Wall { wall: other, .. }, Some(ways))
                if wall == other =>
            {
                ways.key(b.node)
            }
            _ => Key::NONE,
        }
    }

    fn flood(&self, sources: &[usize], targets: &[usize]) -> Chunk {
        let mut chunk = Chunk {
            floods: self.fields.iter().map(|_| None).collect(),
            values: vec![NO_WAY; self.docks.len()],
            let_in: vec![Vec::new(); self.fields.len()],
        };
        let mut pending: Vec<Vec<usize>> = vec![Vec::new(); self.fields.len()];
        for (lane, source) in sources.iter().enumerate() {
            for exit in &self.ends[*source].exits {
                let value = &mut chunk.values[exit.dock][lane];
                *value = value.min(exit.key.to_lane());
                pending[self.docks[exit.dock].void].push(exit.dock);
                self.relax_onward(exit.dock, &mut chunk.values, &NO_WAY, &mut pending);
            }
        }
        let mut arrivals: Vec<Vec<usize>> = vec![Vec::new(); self.fields.len()];
        for exit in targets.iter().flat_map(|end| &self.ends[*end].exits) {
            arrivals[self.docks[exit.dock].void].push(exit.dock);
        }
        for docks in &mut arrivals {
            docks.sort_unstable();
            docks.dedup();
        }
        while let Some(void) = (0..pending.len()).find(|void| !pending[*void].is_empty()) {
            let mut fresh = std::mem::take(&mut pending[void]);
            fresh.sort_unstable();
            fresh.dedup();
            self.let_in(&mut chunk, void, &fresh);
            let mut nearer = Vec::new();
            for dock in &arrivals[void] {
                if self.arrive(&mut chunk, void, *dock, &fresh, &NO_WAY) {
                    nearer.push(*dock);
                }
            }
            let limit = self.limit(&chunk, targets);
            for gate in &self.gates[void] {
                // A target may be a gate as well.
                if self.arrive(&mut chunk, void, *gate, &fresh, &limit) || nearer.contains(gate) {
                    self.relax_onward(*gate, &mut chunk.values, &limit, &mut pending);
                }
            }
        }
        chunk
    }

    /// For each source, what the dearest of its targets costs so far: ways that
    /// cost more already are of no use to any.
    fn limit(&self, chunk: &Chunk, targets: &[usize]) -> Lane {
        let mut limit = [0.0_f64; LANES];
        for target in targets {
            let mut best = NO_WAY;
            for exit in &self.ends[*target].exits {
                let key = exit.key.to_lane();
                for (best, value) in best.iter_mut().zip(&chunk.values[exit.dock]) {
                    *best = best.min(value + key);
                }
            }
            for (limit, best) in limit.iter_mut().zip(best) {
                *limit = limit.max(best);
            }
        }
        limit
    }

    fn let_in(&self, chunk: &mut Chunk, void: usize, fresh: &[usize]) {
        let Some(field) = &self.fields[void] else { return };
        let flood = chunk.floods[void].get_or_insert_with(|| field.prices.flood());
        let bend = self.bend.to_lane();
        for dock in fresh {
            let keys = chunk.values[*dock].map(|value| value + bend);
            let finite = keys.iter().filter(|key| key.is_finite()).count();
            let entries = &self.docks[*dock].entries;
            if finite == 1 {
                let lane = keys.iter().position(|key| key.is_finite()).unwrap_or(0);
                flood.enter_one(entries, lane, keys[lane]);
            } else {
                flood.enter(entries, &keys);
            }
            if !chunk.let_in[void].contains(dock) {
                chunk.let_in[void].push(*dock);
            }
        }
        field.prices.settle(flood);
    }

    /// Updates what it costs to arrive at a dock; whether that became less and
    /// is below the limit.
    fn arrive(
        &self,
        chunk: &mut Chunk,
        void: usize,
        dock: usize,
        from: &[usize],
        limit: &Lane,
    ) -> bool {
        let (Some(field), Some(flood)) = (&self.fields[void], &chunk.floods[void]) else {
            return false;
        };
        let bend = self.bend.to_lane();
        let mut best = flood.leave(&self.docks[dock].entries).map(|key| key + bend);
        for (best, limit) in best.iter_mut().zip(limit) {
            *best = best.min(*limit);
        }
        let known = chunk.values[dock];
        for other in from {
            if *other == dock {
                continue;
            }
            let value = &chunk.values[*other];
            let near = self.least(&field.tracks, *other, dock);
            if !(0..LANES).any(|lane| value[lane] + near < best[lane].min(known[lane])) {
                continue;
            }
            let (a, b) = (self.docks[*other].spot, self.docks[dock].spot);
            let way = join(&field.tracks, self.bend, a, b).key.to_lane() + 2.0 * bend;
            for (best, value) in best.iter_mut().zip(value) {
                *best = best.min(value + way);
            }
        }
        let mut less = false;
        for lane in 0..LANES {
            if best[lane] < known[lane] && best[lane] < limit[lane] {
                chunk.values[dock][lane] = best[lane];
                less = true;
            }
        }
        less
    }

    /// No way between two docks of a void can cost less.
    fn least(&self, tracks: &Tracks, from: usize, to: usize) -> f64 {
        let (a, b) = (self.docks[from].spot.at(), self.docks[to].spot.at());
        let length = (a.0 - b.0).abs() + (a.1 - b.1).abs();
        let way = Key::new(tracks.least(a, b), length);
        way.then(self.bend).then(self.bend).to_lane()
    }

    fn relax_onward(
        &self,
        dock: usize,
        values: &mut [Lane],
        limit: &Lane,
        pending: &mut [Vec<usize>],
    ) {
        let mut stack = vec![dock];
        while let Some(from) = stack.pop() {
            for (to, key) in &self.onward[from] {
                let come = values[from].map(|value| value + key.to_lane());
                let there = &mut values[*to];
                let mut less = false;
                for lane in 0..LANES {
                    if come[lane] < there[lane] && come[lane] < limit[lane] {
                        there[lane] = come[lane];
                        less = true;
                    }
                }
                if less {
                    pending[self.docks[*to].void].push(*to);
                    stack.push(*to);
                }
            }
        }
    }
}

impl Group<'_> {
    /// What the cheapest way between two members costs, by their places in the
    /// group; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, from: usize, to: usize) -> Key {
        self.keys[from][to]
    }
}
