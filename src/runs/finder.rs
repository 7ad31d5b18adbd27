//! The best legs between the ends of one circuit.

use super::segments::route_of;
use super::table::Table;
use super::{Distance, Route};
use crate::plan::{Circuit, End, Plan};
use crate::space::{Group, Key, Modes, Network, Space, Star, Stop, Terminal, Ways};
use crate::units::Point3;

/// Finds legs between the placed ends of a circuit.
pub(super) struct Finder<'a> {
    space: &'a Space,
    ends: Vec<End>,
    by: By<'a>,
}

/// Which network serves.
enum By<'a> {
    /// The fast one, for all ends at once.
    Table(&'a Table, &'a super::network::Network<'a>),
    /// The fast one of a window: between the points, and from the board; the
    /// points have numbers from `first` on.
    Near { group: Group<'a>, star: &'a Star<'a>, first: usize },
    /// The plain one, which also knows pins and walls without voids.
    Plain { ways: Vec<Ways<'a>>, pins: &'a [PinnedLeg] },
}

/// A leg that must pass through some of the network's terminals.
struct PinnedLeg {
    from: End,
    to: End,
    through: Vec<usize>,
}

/// The plain network around the ends of a circuit and its pins.
pub(super) struct Ground {
    ends: Vec<End>,
    network: Network,
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
                let field = &space.voids[void];
                let at = field.settle(field.frame.frame_from_page(place.at));
                terminals.push(Terminal::InVoid { void, at });
            }
            pins.push(PinnedLeg { from: pin.from, to: pin.to, through });
        }
        let network = Network::around(space, modes, &terminals);
        Self { ends: ends.iter().map(|end| end.0).collect(), network, pins }
    }

    /// The cheapest ways from the first end, pins left aside.
    pub(super) fn ways_from_board(&self) -> Ways<'_> {
        self.network.ways_from(0)
    }
}

impl<'a> Finder<'a> {
    /// By the fast network.
    pub(super) fn fast(
        space: &'a Space,
        table: &'a Table,
        network: &'a super::network::Network<'a>,
    ) -> Self {
        Self { space, ends: table.ends.clone(), by: By::Table(table, network) }
    }

    /// In a window: the ways between the points, and those from the board, which
    /// is the first end.
    pub(super) const fn near(
        space: &'a Space,
        ends: Vec<End>,
        group: Group<'a>,
        star: &'a Star<'a>,
        first: usize,
    ) -> Self {
        Self { space, ends, by: By::Near { group, star, first } }
    }

    /// By the plain network: searches from every end, and every pin.
    pub(super) fn plain(space: &'a Space, ground: &'a Ground) -> Self {
        let pins: usize = ground.pins.iter().map(|pin| pin.through.len()).sum();
        let count = ground.ends.len() + pins;
        let ways = (0..count).map(|terminal| ground.network.ways_from(terminal)).collect();
        let by = By::Plain { ways, pins: &ground.pins };
        Self { space, ends: ground.ends.clone(), by }
    }

    fn index(&self, end: End) -> Option<usize> {
        self.ends.iter().position(|other| *other == end)
    }

    fn key(&self, from: End, to: End) -> Key {
        // Looked at from the end that comes first, so that both ways are equal.
        let (from, to) = if from <= to { (from, to) } else { (to, from) };
        let (Some(a), Some(b)) = (self.index(from), self.index(to)) else { return Key::NONE };
        match &self.by {
            By::Table(table, _) => table.keys[a][b],
            By::Near { .. } if a == b => Key::ZERO,
            By::Near { star, first, .. } if a == 0 => star.key(first + b - 1),
            By::Near { group, .. } => group.key(a - 1, b - 1),
            By::Plain { ways, pins } => {
                let stations = stations(pins, (from, a), (to, b));
                let parts = stations.windows(2).map(|pair| ways[pair[0]].key(pair[1]));
                let bends = turns_at_pins(ways, &stations);
                let bend = Key::new(self.space.tariff.bend * bends, 0);
                parts.fold(Key::ZERO, Key::then).then(bend)
            }
        }
    }

    /// Cost and length of the best leg. None: there is none.
    pub(super) fn distance(&self, from: End, to: End) -> Option<Distance> {
        let key = self.key(from, to);
        key.is_way().then(|| Distance { cost: key.cost(), length: key.length() })
    }

    /// The keys between all ends.
    pub(super) fn keys(&self) -> Vec<Vec<Key>> {
        let row = |from: &End| self.ends.iter().map(|to| self.key(*from, *to)).collect();
        self.ends.iter().map(row).collect()
    }

    /// The best leg itself.
    pub(super) fn route(&self, from: End, to: End) -> Option<Route> {
        let (a, b) = (self.index(from)?, self.index(to)?);
        if let By::Table(table, network) = &self.by {
            return table.route(self.space, network, a, b);
        }
        let key = self.key(from, to);
        let (start, stops) = self.way((from, a), (to, b))?;
        Some(route_of(self.space, key, start, &stops))
    }

    fn way(&self, from: (End, usize), to: (End, usize)) -> Option<(Point3, Vec<Stop>)> {
        match &self.by {
            By::Table(..) => None,
            By::Near { .. } if from.1 == to.1 => None,
            By::Near { star, first, .. } if from.1 == 0 => star.way(first + to.1 - 1, false),
            By::Near { star, first, .. } if to.1 == 0 => star.way(first + from.1 - 1, true),
            By::Near { group, .. } => group.way(from.1 - 1, to.1 - 1),
            By::Plain { ways, pins } => {
                let mut stops = Vec::new();
                let mut start = None;
                for pair in stations(pins, from, to).windows(2) {
                    let (place, part) = ways[pair[0]].way(pair[1])?;
                    start.get_or_insert(place);
                    stops.extend(part);
                }
                Some((start?, stops))
            }
        }
    }
}

/// How often a leg turns just where it passes a pin: its parts are found one
/// by one, and none of them knows.
fn turns_at_pins(ways: &[Ways<'_>], stations: &[usize]) -> i64 {
    let parts: Vec<Vec<Stop>> = stations
        .windows(2)
        .filter_map(|pair| ways[pair[0]].way(pair[1]).map(|way| way.1))
        .collect();
    let turns = parts.windows(2).filter(|pair| match (pair[0].last(), pair[1].first()) {
        (Some(before), Some(after)) => before.step != after.step,
        _ => false,
    });
    i64::try_from(turns.count()).unwrap_or(0)
}

/// The terminals that a leg passes, its ends included.
fn stations(pins: &[PinnedLeg], from: (End, usize), to: (End, usize)) -> Vec<usize> {
    let mut stations = vec![from.1];
    for pin in pins {
        if (pin.from, pin.to) == (from.0, to.0) {
            stations.extend(&pin.through);
        } else if (pin.from, pin.to) == (to.0, from.0) {
            stations.extend(pin.through.iter().rev());
        }
    }
    stations.push(to.1);
    stations
}
