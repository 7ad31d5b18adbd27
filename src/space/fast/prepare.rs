//! From a space to a fast network: docks, exits and passes.

use std::cell::OnceCell;
use std::collections::BTreeMap;
use std::sync::Arc;

use super::join::{Spot, join};
use super::landlocked::Landlocked;
use super::wall_graph::WallGraph;
use super::window::Compass;
use super::{Dock, Exit, FastEnd, FastNetwork, Pass, Planes};
use crate::space::portal::Portal;
use crate::space::{Key, Modes, Space, Step, Terminal};
use crate::units::Point2;

/// Where a column of a wall joins a void.
struct Gate {
    dock: usize,
    /// The place in the wall's grid.
    node: usize,
    /// What the plate costs.
    plate: Key,
    /// Whether legs that end elsewhere may pass.
    through: bool,
    page: Point2,
}

/// A house being prepared.
pub(super) struct Preparation<'a> {
    modes: Modes,
    fast: FastNetwork<'a>,
    index: BTreeMap<(usize, i64, i64), usize>,
}

impl<'a> Preparation<'a> {
    pub(super) fn new(
        space: &'a Space,
        planes: &Planes,
        modes: Modes,
        terminals: &[Terminal],
    ) -> Self {
        let fast = FastNetwork {
            space,
            bend: Key::new(space.tariff.bend, 0),
            fields: Arc::clone(&planes.0),
            docks: Vec::new(),
            ends: Vec::new(),
            graphs: vec![None; space.walls.len()],
            passes: Vec::new(),
            onward: Vec::new(),
            inward: Vec::new(),
            gates: vec![Vec::new(); space.voids.len()],
            compass: None,
            landlocked: None,
            joined: false,
        };
        let mut preparation = Self { modes, fast, index: BTreeMap::new() };
        preparation.lay_walls(terminals);
        preparation.lay_risers();
        preparation
    }

    /// For the ends of one circuit alone.
    pub(super) fn joined(
        space: &'a Space,
        planes: &Planes,
        modes: Modes,
        terminals: &[Terminal],
        stuck: bool,
    ) -> Self {
        let mut preparation = Self::new(space, planes, modes, terminals);
        preparation.fast.joined = true;
        if stuck {
            preparation.landlocked(terminals);
        }
        preparation
    }

    /// Leads the ends on walls out by all walls that are joined to theirs.
    fn landlocked(&mut self, terminals: &[Terminal]) {
        let space = self.fast.space;
        let landlocked = Landlocked::of(space, self.modes, terminals);
        let on_walls = terminals.iter().enumerate().filter(|(_, end)| end.wall().is_some());
        for (index, _) in on_walls {
            let mut exits = Vec::new();
            for out in landlocked.ways_out(index) {
                let portal = out.portal;
                let Some(dock) = self.dock(portal.void, portal.at) else { continue };
                let key = out.key.then(self.plate(portal));
                let (step, page) = (Step::Plate(portal.wall), portal.page);
                exits.push(Exit { dock, key, node: out.state, step, page });
            }
            self.prune(&mut exits);
            self.fast.ends[index].exits = exits;
        }
        self.fast.landlocked = Some(landlocked);
    }

    pub(super) fn finish(mut self) -> FastNetwork<'a> {
        let fast = &mut self.fast;
        let docks = &fast.docks;
        // The order of docks depends on which ends were laid; that of places
        // does not, and ways that cost the same are chosen by it.
        let place = |dock: usize| (docks[dock].void, docks[dock].spot.at());
        fast.passes.sort_by_key(|pass| (place(pass.from), place(pass.to), pass.key));
        fast.onward = vec![Vec::new(); docks.len()];
        fast.inward = vec![Vec::new(); docks.len()];
        for (number, pass) in fast.passes.iter().enumerate() {
            fast.onward[pass.from].push((pass.to, pass.key));
            fast.inward[pass.to].push(number);
        }
        let mut gates: Vec<usize> =
            fast.passes.iter().flat_map(|pass| [pass.from, pass.to]).collect();
        gates.sort_unstable_by_key(|gate| place(*gate));
        gates.dedup();
        for gate in gates {
            fast.gates[docks[gate].void].push(gate);
        }
        fast.compass = Compass::of(fast);
        self.fast
    }

    /// The dock at a place of a void; made where there is none yet.
    fn dock(&mut self, void: usize, at: (i64, i64)) -> Option<usize> {
        if let Some(dock) = self.index.get(&(void, at.0, at.1)) {
            return Some(*dock);
        }
        let field = self.fast.fields[void].as_ref()?;
        let spot = Spot::of(&field.tracks, at)?;
        let dock = self.fast.docks.len();
        self.fast.docks.push(Dock { void, spot, stencil: OnceCell::new() });
        self.index.insert((void, at.0, at.1), dock);
        Some(dock)
    }

    fn lay_walls(&mut self, terminals: &[Terminal]) {
        let space = self.fast.space;
        let mut on_wall: Vec<Vec<(i64, i64)>> = vec![Vec::new(); space.walls.len()];
        for terminal in terminals {
            if let Terminal::Wall { wall, along, z } = terminal {
                on_wall[*wall].push((*along, *z));
            }
        }
        let mut ends: Vec<FastEnd> = terminals
            .iter()
            .map(|terminal| FastEnd {
                terminal: terminal.clone(),
                exits: Vec::new(),
                ways: None,
                node: 0,
            })
            .collect();
        for (wall, on_it) in on_wall.iter().enumerate() {
            if on_it.is_empty() && !self.may_lead_on(wall) {
                continue;
            }
            let portals = space.portals(wall, self.modes);
            let passes = self.may_pass(wall, &portals);
            if on_it.is_empty() && !passes {
                continue;
            }
            let graph = WallGraph::of(space, self.modes, wall, on_it);
            let gates: Vec<Gate> = self.wall_docks(&graph, &portals);
            for end in &mut ends {
                self.lead_out(end, &graph, &gates);
            }
            if passes {
                self.add_passes(&graph, &gates);
            }
            self.fast.graphs[wall] = Some(graph);
        }
        for end in &mut ends {
            self.lead_up(end);
        }
        self.fast.ends = ends;
    }

    /// Whether a wall reaches more than one void, so that ways could pass it.
    fn may_lead_on(&self, wall: usize) -> bool {
        let space = self.fast.space;
        let (field, opens) =
            (&space.walls[wall], |void: usize, top| self.modes.opens(space.voids[void].kind, top));
        let above = field.above.iter().filter(|void| opens(**void, true)).count();
        let below = field.below.iter().filter(|void| opens(**void, false)).count();
        space.sideways_through || above + below > 1
    }

    /// Whether going through a wall by its corner strips could be worth it: into
    /// another void, or back into the same one where crossing that is dear.
    fn may_pass(&self, wall: usize, portals: &[Portal]) -> bool {
        let through: Vec<&Portal> = portals.iter().filter(|portal| !portal.own).collect();
        let sideways = self.fast.space.sideways_through;
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
    fn detour_is_dear(&self, wall: usize, one: &Portal, other: &Portal) -> bool {
        let space = self.fast.space;
        let Some(field) = &self.fast.fields[one.void] else { return false };
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
        let bends = self.fast.bend.then(self.fast.bend);
        join(&field.tracks, self.fast.bend, a, b).key.then(bends) > least
    }

    /// What it takes to pass the plate at a portal.
    fn plate(&self, portal: &Portal) -> Key {
        let space = self.fast.space;
        let field = &space.walls[portal.wall];
        let edge = if portal.top { field.ceiling } else { field.floor };
        let rise = (space.voids[portal.void].z - edge).abs();
        Key::run(rise, 100).then(Key::new(space.tariff.plate, 0))
    }

    /// The docks of a wall's portals.
    fn wall_docks(&mut self, graph: &WallGraph, portals: &[Portal]) -> Vec<Gate> {
        let space = self.fast.space;
        let field = &space.walls[graph.wall];
        let mut docks = Vec::with_capacity(portals.len());
        for portal in portals {
            let edge = if portal.top { field.ceiling } else { field.floor };
            let plate = self.plate(portal);
            if let (Some(dock), Some(node)) =
                (self.dock(portal.void, portal.at), graph.node(portal.along, edge))
            {
                let (through, page) = (!portal.own, portal.page);
                docks.push(Gate { dock, node, plate, through, page });
            }
        }
        docks
    }

    fn lead_out(&mut self, end: &mut FastEnd, graph: &WallGraph, gates: &[Gate]) {
        let Terminal::Wall { wall, along, z } = end.terminal else { return };
        if wall != graph.wall {
            return;
        }
        let Some(node) = graph.node(along, z) else { return };
        let ways = graph.ways(node, false);
        for gate in gates {
            let key = ways.upright(gate.node).then(gate.plate);
            if key.is_way() {
                let (dock, node, page) = (gate.dock, gate.node, gate.page);
                end.exits.push(Exit { dock, key, node, step: Step::Plate(wall), page });
            }
        }
        self.prune(&mut end.exits);
        end.ways = Some(ways);
        end.node = node;
    }

    /// Drops the exits that others reach more cheaply through the void.
    fn prune(&self, exits: &mut Vec<Exit>) {
        exits.sort_by_key(|exit| {
            let dock = &self.fast.docks[exit.dock];
            (exit.key, dock.void, dock.spot.at(), exit.node)
        });
        let mut kept: Vec<Exit> = Vec::new();
        for exit in exits.iter() {
            let beaten = kept.iter().any(|other| {
                let (a, b) = (&self.fast.docks[other.dock], &self.fast.docks[exit.dock]);
                a.void == b.void
                    && self.fast.fields[a.void].as_ref().is_some_and(|field| {
                        let way = join(&field.tracks, self.fast.bend, a.spot, b.spot).key;
                        let same = a.spot == b.spot;
                        let bends =
                            if same { Key::ZERO } else { self.fast.bend.then(self.fast.bend) };
                        other.key.then(way).then(bends) <= exit.key
                    })
            });
            if !beaten {
                kept.push(*exit);
            }
        }
        *exits = kept;
    }

    fn add_passes(&mut self, graph: &WallGraph, gates: &[Gate]) {
        for from in gates.iter().filter(|gate| gate.through) {
            let ways = graph.ways(from.node, true);
            for to in gates.iter().filter(|gate| gate.through && gate.dock != from.dock) {
                let key = from.plate.then(ways.upright(to.node)).then(to.plate);
                if !key.is_way() || self.is_idle(from.dock, to.dock, key) {
                    continue;
                }
                let through = Some((graph.wall, from.node, to.node));
                let pages = [from.page, to.page];
                self.fast.passes.push(Pass { from: from.dock, to: to.dock, key, through, pages });
            }
        }
    }

    /// Whether a pass leads back into its own void at no gain.
    fn is_idle(&self, from: usize, to: usize, key: Key) -> bool {
        let (a, b) = (&self.fast.docks[from], &self.fast.docks[to]);
        let Some(field) = &self.fast.fields[a.void] else { return false };
        a.void == b.void
            && join(&field.tracks, self.fast.bend, a.spot, b.spot)
                .key
                .then(self.fast.bend)
                .then(self.fast.bend)
                <= key
    }

    /// Ends on ceilings, floors and posts.
    fn lead_up(&mut self, end: &mut FastEnd) {
        let Terminal::Upright { place, voids, up, post } = &end.terminal else { return };
        let space = self.fast.space;
        let mut exits = Vec::new();
        for &void in voids {
            let field = &space.voids[void];
            let there = field.frame.frame_from_page(place.on_floor());
            if !self.modes.opens(field.kind, *up) {
                continue;
            }
            let Some(at) = space.settle_in(void, there) else { continue };
            if let Some(dock) = self.dock(void, at) {
                let key = Key::run((field.z - place.z.get()).abs(), 100);
                let step = if *post { Step::Post } else { Step::Passage };
                exits.push(Exit { dock, key, node: 0, step, page: place.on_floor() });
            }
        }
        end.exits = exits;
    }

    fn lay_risers(&mut self) {
        let (space, modes) = (self.fast.space, self.modes);
        for riser in &space.risers {
            let docks: Vec<(usize, usize, Point2)> = riser
                .iter()
                .filter(|&&(void, _)| modes.opens_void(&space.voids[void]))
                .filter_map(|&(void, at)| {
                    let page = space.voids[void].frame.page_from_frame(at);
                    self.dock(void, at).map(|dock| (void, dock, page))
                })
                .collect();
            for &(void, from, page) in &docks {
                for &(other, to, there) in docks.iter().filter(|dock| dock.1 != from) {
                    let rise = (space.voids[void].z - space.voids[other].z).abs();
                    let key = Key::run(rise, 100).then(Key::new(2 * space.tariff.plate, 0));
                    let pages = [page, there];
                    self.fast.passes.push(Pass { from, to, key, through: None, pages });
                }
            }
        }
    }
}
