//! The cheapest ways from one terminal to the others.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::Key;
use super::network::{Axis, Gate, Move, Network, Step};
use crate::units::Point3;

/// The cheapest ways from one terminal.
#[derive(Clone, Debug)]
pub struct Ways<'a> {
    network: &'a Network,
    tree: Tree,
}

/// What was found from one terminal of a network, without the network.
#[derive(Clone, Debug)]
pub(super) struct Tree {
    best: Vec<Key>,
    /// The state before, and the move out of it.
    before: Vec<(u32, u32)>,
}

/// A stretch of a way: where it ends, what it runs through, how long it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stop {
    /// Where the stretch ends.
    pub place: Point3,
    /// What it runs through.
    pub step: Step,
    /// How long it is, mm, as reckoned in its own plane: places are rounded
    /// to the page.
    pub length: i64,
}

/// States of a node: three directions of arrival, and whether the leg is still
/// at its first wall, on its way, or at its last wall.
const AXES: usize = 3;
const STATES: usize = 9;
const NO_STATE: u32 = u32::MAX;

impl Network {
    /// The cheapest ways from a terminal to every other, by least cost and
    /// then least length; of equal ones the first in a fixed order of moves.
    #[must_use]
    pub fn ways_from(&self, terminal: usize) -> Ways<'_> {
        Ways { network: self, tree: Tree::from(self, terminal) }
    }
}

impl Network {
    /// The states in which a leg can begin at a node.
    pub(super) fn start_states(&self, node: u32) -> impl Iterator<Item = usize> + use<> {
        let phase = usize::from(self.nodes[node as usize].in_void);
        (0..AXES).map(move |axis| node as usize * STATES + phase * AXES + axis)
    }

    /// The moves out of the node of a state.
    pub(super) fn moves_of(&self, state: usize) -> &[Move] {
        &self.moves[state.div_euclid(STATES)]
    }

    /// Where a move leads from a state, and what it costs with its bend. None
    /// where a leg in that state may not make it.
    pub(super) fn step(&self, state: usize, made: &Move) -> Option<(usize, Key)> {
        let rest = state.rem_euclid(STATES);
        let (phase, axis) = (rest.div_euclid(AXES), rest.rem_euclid(AXES));
        let mut next_phase = passes(made.gate, phase)?;
        let in_wall = matches!(made.step, Step::Wall(_) | Step::Face(_));
        if phase == 1 && in_wall && made.axis != Axis::Upright && !self.sideways_through {
            // Sideways only in walls where the leg ends.
            next_phase = 2;
        }
        let turns = made.axis as usize != axis;
        let price = if turns { made.key.then(self.bend) } else { made.key };
        Some((made.to as usize * STATES + next_phase * AXES + made.axis as usize, price))
    }
}

/// All states of a node.
pub(super) fn states_of(node: usize) -> std::ops::Range<usize> {
    node * STATES..(node + 1) * STATES
}

impl Tree {
    /// The cheapest ways from a terminal.
    pub(super) fn from(network: &Network, terminal: usize) -> Self {
        let states = network.nodes.len() * STATES;
        let mut tree = Self { best: vec![Key::NONE; states], before: vec![(NO_STATE, 0); states] };
        if let Some(start) = network.terminals.get(terminal).copied().flatten() {
            tree.flood(network, start);
        }
        tree
    }

    fn flood(&mut self, network: &Network, start: u32) {
        let mut queue = BinaryHeap::new();
        for state in network.start_states(start) {
            self.best[state] = Key::ZERO;
            queue.push(Reverse((Key::ZERO, state)));
        }
        while let Some(Reverse((key, state))) = queue.pop() {
            if key > self.best[state] {
                continue;
            }
            for (number, made) in network.moves_of(state).iter().enumerate() {
                let Some((next, price)) = network.step(state, made) else { continue };
                let cost = key.then(price);
                if cost < self.best[next] {
                    self.best[next] = cost;
                    self.before[next] = (index(state), index(number));
                    queue.push(Reverse((cost, next)));
                }
            }
        }
    }

    /// The state in which it is cheapest to end at a node, and the key; or, to
    /// go on upright, with the bend that this takes. None without a way.
    pub(super) fn end_state(
        &self,
        network: &Network,
        node: u32,
        upright: bool,
    ) -> Option<(usize, Key)> {
        let key = |state: usize| {
            let turns = upright && state.rem_euclid(AXES) != Axis::Upright as usize;
            if turns { self.best[state].then(network.bend) } else { self.best[state] }
        };
        let best = states_of(node as usize).map(|state| (state, key(state)));
        best.min_by_key(|(state, key)| (*key, *state)).filter(|(_, key)| key.is_way())
    }

    fn end_at(&self, network: &Network, terminal: usize) -> Option<(usize, Key)> {
        self.end_state(network, network.terminals.get(terminal).copied().flatten()?, false)
    }

    /// What the cheapest way to a terminal costs; [`Key::NONE`] without a way.
    pub(super) fn key(&self, network: &Network, terminal: usize) -> Key {
        self.end_at(network, terminal).map_or(Key::NONE, |end| end.1)
    }

    /// Where the cheapest way to a state begins, and then its stretches.
    pub(super) fn way(&self, network: &Network, to: usize) -> (Point3, Vec<Stop>) {
        let mut state = to;
        let mut moves: Vec<Move> = Vec::new();
        while self.before[state].0 != NO_STATE {
            let (from, number) = self.before[state];
            moves.push(network.moves[(from as usize).div_euclid(STATES)][number as usize]);
            state = from as usize;
        }
        let start = network.nodes[state.div_euclid(STATES)].place;
        let mut stops = Vec::new();
        for made in moves.iter().rev() {
            let place = network.nodes[made.to as usize].place;
            let mut length = made.key.length().get();
            if let Some((corner, step, first)) = made.via {
                stops.push(Stop { place: corner.at_height(place.z), step, length: first });
                length -= first;
            }
            stops.push(Stop { place, step: made.step, length });
        }
        (start, stops)
    }

    /// The same to a terminal. None without a way.
    pub(super) fn way_to(&self, network: &Network, terminal: usize) -> Option<(Point3, Vec<Stop>)> {
        Some(self.way(network, self.end_at(network, terminal)?.0))
    }
}

impl Ways<'_> {
    /// What the cheapest way to a terminal costs; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, terminal: usize) -> Key {
        self.tree.key(self.network, terminal)
    }

    /// The places of the cheapest way to a terminal: where it begins, and then
    /// its stretches. None without a way.
    #[must_use]
    pub fn way(&self, terminal: usize) -> Option<(Point3, Vec<Stop>)> {
        self.tree.way_to(self.network, terminal)
    }
}

/// The phase after a gate, or None where the leg may not pass it: through the
/// columns of accessories only legs that end on that wall come and go.
const fn passes(gate: Gate, phase: usize) -> Option<usize> {
    match (gate, phase) {
        (Gate::Open, phase) => Some(phase),
        (Gate::Leave { .. }, 0) | (Gate::Leave { own: false } | Gate::Enter { own: false }, 1) => {
            Some(1)
        }
        (Gate::Enter { own: true }, 1) => Some(2),
        _ => None,
    }
}

fn index(value: usize) -> u32 {
    u32::try_from(value).unwrap_or(NO_STATE)
}
