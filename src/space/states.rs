//! The plain network as a graph that any graph library can search.

use super::Key;
use super::network::Network;
use super::search::states_of;
use crate::units::Point3;

/// What a network is to a search: states (a place, the direction of arrival,
/// how far the leg has come) and the moves between them.
///
/// For checks from outside: the cheapest way between two terminals is the
/// cheapest from any state where the one begins to any where the other ends.
#[derive(Clone, Debug)]
pub struct States {
    /// The place of every state.
    pub places: Vec<Point3>,
    /// The moves: from, to, and their price with its bend.
    pub moves: Vec<(usize, usize, Key)>,
    /// For every terminal the states in which a leg begins there.
    pub starts: Vec<Vec<usize>>,
    /// For every terminal the states in which a leg ends there.
    pub ends: Vec<Vec<usize>>,
}

impl Network {
    /// The whole of the network, state by state.
    #[must_use]
    pub fn states(&self) -> States {
        let nodes = self.nodes.iter().enumerate();
        let places = nodes.flat_map(|(node, drawn)| states_of(node).map(|_| drawn.place)).collect();
        let mut moves = Vec::new();
        for node in 0..self.nodes.len() {
            for state in states_of(node) {
                let made = self.moves_of(state).iter().filter_map(|made| self.step(state, made));
                moves.extend(made.map(|(next, price)| (state, next, price)));
            }
        }
        let starts = self
            .terminals
            .iter()
            .map(|one| one.map(|node| self.start_states(node).collect()).unwrap_or_default());
        let ends = self
            .terminals
            .iter()
            .map(|one| one.map(|node| states_of(node as usize).collect()).unwrap_or_default());
        States { places, moves, starts: starts.collect(), ends: ends.collect() }
    }
}
