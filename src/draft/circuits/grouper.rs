//! A dwelling with the distances between its points.

use std::collections::{BTreeMap, BTreeSet};

use super::super::Wayfare;
use super::purpose::Purpose;
use crate::plan::{BoardId, End, LevelId, Plan, PointId, Regime, RoomId, Way};
use crate::rules::{RuleBook, Tables};
use crate::runs::{Distance, Distances};
use crate::space::Space;

pub(super) struct Grouper<'a> {
    pub(super) plan: &'a Plan,
    pub(super) rules: &'a RuleBook,
    pub(super) regime: Regime,
    pub(super) board: BoardId,
    pub(super) way: Wayfare,
    /// The board, then every point without a circuit.
    pub(super) ends: Vec<End>,
    /// Whichever way.
    open: Open<'a>,
    pub(super) asked: BTreeMap<bool, Option<(Vec<Way>, Distances<'a>)>>,
    pub(super) space: &'a Space,
}

/// The distances between all ends, whichever way.
enum Open<'a> {
    /// From the board, and what is to be asked for the others: few of them ever
    /// share a circuit.
    Asked(Vec<Option<Distance>>, Box<Distances<'a>>),
    /// Between all of them.
    All(Vec<Vec<Option<Distance>>>),
}

impl<'a> Grouper<'a> {
    pub(super) fn new(
        plan: &'a Plan,
        rules: &'a RuleBook,
        space: &'a Space,
        way: Wayfare,
        board: BoardId,
        points: &BTreeSet<PointId>,
    ) -> Self {
        let points = points.iter().copied().map(End::Point);
        let ends: Vec<End> = std::iter::once(End::Board(board)).chain(points).collect();
        let distances = Distances::of(plan, space, None);
        let open = match distances.from(ends[0], &ends) {
            Some(row) => Open::Asked(row, Box::new(distances)),
            None => Open::All(distances.between(&ends)),
        };
        let regime = plan.project.regime;
        Self { plan, rules, regime, board, way, ends, open, asked: BTreeMap::new(), space }
    }

    /// The rule tables of its regime.
    pub(super) fn tables(&self) -> &'a Tables {
        self.rules.of(self.regime)
    }

    /// Where a point stands among the ends; points follow the board in order.
    pub(super) fn index(&self, end: End) -> usize {
        self.ends.binary_search(&end).unwrap_or(0)
    }

    pub(super) fn is_reached(&self, id: PointId) -> bool {
        let row = match &self.open {
            Open::Asked(row, _) => row,
            Open::All(rows) => &rows[0],
        };
        row[self.index(End::Point(id))].is_some()
    }

    /// Points that no cable reaches from the board.
    pub(super) fn lost(&self) -> Vec<PointId> {
        let point = |end: &End| match end {
            End::Point(id) => Some(*id),
            End::Board(_) => None,
        };
        self.ends.iter().filter_map(point).filter(|id| !self.is_reached(*id)).collect()
    }

    pub(super) fn room_of(&self, id: PointId) -> Option<RoomId> {
        self.plan.room_of(self.plan.points[&id].place.as_ref()?)
    }

    pub(super) fn level_of(&self, id: PointId) -> Option<LevelId> {
        self.plan.level_of(self.plan.points[&id].place.as_ref()?)
    }

    /// The distances by which a purpose is grouped, and its ways.
    pub(super) fn ways(
        &mut self,
        purpose: Purpose,
        ends: &[End],
    ) -> (Option<Vec<Way>>, Vec<Vec<Option<Distance>>>) {
        let lights = matches!(purpose, Purpose::Lighting | Purpose::Alarms);
        let list = match self.way {
            Wayfare::Mixed => None,
            Wayfare::Underfloor if !lights => Some(vec![Way::Underfloor, Way::InWall]),
            Wayfare::Overhead | Wayfare::Underfloor => Some(vec![Way::Overhead, Way::InWall]),
        };
        if let Some(list) = list {
            let (plan, space) = (self.plan, self.space);
            let asked = self.asked.entry(lights).or_insert_with(|| {
                let distances = Distances::of(plan, space, Some(&list));
                Some((list.clone(), distances))
            });
            if let Some((list, distances)) = asked {
                let rows = distances.between(ends);
                if rows[0][1..].iter().all(Option::is_some) {
                    return (Some(list.clone()), rows);
                }
            }
        }
        (None, self.whichever_way(ends))
    }

    /// Between the board and some points, whichever way.
    fn whichever_way(&self, ends: &[End]) -> Vec<Vec<Option<Distance>>> {
        let indices: Vec<usize> = ends.iter().map(|end| self.index(*end)).collect();
        match &self.open {
            Open::Asked(row, distances) => {
                let from_board: Vec<_> = indices.iter().map(|end| row[*end]).collect();
                let points = distances.between(&ends[1..]);
                let rows = points.into_iter().zip(&from_board[1..]);
                let rows = rows.map(|(row, first)| std::iter::once(*first).chain(row).collect());
                std::iter::once(from_board.clone()).chain(rows).collect()
            }
            Open::All(all) => {
                let row = |a: &usize| indices.iter().map(|b| all[*a][*b]).collect();
                indices.iter().map(row).collect()
            }
        }
    }
}
