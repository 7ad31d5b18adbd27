//! What legs between the ends of one circuit take: looked up where nothing has
//! changed since the last time, asked of the fast network elsewhere.

use std::collections::BTreeMap;

use super::memory::Before;
use super::network::Network;
use super::segments::route_of;
use super::{Route, Run};
use crate::plan::End;
use crate::space::{Ask, Floods, Key, Row, Space};

/// The ends of a circuit and the cheapest ways between them.
pub(super) struct Table {
    /// The number of the network that serves it.
    pub(super) network: usize,
    pub(super) ends: Vec<End>,
    /// The ends by their numbers in the network.
    members: Vec<usize>,
    pub(super) keys: Vec<Vec<Key>>,
    rows: Vec<Option<Row>>,
    before: Option<Before>,
}

impl Table {
    pub(super) fn new(
        network: usize,
        ends: Vec<End>,
        members: Vec<usize>,
        before: Option<Before>,
    ) -> Self {
        let count = ends.len();
        let before = before.filter(|before| before.kept.ends == ends);
        let keys = vec![vec![Key::ZERO; count]; count];
        Self { network, ends, members, keys, rows: vec![None; count], before }
    }

    /// The number of an end in the network.
    pub(super) fn member(&self, index: usize) -> usize {
        self.members[index]
    }

    /// Whether the ways from an end may have changed.
    fn is_new(&self, index: usize) -> bool {
        self.before.as_ref().is_none_or(|before| before.changed[index])
    }

    fn all_are_new(&self) -> bool {
        (0..self.ends.len()).all(|index| self.is_new(index))
    }

    /// Whether a row is needed for an end: for every new one, but not for the
    /// last where all are, since ways are the same both ways.
    pub(super) fn asks_at(&self, index: usize) -> bool {
        self.is_new(index) && !(self.all_are_new() && index + 1 == self.ends.len())
    }

    /// To where ways are wanted from an end that has a row.
    pub(super) fn targets(&self, index: usize) -> Vec<usize> {
        let others = (0..self.ends.len()).filter(|other| *other != index);
        let wanted = others.filter(|other| *other > index || !self.is_new(*other));
        wanted.map(|other| self.members[other]).collect()
    }

    /// Asks for the rows of its points; those of boards are asked for already.
    pub(super) fn ask(&mut self, boards: &BTreeMap<usize, Row>, floods: &mut Floods) {
        for index in 0..self.ends.len() {
            if self.asks_at(index) {
                let source = self.members[index];
                self.rows[index] = if index == 0 {
                    boards.get(&source).copied()
                } else {
                    Some(floods.ask(Ask { source, targets: self.targets(index) }))
                };
            }
        }
    }

    /// The first row that belongs to it alone.
    pub(super) fn first_row(&self) -> Option<Row> {
        self.rows.iter().skip(1).flatten().next().copied()
    }

    /// Reads all keys.
    pub(super) fn fill(&mut self, network: &Network<'_>) {
        let key = |row: Row, to: usize| network.floods.key(&network.fast, row, self.members[to]);
        let mut keys = std::mem::take(&mut self.keys);
        let count = self.ends.len();
        let pairs = (0..count).flat_map(|from| (from + 1..count).map(move |to| (from, to)));
        for (from, to) in pairs {
            let known = match (self.rows[from], self.rows[to], &self.before) {
                (Some(row), _, _) => key(row, to),
                (None, Some(row), _) => key(row, from),
                (None, None, Some(before)) => before.kept.keys[from][to],
                (None, None, None) => Key::NONE,
            };
            keys[from][to] = known;
            keys[to][from] = known;
        }
        self.keys = keys;
    }

    /// The best leg between two ends.
    pub(super) fn route(
        &self,
        space: &Space,
        network: &Network<'_>,
        from: usize,
        to: usize,
    ) -> Option<Route> {
        if let Some(route) = self.route_before(from, to) {
            return Some(route.clone());
        }
        if from == to {
            return None;
        }
        // Looked for from the end that comes first, so that both ways are equal.
        let (source, target) = (from.min(to), self.members[from.max(to)]);
        let back = source != from;
        let (start, stops) = match self.rows[source] {
            Some(row) => network.floods.way(&network.fast, row, target, back)?,
            None => {
                let ask = Ask { source: self.members[source], targets: vec![target] };
                network.fast.rows(vec![ask]).way(0, target, back)?
            }
        };
        Some(route_of(space, self.keys[from][to], start, &stops))
    }

    /// Whether nothing about the ways between two ends has changed.
    pub(super) fn is_known(&self, from: End, to: End) -> bool {
        let old = |end: End| {
            let index = self.ends.iter().position(|other| *other == end);
            index.is_some_and(|index| !self.is_new(index))
        };
        old(from) && old(to)
    }

    fn route_before(&self, from: usize, to: usize) -> Option<&Route> {
        if self.is_new(from) || self.is_new(to) {
            return None;
        }
        let (from, to) = (self.ends[from], self.ends[to]);
        let legs = &self.before.as_ref()?.kept.run.legs;
        legs.iter().find(|leg| (leg.from, leg.to) == (from, to)).map(|leg| &leg.route)
    }

    /// The run from before where every leg still costs the same, so that it has
    /// the same legs in the same order.
    pub(super) fn run_before(&self) -> Option<&Run> {
        let kept = &self.before.as_ref()?.kept;
        (kept.keys == self.keys).then_some(&kept.run)
    }
}
