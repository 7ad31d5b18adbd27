//! The best legs between the ends of one circuit.

use super::segments::route_of;
use super::{Distance, Route};
use crate::plan::{Circuit, End, Plan};
use crate::space::{Key, Modes, Network, Space, Terminal, Ways};

/// Finds legs between the placed ends of a circuit.
pub(super) struct Finder<'a> {
    space: &'a Space,
    ends: Vec<End>,
    ways: Vec<Ways<'a>>,
    pins: Vec<PinnedLeg>,
}

/// A leg that must pass through some of the network's terminals.
struct PinnedLeg {
    from: End,
    to: End,
    through: Vec<usize>,
}

/// The ends of a circuit in its space, the board first, and then the places of
/// its pins.
pub(super) struct Ground {
    pub(super) ends: Vec<End>,
    pub(super) network: Network,
    pins: Vec<PinnedLeg>,
}

impl Ground {
    /// The network around those ends that are placed where a cable can be.
    pub(super) fn of(
        plan: &Plan,
        space: &Space,
        circuit: &Circuit,
        modes: Modes,
        ends: &[(End, Terminal)],
    ) -> Self {
        let mut terminals: Vec<Terminal> = ends.iter().map(|end| end.1.clone()).collect();
        let mut pins = Vec::new();
        for pin in &circuit.pins {
            let mut through = Vec::new();
            for place in &pin.through {
                let Some(void) = plan.voids.get_index_of(&place.void) else { continue };
                through.push(terminals.len());
                let at = space.voids[void].frame.frame_from_page(place.at);
                terminals.push(Terminal::InVoid { void, at });
            }
            pins.push(PinnedLeg { from: pin.from, to: pin.to, through });
        }
        let network = Network::around(space, modes, &terminals);
        Self { ends: ends.iter().map(|end| end.0).collect(), network, pins }
    }
}

impl<'a> Finder<'a> {
    /// Searches from every end, and every pin.
    pub(super) fn new(space: &'a Space, ground: &'a Ground) -> Self {
        let pins: usize = ground.pins.iter().map(|pin| pin.through.len()).sum();
        let count = ground.ends.len() + pins;
        Self {
            space,
            ends: ground.ends.clone(),
            ways: (0..count).map(|terminal| ground.network.ways_from(terminal)).collect(),
            pins: ground
                .pins
                .iter()
                .map(|pin| PinnedLeg { through: pin.through.clone(), ..*pin })
                .collect(),
        }
    }

    fn index(&self, end: End) -> Option<usize> {
        self.ends.iter().position(|other| *other == end)
    }

    /// The terminals that a leg passes, its ends included.
    fn stations(&self, from: End, to: End) -> Option<Vec<usize>> {
        let mut stations = vec![self.index(from)?];
        for pin in &self.pins {
            if (pin.from, pin.to) == (from, to) {
                stations.extend(&pin.through);
            } else if (pin.from, pin.to) == (to, from) {
                stations.extend(pin.through.iter().rev());
            }
        }
        stations.push(self.index(to)?);
        Some(stations)
    }

    fn key(&self, from: End, to: End) -> Key {
        // Looked at from the end that comes first, so that both ways are equal.
        let (from, to) = if from <= to { (from, to) } else { (to, from) };
        self.stations(from, to).map_or(Key::NONE, |stations| {
            let parts = stations.windows(2).map(|pair| self.ways[pair[0]].key(pair[1]));
            parts.fold(Key::ZERO, Key::then)
        })
    }

    /// Cost and length of the best leg. None: there is none.
    pub(super) fn distance(&self, from: End, to: End) -> Option<Distance> {
        let key = self.key(from, to);
        key.is_way().then(|| Distance { cost: key.cost(), length: key.length() })
    }

    /// The best leg itself.
    pub(super) fn route(&self, from: End, to: End) -> Option<Route> {
        let key = self.key(from, to);
        let mut stops = Vec::new();
        let mut start = None;
        for pair in self.stations(from, to)?.windows(2) {
            let (place, part) = self.ways[pair[0]].way(pair[1])?;
            start.get_or_insert(place);
            stops.extend(part);
        }
        Some(route_of(self.space, key, start?, &stops))
    }
}
