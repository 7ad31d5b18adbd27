//! The legs of a circuit as one electrical network.

use std::collections::BTreeMap;

use super::feeder::{Feeder, Span};
use super::phasor::Phasor;
use crate::plan::End;
use crate::runs::Run;

/// How the legs of a circuit hang together, from its board on.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Network {
    /// What each node is; node 0 is the board.
    pub ends: Vec<End>,
    /// The legs as a tree, nearer ones first.
    pub branches: Vec<Branch>,
    /// The leg that closes a ring.
    pub closing: Option<Branch>,
    /// Legs that no other leg joins to the board, or that close a second ring.
    pub loose: Vec<usize>,
    nodes: BTreeMap<End, usize>,
}

/// A leg between two nodes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Branch {
    /// Its place in the list of the run.
    pub leg: usize,
    /// The node nearer to the board.
    pub from: usize,
    /// The other node.
    pub to: usize,
}

impl Network {
    /// Joins the legs of a run. None where it has none, or none that begins at
    /// a board.
    #[must_use]
    pub(super) fn of(run: &Run) -> Option<Self> {
        let is_board = |end: &End| matches!(end, End::Board(_));
        let board = run.legs.iter().flat_map(|leg| [leg.from, leg.to]).find(is_board)?;
        let mut network = Self { ends: vec![board], ..Self::default() };
        network.nodes.insert(board, 0);
        let mut left: Vec<usize> = (0..run.legs.len()).collect();
        loop {
            let before = left.len();
            left.retain(|leg| !network.join(*leg, run.legs[*leg].from, run.legs[*leg].to));
            if left.is_empty() || left.len() == before {
                break;
            }
        }
        network.loose.extend(left);
        Some(network)
    }

    /// Joins a leg if one of its ends is there already.
    fn join(&mut self, leg: usize, from: End, to: End) -> bool {
        let (near, far) = (self.node(from), self.node(to));
        match (near, far) {
            (None, None) => return false,
            (Some(from), None) => self.grow(leg, from, to),
            (None, Some(to)) => self.grow(leg, to, from),
            (Some(from), Some(to)) if self.closing.is_none() => {
                self.closing = Some(Branch { leg, from, to });
            }
            (Some(_), Some(_)) => self.loose.push(leg),
        }
        true
    }

    fn grow(&mut self, leg: usize, from: usize, end: End) {
        let to = self.ends.len();
        self.ends.push(end);
        self.nodes.insert(end, to);
        self.branches.push(Branch { leg, from, to });
    }

    /// The node of an end.
    #[must_use]
    pub(super) fn node(&self, end: End) -> Option<usize> {
        self.nodes.get(&end).copied()
    }

    /// The branch that leads to a node; None for the board.
    #[must_use]
    pub(super) fn branch_to(&self, node: usize) -> Option<&Branch> {
        self.branches.get(node.checked_sub(1)?)
    }

    /// The nodes from one back to the board, itself first.
    pub(super) fn way_back(&self, node: usize) -> impl Iterator<Item = usize> {
        std::iter::successors(Some(node), |node| self.branch_to(*node).map(|branch| branch.from))
    }

    /// The same network with an impedance for each leg.
    #[must_use]
    pub(super) fn feeder(&self, impedance: impl Fn(usize) -> Phasor) -> Feeder {
        let span = |branch: &Branch| Span {
            from: branch.from,
            to: branch.to,
            impedance: impedance(branch.leg),
        };
        Feeder {
            spans: self.branches.iter().map(span).collect(),
            closing: self.closing.as_ref().map(span),
        }
    }
}
