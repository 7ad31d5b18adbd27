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
        let states = self.nodes.len() * STATES;
        let mut ways = Ways {
            network: self,
            best: vec![Key::NONE; states],
            before: vec![(NO_STATE, 0); states],
        };
        if let Some(start) = self.terminals.get(terminal).copied().flatten() {
            ways.flood(start);
        }
        ways
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

impl Ways<'_> {
    fn flood(&mut self, start: u32) {
        let mut queue = BinaryHeap::new();
        for state in self.network.start_states(start) {
            self.best[state] = Key::ZERO;
            queue.push(Reverse((Key::ZERO, state)));
        }
        while let Some(Reverse((key, state))) = queue.pop() {
            if key > self.best[state] {
                continue;
            }
            for (number, made) in self.network.moves_of(state).iter().enumerate() {
                let Some((next, price)) = self.network.step(state, made) else { continue };
                let cost = key.then(price);
                if cost < self.best[next] {
                    self.best[next] = cost;
                    self.before[next] = (index(state), index(number));
                    queue.push(Reverse((cost, next)));
                }
            }
        }
    }

    fn end_state(&self, terminal: usize) -> Option<usize> {
        let node = self.network.terminals.get(terminal).copied().flatten()? as usize;
        states_of(node)
            .min_by_key(|state| (self.best[*state], *state))
            .filter(|state| self.best[*state].is_way())
    }

    /// What the cheapest way to a terminal costs; [`Key::NONE`] without a way.
    #[must_use]
    pub fn key(&self, terminal: usize) -> Key {
        self.end_state(terminal).map_or(Key::NONE, |state| self.best[state])
    }

    /// The places of the cheapest way to a terminal: where it begins, and then
    /// its stretches. None without a way.
    #[must_use]
    pub fn way(&self, terminal: usize) -> Option<(Point3, Vec<Stop>)> {
        let mut state = self.end_state(terminal)?;
        let mut moves: Vec<Move> = Vec::new();
        while self.before[state].0 != NO_STATE {
            let (from, number) = self.before[state];
            moves.push(self.network.moves[(from as usize).div_euclid(STATES)][number as usize]);
            state = from as usize;
        }
        let start = self.network.nodes[state.div_euclid(STATES)].place;
        let mut stops = Vec::new();
        for made in moves.iter().rev() {
            let place = self.network.nodes[made.to as usize].place;
            let mut length = made.key.length().get();
            if let Some((corner, step, first)) = made.via {
                stops.push(Stop { place: corner.at_height(place.z), step, length: first });
                length -= first;
            }
            stops.push(Stop { place, step: made.step, length });
        }
        Some((start, stops))
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
