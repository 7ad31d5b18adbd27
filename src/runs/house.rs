//! All ends of a plan in their space, and the fast networks around them.

use std::collections::BTreeMap;

use indexmap::IndexMap;

use crate::plan::{CircuitId, End, Plan, PointId};
use crate::space::{Group, Modes, Space, Swift, Terminal};

/// All placed ends of a plan, with a fast network for every set of ways that
/// has been asked for.
pub(super) struct House<'a> {
    space: &'a Space,
    ends: IndexMap<End, Terminal>,
    /// The points of every circuit, in the order of the plan.
    circuits: BTreeMap<CircuitId, Vec<PointId>>,
    networks: Vec<(Modes, Swift<'a>)>,
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
        Self { space, ends, circuits, networks: Vec::new() }
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

    /// The ways between some ends. None where the plain network must serve.
    pub(super) fn group(&mut self, modes: Modes, ends: &[End]) -> Option<Group<'_>> {
        let known = self.networks.iter().position(|network| network.0 == modes);
        let index = known.unwrap_or_else(|| {
            let terminals: Vec<Terminal> = self.ends.values().cloned().collect();
            self.networks.push((modes, Swift::of(self.space, modes, &terminals)));
            self.networks.len() - 1
        });
        let members: Option<Vec<usize>> =
            ends.iter().map(|end| self.ends.get_index_of(end)).collect();
        let members = members?;
        let swift = &self.networks[index].1;
        swift.serves(&members).then(|| swift.group(&members))
    }
}
