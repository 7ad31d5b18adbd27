//! All ends of a plan in their space, and the fast networks around them.

use indexmap::IndexMap;

use crate::plan::{End, Plan};
use crate::space::{Group, Modes, Space, Swift, Terminal};

/// All placed ends of a plan, with a fast network for every set of ways that
/// some circuit may use.
pub(super) struct House<'a> {
    ends: IndexMap<End, Terminal>,
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
        let mut modes: Vec<Modes> =
            plan.circuits.values().map(|circuit| Modes::of(circuit.ways.as_deref())).collect();
        modes.sort_unstable();
        modes.dedup();
        let terminals: Vec<Terminal> = ends.values().cloned().collect();
        let networks =
            modes.into_iter().map(|modes| (modes, Swift::of(space, modes, &terminals))).collect();
        Self { ends, networks }
    }

    /// Where an end is, if it is where a cable can be.
    pub(super) fn terminal(&self, end: End) -> Option<&Terminal> {
        self.ends.get(&end)
    }

    /// The ways between some ends. None where the plain network must serve.
    pub(super) fn group(&self, modes: Modes, ends: &[End]) -> Option<Group<'_>> {
        let swift = self.networks.iter().find(|network| network.0 == modes)?;
        let members: Option<Vec<usize>> =
            ends.iter().map(|end| self.ends.get_index_of(end)).collect();
        let members = members?;
        swift.1.serves(&members).then(|| swift.1.group(&members))
    }
}
