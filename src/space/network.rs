//! The lines on which the cheapest ways between some terminals lie.
//!
//! Any stretch between two others can be slid sideways until it reaches the
//! edge of a rectangle or a line of one of the two ends, without raising the
//! cost, because the cost is linear between such lines. So it is enough to look
//! at those lines: this network holds all of them, and what is cheapest on it is
//! cheapest anywhere.

use std::collections::BTreeSet;

use super::portal::Portal;
use super::{Key, Modes, Space, Terminal};
use crate::units::{Mm, Point2, Point3};

/// Lines, joints and terminals, as nodes with moves between them.
#[derive(Clone, Debug)]
pub struct Network {
    pub(super) nodes: Vec<Node>,
    pub(super) moves: Vec<Vec<Move>>,
    /// The node of each terminal, in the order given. None: it has none.
    pub(super) terminals: Vec<Option<u32>>,
    pub(super) bend: Key,
    pub(super) sideways_through: bool,
}

/// A place that a cable can pass or end at.
#[derive(Clone, Copy, Debug)]
pub(super) struct Node {
    pub(super) place: Point3,
    /// Whether it lies in a void, where no leg begins but at a pin.
    pub(super) in_void: bool,
}

/// A move from one node to another.
#[derive(Clone, Copy, Debug)]
pub(super) struct Move {
    pub(super) to: u32,
    pub(super) axis: Axis,
    pub(super) key: Key,
    pub(super) gate: Gate,
    pub(super) step: Step,
    /// A corner that the move turns on its way, what it runs through before
    /// that, and how long that part is.
    pub(super) via: Option<(Point2, Step, i64)>,
}

/// The direction of a move, as far as bends are concerned: between two planes
/// a cable always goes upright.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Axis {
    Upright = 0,
    First = 1,
    Second = 2,
}

/// Whether a move passes between a wall and a void, and by which kind of
/// column: `own` ones serve only legs that end on that wall.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Gate {
    Open,
    Leave { own: bool },
    Enter { own: bool },
}

/// What a move runs through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// Inside a wall, by its index.
    Wall(usize),
    /// On the face of a wall, by its index.
    Face(usize),
    /// Across a void, by its index, along its first axis (the joists) or not.
    Void(usize, bool),
    /// Between a wall, by its index, and a void.
    Plate(usize),
    /// Between a ceiling, a floor or a riser and a void.
    Passage,
    /// Up or down a post.
    Post,
}

impl Network {
    /// The network on which the cheapest ways between these terminals lie.
    #[must_use]
    pub fn around(space: &Space, modes: Modes, terminals: &[Terminal]) -> Self {
        Builder::new(space, modes, terminals).build()
    }

    /// Only some walls with what lies in them, joined where they meet, around
    /// the ends of a circuit; and the places where portals leave them.
    pub(super) fn of_walls(
        space: &Space,
        modes: Modes,
        walls: &BTreeSet<usize>,
        ends: &[Terminal],
    ) -> (Self, Vec<(Portal, u32)>) {
        let mut builder = Builder { only: Some(walls), ..Builder::new(space, modes, ends) };
        builder.choose_walls();
        builder.lay_walls();
        let portals = std::mem::take(&mut builder.portals);
        let doors = portals.into_iter().filter_map(|portal| {
            let field = &space.walls[portal.wall];
            let edge = if portal.top { field.ceiling } else { field.floor };
            let node = builder.wall_node(portal.wall, portal.along, edge)?;
            Some((portal, node))
        });
        let doors = doors.collect();
        builder.join_meets();
        for end in ends {
            let node = match end {
                Terminal::Wall { wall, along, z } => builder.wall_node(*wall, *along, *z),
                _ => None,
            };
            builder.network.terminals.push(node);
        }
        (builder.network, doors)
    }

    /// Whether a terminal is joined to anything.
    #[must_use]
    pub fn is_joined(&self, terminal: usize) -> bool {
        self.terminals
            .get(terminal)
            .copied()
            .flatten()
            .is_some_and(|node| !self.moves[node as usize].is_empty())
    }
}

struct WallGrid {
    columns: Vec<(i64, bool)>,
    heights: Vec<i64>,
    base: u32,
}

struct VoidGrid {
    us: Vec<i64>,
    vs: Vec<i64>,
    base: u32,
}

struct Builder<'a> {
    space: &'a Space,
    modes: Modes,
    ends: &'a [Terminal],
    /// The walls to be laid; all where not given.
    only: Option<&'a BTreeSet<usize>>,
    /// Whether each wall reaches a void.
    reaches: Vec<bool>,
    walls: Vec<Option<WallGrid>>,
    voids: Vec<Option<VoidGrid>>,
    portals: Vec<Portal>,
    network: Network,
}

impl<'a> Builder<'a> {
    fn new(space: &'a Space, modes: Modes, ends: &'a [Terminal]) -> Self {
        Self {
            space,
            modes,
            ends,
            only: None,
            reaches: Vec::new(),
            walls: Vec::new(),
            voids: Vec::new(),
            portals: Vec::new(),
            network: Network {
                nodes: Vec::new(),
                moves: Vec::new(),
                terminals: Vec::new(),
                bend: Key::new(space.tariff.bend, 0),
                sideways_through: space.sideways_through,
            },
        }
    }

    fn build(mut self) -> Network {
        self.choose_walls();
        self.lay_walls();
        self.lay_voids();
        self.join_portals();
        self.join_meets();
        self.join_risers();
        self.place_terminals();
        self.network
    }

    /// The walls that a way can use: those of the ends, those that reach a
    /// void, and, where an end is on a wall that reaches none, all such walls.
    fn choose_walls(&mut self) {
        let ends: Vec<usize> = self.ends.iter().filter_map(Terminal::wall).collect();
        let is_asked = |wall: usize| self.only.is_none_or(|only| only.contains(&wall));
        let portals = |wall| {
            if is_asked(wall) { self.space.portals(wall, self.modes) } else { Vec::new() }
        };
        let all: Vec<Vec<Portal>> = (0..self.space.walls.len()).map(portals).collect();
        // Where only some walls are asked for, it is for such an end.
        let stuck = self.only.is_some() || ends.iter().any(|&wall| all[wall].is_empty());
        let is_chosen = |(wall, portals): (usize, &Vec<Portal>)| {
            is_asked(wall) && (stuck || !portals.is_empty() || ends.contains(&wall))
        };
        let chosen: Vec<bool> = all.iter().enumerate().map(is_chosen).collect();
        self.reaches = all.iter().map(|portals| !portals.is_empty()).collect();
        let mut met: Vec<Vec<i64>> = vec![Vec::new(); self.space.walls.len()];
        for meet in self.space.meets.iter().filter(|_| self.modes.sideways()) {
            let (one, other) = (meet.one.0, meet.other.0);
            if is_asked(one) && is_asked(other) {
                met[one].extend(&self.space.walls[other].rows);
                met[other].extend(&self.space.walls[one].rows);
            }
        }
        for (wall, portals) in all.into_iter().enumerate() {
            let field = &self.space.walls[wall];
            if !chosen[wall] {
                self.walls.push(None);
                continue;
            }
            let is_end = ends.contains(&wall);
            let mut columns: Vec<(i64, bool)> = field
                .columns
                .iter()
                .filter(|column| is_end || column.through)
                .map(|column| (column.along, !column.through))
                .collect();
            let mut heights = vec![field.floor, field.ceiling];
            heights.extend(&field.rows);
            heights.extend(&met[wall]);
            for end in self.ends {
                if let Terminal::Wall { wall: on, along, z } = end
                    && *on == wall
                {
                    if !columns.iter().any(|column| column.0 == *along) {
                        columns.push((*along, true));
                    }
                    heights.push(*z);
                }
            }
            columns.sort_unstable();
            columns.dedup_by_key(|column| column.0);
            heights.retain(|z| field.floor <= *z && *z <= field.ceiling);
            heights.sort_unstable();
            heights.dedup();
            self.walls.push(Some(WallGrid { columns, heights, base: 0 }));
            self.portals.extend(portals.into_iter().filter(|portal| is_end || !portal.own));
        }
    }

    fn add_node(&mut self, place: Point3, in_void: bool) -> u32 {
        let index = u32::try_from(self.network.nodes.len()).unwrap_or(u32::MAX);
        self.network.nodes.push(Node { place, in_void });
        self.network.moves.push(Vec::new());
        index
    }

    fn add_move(&mut self, from: u32, made: Move) {
        self.network.moves[from as usize].push(made);
    }

    /// The same move both ways, through a gate that opens either way.
    fn join(&mut self, a: u32, b: u32, made: Move, back: Gate) {
        self.add_move(a, Move { to: b, ..made });
        self.add_move(b, Move { to: a, gate: back, ..made });
    }

    fn lay_walls(&mut self) {
        for wall in 0..self.walls.len() {
            let Some(mut grid) = self.walls[wall].take() else { continue };
            grid.base = u32::try_from(self.network.nodes.len()).unwrap_or(u32::MAX);
            let field = &self.space.walls[wall];
            for &(along, _) in &grid.columns {
                for &z in &grid.heights {
                    self.add_node(field.page(along).at_height(Mm::new(z)), false);
                }
            }
            self.lay_uprights(wall, &grid);
            if self.modes.sideways() {
                self.lay_rows(wall, &grid);
            }
            self.walls[wall] = Some(grid);
        }
    }

    fn lay_uprights(&mut self, wall: usize, grid: &WallGrid) {
        let field = &self.space.walls[wall];
        for (column, &(along, _)) in grid.columns.iter().enumerate() {
            for (row, pair) in grid.heights.windows(2).enumerate() {
                if field.upright_free(along, pair[0], pair[1]) {
                    let step = self.step_in(wall);
                    let made = plain(Axis::Upright, Key::run(pair[1] - pair[0], 100), step);
                    self.join(grid.node(column, row), grid.node(column, row + 1), made, Gate::Open);
                }
            }
        }
    }

    fn lay_rows(&mut self, wall: usize, grid: &WallGrid) {
        let field = &self.space.walls[wall];
        let (step, density) = (self.step_in(wall), self.sideways(wall));
        for (row, z) in grid.heights.iter().enumerate() {
            if !field.rows.contains(z) {
                continue;
            }
            for (column, pair) in grid.columns.windows(2).enumerate() {
                if field.sideways_free(*z, pair[0].0, pair[1].0) {
                    let made = plain(Axis::First, Key::run(pair[1].0 - pair[0].0, density), step);
                    self.join(grid.node(column, row), grid.node(column + 1, row), made, Gate::Open);
                }
            }
        }
    }

    fn step_in(&self, wall: usize) -> Step {
        self.space.sideways(wall, self.modes).0
    }

    fn sideways(&self, wall: usize) -> i64 {
        self.space.sideways(wall, self.modes).1
    }

    fn lay_voids(&mut self) {
        for void in 0..self.space.voids.len() {
            let grid = self.void_lines(void);
            self.voids.push(grid);
            let Some(mut grid) = self.voids[void].take() else { continue };
            grid.base = u32::try_from(self.network.nodes.len()).unwrap_or(u32::MAX);
            let plane = &self.space.voids[void];
            for &v in &grid.vs {
                for &u in &grid.us {
                    let page = plane.frame.page_from_frame((u, v));
                    self.add_node(page.at_height(Mm::new(plane.z)), true);
                }
            }
            self.lay_cells(void, &grid);
            self.voids[void] = Some(grid);
        }
    }

    /// The lines of a void: the edges of its rectangles and the places where
    /// anything joins it. None where nothing does.
    fn void_lines(&self, void: usize) -> Option<VoidGrid> {
        let mut joints: Vec<(i64, i64)> =
            self.portals.iter().filter(|p| p.void == void).map(|p| p.at).collect();
        joints.extend(self.upright_joints().into_iter().filter(|j| j.1 == void).map(|j| j.2));
        for end in self.ends {
            if let Terminal::InVoid { void: on, at } = end
                && *on == void
            {
                joints.push(*at);
            }
        }
        let risers = self.space.risers.iter().flatten().filter(|(on, _)| *on == void);
        joints.extend(risers.map(|(_, at)| *at));
        if joints.is_empty() {
            return None;
        }
        let (mut us, mut vs) = self.space.voids[void].edges();
        us.extend(joints.iter().map(|joint| joint.0));
        vs.extend(joints.iter().map(|joint| joint.1));
        for lines in [&mut us, &mut vs] {
            lines.sort_unstable();
            lines.dedup();
        }
        Some(VoidGrid { us, vs, base: 0 })
    }

    /// Ends that go straight up or down into voids: (end, void, place in it).
    fn upright_joints(&self) -> Vec<(usize, usize, (i64, i64))> {
        let mut joints = Vec::new();
        for (index, end) in self.ends.iter().enumerate() {
            let Terminal::Upright { place, voids, up, .. } = end else { continue };
            for &void in voids {
                let plane = &self.space.voids[void];
                if self.modes.opens(plane.kind, *up)
                    && let Some(at) =
                        self.space.settle_in(void, plane.frame.frame_from_page(place.on_floor()))
                {
                    joints.push((index, void, at));
                }
            }
        }
        joints
    }

    /// Moves along the lines of a void: beside a cell that is free,
    /// at the price of that line.
    fn lay_cells(&mut self, void: usize, grid: &VoidGrid) {
        let plane = &self.space.voids[void];
        let (nu, nv) = (grid.us.len(), grid.vs.len());
        let free = plane.free_cells(&grid.us, &grid.vs);
        let is_free = |i: Option<usize>, j: Option<usize>| match (i, j) {
            (Some(i), Some(j)) => i + 1 < nu && j + 1 < nv && free[j * (nu - 1) + i],
            _ => false,
        };
        for j in 0..nv {
            for i in 0..nu {
                let (left, under) = (i.checked_sub(1), j.checked_sub(1));
                let (u, v, here) = (grid.us[i], grid.vs[j], grid.node(i, j));
                if is_free(Some(i), Some(j)) || is_free(Some(i), under) {
                    let next = grid.us[i + 1];
                    let key = Key::run(next - u, plane.price_along_u(v, u, next));
                    let made = plain(Axis::First, key, Step::Void(void, true));
                    self.join(here, grid.node(i + 1, j), made, Gate::Open);
                }
                if is_free(Some(i), Some(j)) || is_free(left, Some(j)) {
                    let next = grid.vs[j + 1];
                    let key = Key::run(next - v, plane.price_along_v(u, v, next));
                    let made = plain(Axis::Second, key, Step::Void(void, false));
                    self.join(here, grid.node(i, j + 1), made, Gate::Open);
                }
            }
        }
    }

    fn void_node(&self, void: usize, at: (i64, i64)) -> Option<u32> {
        let grid = self.voids[void].as_ref()?;
        let i = grid.us.binary_search(&at.0).ok()?;
        let j = grid.vs.binary_search(&at.1).ok()?;
        Some(grid.node(i, j))
    }

    fn wall_node(&self, wall: usize, along: i64, z: i64) -> Option<u32> {
        let grid = self.walls[wall].as_ref()?;
        let column = grid.columns.binary_search_by_key(&along, |column| column.0).ok()?;
        let row = grid.heights.binary_search(&z).ok()?;
        Some(grid.node(column, row))
    }

    fn join_portals(&mut self) {
        for portal in std::mem::take(&mut self.portals) {
            let field = &self.space.walls[portal.wall];
            let edge = if portal.top { field.ceiling } else { field.floor };
            let (Some(inside), Some(outside)) = (
                self.wall_node(portal.wall, portal.along, edge),
                self.void_node(portal.void, portal.at),
            ) else {
                continue;
            };
            // The plate is upright at the wall's own place, not at its rounded twin.
            let z = self.space.voids[portal.void].z;
            self.network.nodes[outside as usize].place = portal.page.at_height(Mm::new(z));
            let key = Key::run((z - edge).abs(), 100).then(Key::new(self.space.tariff.plate, 0));
            let made = Move {
                gate: Gate::Leave { own: portal.own },
                ..plain(Axis::Upright, key, Step::Plate(portal.wall))
            };
            self.join(inside, outside, made, Gate::Enter { own: portal.own });
        }
    }

    fn join_meets(&mut self) {
        if !self.modes.sideways() {
            return;
        }
        for meet in &self.space.meets {
            let (one, other) = (&self.space.walls[meet.one.0], &self.space.walls[meet.other.0]);
            if self.reaches[meet.one.0] && self.reaches[meet.other.0] {
                continue;
            }
            let (to_one, to_other) = (
                rounded(one.page(meet.one.1).distance(meet.at)),
                rounded(other.page(meet.other.1).distance(meet.at)),
            );
            let turn = if one.is_parallel_to(other) { 0 } else { self.space.tariff.bend };
            let mut heights: Vec<i64> = one.rows.iter().chain(&other.rows).copied().collect();
            heights.sort_unstable();
            heights.dedup();
            for z in heights {
                if !one.corner_free(z, meet.one.1, meet.at)
                    || !other.corner_free(z, meet.other.1, meet.at)
                {
                    continue;
                }
                let (Some(a), Some(b)) = (
                    self.wall_node(meet.one.0, meet.one.1, z),
                    self.wall_node(meet.other.0, meet.other.1, z),
                ) else {
                    continue;
                };
                let key = Key::run(to_one + to_other, 100)
                    .then(Key::new(self.space.tariff.corner + turn, 0));
                let (here, there) = (self.step_in(meet.one.0), self.step_in(meet.other.0));
                let out =
                    Move { via: Some((meet.at, here, to_one)), ..plain(Axis::First, key, there) };
                let back =
                    Move { via: Some((meet.at, there, to_other)), ..plain(Axis::First, key, here) };
                self.add_move(a, Move { to: b, ..out });
                self.add_move(b, Move { to: a, ..back });
            }
        }
    }

    fn join_risers(&mut self) {
        for riser in &self.space.risers {
            for (index, &(void, at)) in riser.iter().enumerate() {
                for &(other, there) in &riser[index + 1..] {
                    if !self.modes.opens_void(&self.space.voids[void])
                        || !self.modes.opens_void(&self.space.voids[other])
                    {
                        continue;
                    }
                    let (Some(a), Some(b)) =
                        (self.void_node(void, at), self.void_node(other, there))
                    else {
                        continue;
                    };
                    let rise = (self.space.voids[void].z - self.space.voids[other].z).abs();
                    let key = Key::run(rise, 100).then(Key::new(2 * self.space.tariff.plate, 0));
                    self.join(a, b, plain(Axis::Upright, key, Step::Passage), Gate::Open);
                }
            }
        }
    }

    fn place_terminals(&mut self) {
        let joints = self.upright_joints();
        for (index, end) in self.ends.iter().enumerate() {
            let node = match end {
                Terminal::Wall { wall, along, z } => self.wall_node(*wall, *along, *z),
                Terminal::InVoid { void, at } => self.void_node(*void, *at),
                Terminal::Upright { place, .. } => Some(self.add_node(*place, false)),
            };
            self.network.terminals.push(node);
            let (Terminal::Upright { place, post, .. }, Some(node)) = (end, node) else { continue };
            let step = if *post { Step::Post } else { Step::Passage };
            for (_, void, at) in joints.iter().filter(|joint| joint.0 == index) {
                let Some(over) = self.void_node(*void, *at) else { continue };
                let z = self.space.voids[*void].z;
                self.network.nodes[over as usize].place = place.on_floor().at_height(Mm::new(z));
                let made = Move {
                    gate: Gate::Leave { own: true },
                    ..plain(Axis::Upright, Key::run((z - place.z.get()).abs(), 100), step)
                };
                self.join(node, over, made, Gate::Enter { own: true });
            }
        }
    }
}

impl WallGrid {
    fn node(&self, column: usize, row: usize) -> u32 {
        self.base + u32::try_from(column * self.heights.len() + row).unwrap_or(0)
    }
}

impl VoidGrid {
    fn node(&self, i: usize, j: usize) -> u32 {
        self.base + u32::try_from(j * self.us.len() + i).unwrap_or(0)
    }
}

fn plain(axis: Axis, key: Key, step: Step) -> Move {
    Move { to: 0, axis, key, gate: Gate::Open, step, via: None }
}

fn rounded(length: f64) -> i64 {
    Mm::from_f64(length).unwrap_or(Mm::ZERO).get()
}
