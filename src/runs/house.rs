//! All ends of a plan in their space, and the fast networks around those that
//! are to be routed.

use std::collections::BTreeMap;

use indexmap::{IndexMap, IndexSet};

use super::memory::Before;
use super::network::Network;
use super::table::Table;
use crate::plan::{Circuit, CircuitId, End, Plan, PointId};
use crate::space::{Ask, FastNetwork, Floods, Modes, Planes, Space, Terminal};

/// All placed ends of a plan, with a fast network for every set of ways that
/// its circuits ask for.
pub(super) struct House<'a> {
    space: &'a Space,
    ends: IndexMap<End, Terminal>,
    /// The points of every circuit, in the order of the plan.
    circuits: BTreeMap<CircuitId, Vec<PointId>>,
    pub(super) networks: Vec<Network<'a>>,
    tables: BTreeMap<CircuitId, Table>,
}

/// A circuit that is to be routed, and what is known of it from before.
pub(super) struct Wanted {
    pub(super) id: CircuitId,
    pub(super) before: Option<Before>,
}

impl<'a> House<'a> {
    /// Looks at a plan once for all its circuits.
    pub(super) fn of(plan: &Plan, space: &'a Space) -> Self {
        let boards = plan.boards.keys().copied().map(End::Board);
        let points = plan.points.keys().copied().map(End::Point);
        let ends: IndexMap<End, Terminal> = boards
            .chain(points)
            .filter_map(|end| {
                let place = plan.place_of(end)?;
                Some((end, space.terminal(plan, &place)?))
            })
            .collect();
        let mut circuits: BTreeMap<CircuitId, Vec<PointId>> = BTreeMap::new();
        for (id, point) in &plan.points {
            if let Some(circuit) = point.circuit {
                circuits.entry(circuit).or_default().push(*id);
            }
        }
        Self { space, ends, circuits, networks: Vec::new(), tables: BTreeMap::new() }
    }

    /// Where cables can go.
    pub(super) const fn space(&self) -> &'a Space {
        self.space
    }

    /// Where an end is, if it is where a cable can be.
    pub(super) fn terminal(&self, end: End) -> Option<&Terminal> {
        self.ends.get(&end)
    }

    /// The points of a circuit, in the order of the plan.
    pub(super) fn points_on(&self, circuit: CircuitId) -> &[PointId] {
        self.circuits.get(&circuit).map_or(&[], Vec::as_slice)
    }

    /// Lays the fast networks for some circuits. Those with pins the plain network
    /// must serve.
    pub(super) fn prepare(&mut self, plan: &Plan, planes: &Planes, wanted: Vec<Wanted>) {
        let mut by_modes: BTreeMap<Modes, Vec<(Vec<End>, Wanted)>> = BTreeMap::new();
        for one in wanted {
            let circuit = &plan.circuits[&one.id];
            let ends = self.ends_of(one.id, circuit);
            if circuit.pins.is_empty() && ends.len() > 1 {
                let modes = Modes::of(circuit.ways.as_deref());
                by_modes.entry(modes).or_default().push((ends, one));
            }
        }
        for (modes, wanted) in by_modes {
            self.lay(planes, modes, wanted);
        }
    }

    /// The board of a circuit and its points, if the board is placed.
    fn ends_of(&self, id: CircuitId, circuit: &Circuit) -> Vec<End> {
        let Some(board) = circuit.board.map(End::Board) else { return Vec::new() };
        if self.terminal(board).is_none() {
            return Vec::new();
        }
        let points = self.points_on(id).iter().map(|point| End::Point(*point));
        let placed = points.filter(|end| self.terminal(*end).is_some());
        std::iter::once(board).chain(placed).collect()
    }

    fn lay(&mut self, planes: &Planes, modes: Modes, wanted: Vec<(Vec<End>, Wanted)>) {
        let all: IndexSet<End> = wanted.iter().flat_map(|(ends, _)| ends.iter().copied()).collect();
        let terminals: Vec<Terminal> =
            all.iter().filter_map(|end| self.ends.get(end).cloned()).collect();
        let fast = FastNetwork::on(self.space, planes, modes, &terminals);
        let number = self.networks.len();
        let mut tables: Vec<(CircuitId, Table)> = Vec::new();
        let mut alone = Vec::new();
        for (ends, one) in wanted {
            let members: Vec<usize> = ends.iter().filter_map(|end| all.get_index_of(end)).collect();
            if fast.serves(&members) {
                tables.push((one.id, Table::new(number, ends, members, one.before)));
            } else {
                alone.push((one.id, ends));
            }
        }
        // One row for each board serves all its circuits; it goes across the
        // whole house, so the rows of points are not flooded with it.
        let mut floods = Floods::default();
        let mut asked: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (_, table) in tables.iter().filter(|(_, table)| table.asks_at(0)) {
            asked.entry(table.member(0)).or_default().extend(table.targets(0));
        }
        let mut boards = BTreeMap::new();
        for (source, mut targets) in asked {
            targets.sort_unstable();
            targets.dedup();
            boards.insert(source, floods.ask(Ask { source, targets }));
        }
        floods.part();
        for (_, table) in &mut tables {
            table.ask(&boards, &mut floods);
            // Floods are as narrow as that: those of another circuit would only widen
            // their window.
            floods.part();
        }
        let boards = boards.values().next_back().copied();
        self.networks.push(Network { fast, floods, boards });
        self.tables.extend(tables);
        if !self.space.sideways_through {
            for (id, ends) in alone {
                self.lay_alone(planes, modes, id, ends);
            }
        }
    }

    /// A network for one circuit, of whose ends some reach no void.
    fn lay_alone(&mut self, planes: &Planes, modes: Modes, id: CircuitId, ends: Vec<End>) {
        let terminals: Vec<Terminal> =
            ends.iter().filter_map(|end| self.ends.get(end).cloned()).collect();
        let stuck = self.space.is_stuck(modes, &terminals);
        let fast = FastNetwork::joined(self.space, planes, modes, &terminals, stuck);
        let members = (0..ends.len()).collect();
        let mut table = Table::new(self.networks.len(), ends, members, None);
        let mut floods = Floods::default();
        let row = floods.ask(Ask { source: 0, targets: table.targets(0) });
        floods.part();
        table.ask(&BTreeMap::from([(0, row)]), &mut floods);
        self.networks.push(Network { fast, floods, boards: None });
        self.tables.insert(id, table);
    }

    /// What is known of the ways of a circuit. None where the plain network
    /// must serve. Circuits are asked for in their order.
    pub(super) fn table(&mut self, id: CircuitId) -> Option<(Table, &Network<'a>)> {
        let mut table = self.tables.remove(&id)?;
        let network = &mut self.networks[table.network];
        if let (Some(boards), Some(first)) = (network.boards, table.first_row()) {
            network.floods.forget_between(boards, first);
        }
        table.fill(network);
        Some((table, network))
    }
}
