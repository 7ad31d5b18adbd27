//! The cheapest ways between all ends of a house at once, fast.
//!
//! Gives the same keys as the plain [`Network`](super::Network), which stays
//! as the reference, from much smaller pieces: each wall is searched on its own,
//! each void is flooded over its core lines for eight ends at a time, and ends
//! reach the core lines by stencils. It does not serve pins, nor walls from
//! which no void can be reached; there the plain network does.

mod join;
mod lanes;
mod stencil;
mod tracks;
mod trail;
mod wall_graph;

use std::collections::BTreeMap;

use self::join::{Spot, join};
use self::lanes::{Flood, LANES, Lane, NO_WAY, Prices};
use self::stencil::{Entry, stencil};
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

/// A house being prepared.
struct Preparation<'a> {
    modes: Modes,
    swift: Swift<'a>,
    index: BTreeMap<(usize, i64, i64), usize>,
}

impl<'a> Preparation<'a> {
    fn new(space: &'a Space, modes: Modes, terminals: &[Terminal]) -> Self {
        let bend = Key::new(space.tariff.bend, 0);
        let fields = space
            .voids
            .iter()
            .map(|field| {
                let tracks = Tracks::of(field)?;
                let prices = Prices::of(&tracks, bend);
                Some(Field { tracks, prices })
            })
            .collect();
        let swift = Swift {
            space,
            bend,
            fields,
            docks: Vec::new(),
            ends: Vec::new(),
            graphs: vec![None; space.walls.len()],
            passes: Vec::new(),
            onward: Vec::new(),
            gates: vec![Vec::new(); space.voids.len()],
        };
        let mut preparation = Self { modes, swift, index: BTreeMap::new() };
        preparation.lay_walls(terminals);
        preparation.lay_risers();
        preparation
    }

    fn finish(mut self) -> Swift<'a> {
        let swift = &mut self.swift;
        swift.onward = vec![Vec::new(); swift.docks.len()];
        for pass in &swift.passes {
            swift.onward[pass.from].push((pass.to, pass.key));
        }
        for (dock, onward) in swift.onward.iter().enumerate() {
            if !onward.is_empty() {
                swift.gates[swift.docks[dock].void].push(dock);
            }
        }
        self.swift
    }

    /// The dock at a place of a void; made where there is none yet.
    fn dock(&mut self, void: usize, at: (i64, i64), page: Point2) -> Option<usize> {
        if let Some(dock) = self.index.get(&(void, at.0, at.1)) {
            return Some(*dock);
        }
        let field = self.swift.fields[void].as_ref()?;
        let spot = Spot::of(&field.tracks, at)?;
        let entries = stencil(&field.tracks, self.swift.bend, spot);
        let dock = self.swift.docks.len();
        self.swift.docks.push(Dock { void, spot, page, entries });
        self.index.insert((void, at.0, at.1), dock);
        Some(dock)
    }

    fn lay_walls(&mut self, terminals: &[Terminal]) {
        let space = self.swift.space;
        let mut on_wall: Vec<Vec<(i64, i64)>> = vec![Vec::new(); space.walls.len()];
        for terminal in terminals {
            if let Terminal::Wall { wall, along, z } = terminal {
                on_wall[*wall].push((*along, *z));
            }
        }
        let mut ends: Vec<SwiftEnd> = terminals
            .iter()
            .map(|terminal| SwiftEnd {
                terminal: terminal.clone(),
                exits: Vec::new(),
                ways: None,
                node: 0,
            })
            .collect();
        for (wall, on_it) in on_wall.iter().enumerate() {
            let portals = space.portals(wall, self.modes);
            let passes = self.may_pass(wall, &portals);
            if on_it.is_empty() && !passes {
                continue;
            }
            let graph = WallGraph::of(space, self.modes, wall, on_it);
            let gates = self.wall_docks(&graph, &portals);
            for end in &mut ends {
                self.lead_out(end, &graph, &gates);
            }
            if passes {
                self.add_passes(&graph, &gates);
            }
            self.swift.graphs[wall] = Some(graph);
        }
        for end in &mut ends {
            self.lead_up(end);
        }
        self.swift.ends = ends;
    }

    /// Whether going through a wall by its corner strips could be worth it: into
    /// another void, or back into the same one where crossing that is dear.
    fn may_pass(&self, wall: usize, portals: &[super::portal::Portal]) -> bool {
        let through: Vec<&super::portal::Portal> =
            portals.iter().filter(|portal| !portal.own).collect();
        let sideways = self.swift.space.sideways_through;
        through.iter().enumerate().any(|(index, one)| {
            through[index + 1..].iter().any(|other| {
                let apart = one.void != other.void;
                if sideways {
                    apart || self.detour_is_dear(wall, one, other)
                } else {
                    apart && one.along == other.along
                }
            })
        })
    }

    /// Whether the void between two portals of a wall costs more than the least
    /// that a way through the wall can cost.
    fn detour_is_dear(
        &self,
        wall: usize,
        one: &super::portal::Portal,
        other: &super::portal::Portal,
    ) -> bool {
        let space = self.swift.space;
        let Some(field) = &self.swift.fields[one.void] else { return false };
        let (Some(a), Some(b)) =
            (Spot::of(&field.tracks, one.at), Spot::of(&field.tracks, other.at))
        else {
            return false;
        };
        let wall_field = &space.walls[wall];
        let edge = if one.top { wall_field.ceiling } else { wall_field.floor };
        let rise = (space.voids[one.void].z - edge).abs();
        let (_, density) = space.sideways(wall, self.modes);
        let least = Key::run(2 * rise, 100)
            .then(Key::new(2 * space.tariff.plate, 0))
            .then(Key::run((one.along - other.along).abs(), density.min(100)));
        let bends = self.swift.bend.then(self.swift.bend);
        join(&field.tracks, self.swift.bend, a, b).key.then(bends) > least
    }

    /// The docks of a wall's portals: (dock, place in the grid, key of the
    /// plate, whether it may be passed through).
    fn wall_docks(
        &mut self,
        graph: &WallGraph,
        portals: &[super::portal::Portal],
    ) -> Vec<(usize, usize, Key, bool)> {
        let space = self.swift.space;
        let field = &space.walls[graph.wall];
        let mut docks = Vec::with_capacity(portals.len());
        for portal in portals {
            let edge = if portal.top { field.ceiling } else { field.floor };
            let rise = (space.voids[portal.void].z - edge).abs();
            let key = Key::run(rise, 100).then(Key::new(space.tariff.plate, 0));
            if let (Some(dock), Some(node)) =
                (self.dock(portal.void, portal.at, portal.page), graph.node(portal.along, edge))
            {
                docks.push((dock, node, key, !portal.own));
            }
        }
        docks
    }

    fn lead_out(
        &mut self,
        end: &mut SwiftEnd,
        graph: &WallGraph,
        gates: &[(usize, usize, Key, bool)],
    ) {
        let Terminal::Wall { wall, along, z } = end.terminal else { return };
        if wall != graph.wall {
            return;
        }
        let Some(node) = graph.node(along, z) else { return };
        let ways = graph.ways(node, false);
        for (dock, at, plate, _) in gates {
            let key = ways.upright(*at).then(*plate);
            if key.is_way() {
                let step = Step::Plate(wall);
                end.exits.push(Exit { dock: *dock, key, node: *at, step });
            }
        }
        self.prune(&mut end.exits);
        end.ways = Some(ways);
        end.node = node;
    }

    /// Drops the exits that others reach more cheaply through the void.
    fn prune(&self, exits: &mut Vec<Exit>) {
        exits.sort_by_key(|exit| (exit.key, exit.dock));
        let mut kept: Vec<Exit> = Vec::new();
        for exit in exits.iter() {
            let beaten = kept.iter().any(|other| {
                let (a, b) = (&self.swift.docks[other.dock], &self.swift.docks[exit.dock]);
                a.void == b.void
                    && self.swift.fields[a.void].as_ref().is_some_and(|field| {
                        let way = join(&field.tracks, self.swift.bend, a.spot, b.spot).key;
                        let same = a.spot == b.spot;
                        let bends =
                            if same { Key::ZERO } else { self.swift.bend.then(self.swift.bend) };
                        other.key.then(way).then(bends) <= exit.key
                    })
            });
            if !beaten {
                kept.push(*exit);
            }
        }
        *exits = kept;
    }

    fn add_passes(&mut self, graph: &WallGraph, gates: &[(usize, usize, Key, bool)]) {
        for (from, start, plate, through) in gates {
            if !through {
                continue;
            }
            let ways = graph.ways(*start, true);
            for (to, end, other, _) in gates.iter().filter(|gate| gate.3 && gate.0 != *from) {
                let key = plate.then(ways.upright(*end)).then(*other);
                if !key.is_way() || self.is_idle(*from, *to, key) {
                    continue;
                }
                let through = Some((graph.wall, *start, *end));
                self.swift.passes.push(Pass { from: *from, to: *to, key, through });
            }
        }
    }

    /// Whether a pass leads back into its own void at no gain.
    fn is_idle(&self, from: usize, to: usize, key: Key) -> bool {
        let (a, b) = (&self.swift.docks[from], &self.swift.docks[to]);
        let Some(field) = &self.swift.fields[a.void] else { return false };
        a.void == b.void
            && join(&field.tracks, self.swift.bend, a.spot, b.spot)
                .key
                .then(self.swift.bend)
                .then(self.swift.bend)
                <= key
    }

    /// Ends on ceilings, floors and posts.
    fn lead_up(&mut self, end: &mut SwiftEnd) {
        let Terminal::Upright { place, voids, up, post } = &end.terminal else { return };
        let space = self.swift.space;
        let mut exits = Vec::new();
        for &void in voids {
            let field = &space.voids[void];
            let there = field.frame.frame_from_page(place.on_floor());
            if !self.modes.opens(field.kind, *up) {
                continue;
            }
            let Some(at) = space.settle_in(void, there) else { continue };
            if let Some(dock) = self.dock(void, at, place.on_floor()) {
                let key = Key::run((field.z - place.z.get()).abs(), 100);
                let step = if *post { Step::Post } else { Step::Passage };
                exits.push(Exit { dock, key, node: 0, step });
            }
        }
        end.exits = exits;
    }

    fn lay_risers(&mut self) {
        let (space, modes) = (self.swift.space, self.modes);
        for riser in &space.risers {
            let docks: Vec<(usize, usize)> = riser
                .iter()
                .filter(|&&(void, _)| modes.opens_void(&space.voids[void]))
                .filter_map(|&(void, at)| {
                    let page = space.voids[void].frame.page_from_frame(at);
                    self.dock(void, at, page).map(|dock| (void, dock))
                })
                .collect();
            for &(void, from) in &docks {
                for &(other, to) in docks.iter().filter(|dock| dock.1 != from) {
                    let rise = (space.voids[void].z - space.voids[other].z).abs();
                    let key = Key::run(rise, 100).then(Key::new(2 * space.tariff.plate, 0));
                    self.swift.passes.push(Pass { from, to, key, through: None });
                }
            }
        }
    }
}
