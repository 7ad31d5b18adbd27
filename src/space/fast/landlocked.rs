//! Ends on walls that reach no void, and the walls joined to theirs.
//!
//! What lies within walls is searched on the plain network of these walls
//! alone; from where it comes out, voids are crossed like anywhere else.

use std::collections::BTreeSet;

use super::super::network::Network;
use super::super::portal::Portal;
use super::super::search::Tree;
use super::super::{Key, Modes, Space, Stop, Terminal};

/// The walls around the ends of a circuit, searched from each of them.
#[derive(Debug)]
pub(super) struct Landlocked {
    network: Network,
    doors: Vec<(Portal, u32)>,
    /// For each end what was found from it, if it is on a wall.
    trees: Vec<Option<Tree>>,
}

/// A way from an end to where it leaves the walls, arriving upright.
#[derive(Clone, Copy, Debug)]
pub(super) struct Out<'a> {
    pub(super) portal: &'a Portal,
    /// Without the plate.
    pub(super) key: Key,
    /// In which state it leaves.
    pub(super) state: usize,
}

impl Landlocked {
    /// Around the ends of a circuit, all in one wall or another.
    pub(super) fn of(space: &Space, modes: Modes, ends: &[Terminal]) -> Self {
        let walls: BTreeSet<usize> = space.index().joined_walls(modes, ends);
        let (network, doors) = Network::of_walls(space, modes, &walls, ends);
        let trees = ends
            .iter()
            .enumerate()
            .map(|(index, end)| end.wall().map(|_| Tree::from(&network, index)));
        let trees = trees.collect();
        Self { network, doors, trees }
    }

    /// All ways out from an end.
    pub(super) fn ways_out(&self, end: usize) -> impl Iterator<Item = Out<'_>> {
        let tree = self.trees[end].as_ref();
        self.doors.iter().filter_map(move |(portal, node)| {
            let (state, key) = tree?.end_state(&self.network, *node, true)?;
            Some(Out { portal, key, state })
        })
    }

    /// What the cheapest way within walls costs.
    pub(super) fn key(&self, from: usize, to: usize) -> Key {
        self.trees[from].as_ref().map_or(Key::NONE, |tree| tree.key(&self.network, to))
    }

    /// The stops of that way, the start first.
    pub(super) fn way(&self, from: usize, to: usize) -> Option<Vec<Stop>> {
        let (start, stops) = self.trees[from].as_ref()?.way_to(&self.network, to)?;
        Some(with_start(start, stops))
    }

    /// The stops of a way out, the start first.
    pub(super) fn way_out(&self, from: usize, state: usize) -> Vec<Stop> {
        let Some(tree) = &self.trees[from] else { return Vec::new() };
        let (start, stops) = tree.way(&self.network, state);
        with_start(start, stops)
    }
}

fn with_start(place: crate::units::Point3, mut stops: Vec<Stop>) -> Vec<Stop> {
    // The step of the start is that of no stretch.
    let step = stops.first().map_or(super::Step::Passage, |stop| stop.step);
    stops.insert(0, Stop { place, step, length: 0 });
    stops
}
