//! A trunk and its spurs.

use super::sub_path::SubPath;

/// A trunk and its spurs, within a sub-path.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Grove {
    pub(super) trunk: Vec<usize>,
    /// What each end feeds, by end.
    pub(super) feeds: Vec<Option<usize>>,
    /// Points that are no spurs and feed none.
    pub(super) bare: Vec<usize>,
}

impl Grove {
    pub(super) fn chain(order: &[usize], points: usize) -> Self {
        Self { trunk: order.to_vec(), feeds: vec![None; points + 1], bare: Vec::new() }
    }

    pub(super) fn weight(&self, sub_path: &SubPath) -> i64 {
        let spurs = self.trunk.iter().filter_map(|from| Some((*from, self.feeds[*from]?)));
        let hung: i64 = spurs.map(|(from, point)| sub_path.weight(from, point)).sum();
        sub_path.total(&self.trunk) + hung
    }
}
