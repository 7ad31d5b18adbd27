//! What the best legs between ends take, before any circuit joins them.

use indexmap::IndexMap;

use super::Distance;
use crate::plan::{End, Plan, Way};
use crate::space::{FastNetwork, Key, Modes, Network, Space, Terminal};

/// The placed ends of a plan in its space, for circuits that may use the same
/// ways.
#[derive(Debug)]
pub struct Distances<'a> {
    space: &'a Space,
    modes: Modes,
    ends: IndexMap<End, Terminal>,
    fast: FastNetwork<'a>,
}

impl<'a> Distances<'a> {
    /// Looks at all ends of a plan once.
    #[must_use]
    pub fn of(plan: &Plan, space: &'a Space, ways: Option<&[Way]>) -> Self {
        let boards = plan.boards.keys().copied().map(End::Board);
        let points = plan.points.keys().copied().map(End::Point);
        let ends: IndexMap<End, Terminal> = boards
            .chain(points)
            .filter_map(|end| Some((end, space.terminal(plan, &plan.place_of(end)?)?)))
            .collect();
        let modes = Modes::of(ways);
        let terminals: Vec<Terminal> = ends.values().cloned().collect();
        let fast = FastNetwork::of(space, modes, &terminals);
        Self { space, modes, ends, fast }
    }

    /// Cost and length of the best leg between any two of some ends, each
    /// taken by itself. None: no leg can be made, or an end is not placed.
    #[must_use]
    pub fn between(&self, ends: &[End]) -> Vec<Vec<Option<Distance>>> {
        let indices: Vec<Option<usize>> =
            ends.iter().map(|end| self.ends.get_index_of(end)).collect();
        let placed: Vec<usize> = indices.iter().flatten().copied().collect();
        let keys = self.keys(&placed);
        let mut place = indices.iter().scan(0, |next, index| {
            let own = index.map(|_| *next);
            *next += usize::from(index.is_some());
            Some(own)
        });
        let places: Vec<Option<usize>> = place.by_ref().collect();
        let cell = |a: Option<usize>, b: Option<usize>| {
            let key = keys[a?][b?];
            key.is_way().then(|| Distance { cost: key.cost(), length: key.length() })
        };
        places.iter().map(|a| places.iter().map(|b| cell(*a, *b)).collect()).collect()
    }

    /// Cost and length of the best leg from one end to each of some others, as
    /// [`Self::between`] has them. None: where only all of them together can be
    /// asked for, since one is on a wall that no void reaches.
    #[must_use]
    pub fn from(&self, source: End, ends: &[End]) -> Option<Vec<Option<Distance>>> {
        let index = |end: &End| self.ends.get_index_of(end);
        let targets: Vec<usize> = ends.iter().filter_map(index).collect();
        let source = index(&source)?;
        if !self.fast.serves(&targets) || !self.fast.serves(&[source]) {
            return None;
        }
        let star = self.fast.star(source, &targets);
        let distance = |end: &End| {
            let key = star.key(index(end)?);
            key.is_way().then(|| Distance { cost: key.cost(), length: key.length() })
        };
        Some(ends.iter().map(distance).collect())
    }

    fn keys(&self, placed: &[usize]) -> Vec<Vec<Key>> {
        let count = placed.len();
        if self.fast.serves(placed) {
            let group = self.fast.group(placed);
            return (0..count).map(|a| (0..count).map(|b| group.key(a, b)).collect()).collect();
        }
        let terminals: Vec<Terminal> = placed.iter().map(|end| self.ends[*end].clone()).collect();
        let network = Network::around(self.space, self.modes, &terminals);
        let rows = (0..count).map(|from| {
            let ways = network.ways_from(from);
            (0..count).map(|to| if to == from { Key::ZERO } else { ways.key(to) }).collect()
        });
        let mut keys: Vec<Vec<Key>> = rows.collect();
        // One search each way: the one from the lower end counts.
        for (from, to) in (0..count).flat_map(|from| (from + 1..count).map(move |to| (from, to))) {
            keys[to][from] = keys[from][to];
        }
        keys
    }
}
