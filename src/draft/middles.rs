//! The middles of walls, found by place.

use std::collections::BTreeMap;

use super::grid::Grid;
use crate::plan::{LevelId, Plan, WallId};
use crate::units::Point2;

/// The middles of all walls, by level and place.
#[derive(Debug, Default)]
pub(super) struct Middles(BTreeMap<LevelId, (Vec<(WallId, Point2)>, Grid)>);

impl Middles {
    pub(super) fn of(plan: &Plan) -> Self {
        let mut levels: BTreeMap<LevelId, Vec<(WallId, Point2)>> = BTreeMap::new();
        for (id, wall) in &plan.walls {
            let middle = wall.at(wall.length() / 2.0);
            levels.entry(wall.level).or_default().push((*id, middle));
        }
        let gridded = |(level, middles): (LevelId, Vec<(WallId, Point2)>)| {
            let places = middles.iter().map(|(_, at)| (at.x.to_f64(), at.y.to_f64()));
            let grid = Grid::of(places.map(|(x, y)| [x, y, x, y]));
            (level, (middles, grid))
        };
        Self(levels.into_iter().map(gridded).collect())
    }

    /// Those that may lie within some bounds.
    pub(super) fn around(
        &self,
        level: LevelId,
        bounds: [f64; 4],
    ) -> impl Iterator<Item = (WallId, Point2)> + '_ {
        let here = self.0.get(&level).into_iter();
        here.flat_map(move |(middles, grid)| {
            grid.around(bounds).into_iter().map(|index| middles[index])
        })
    }
}
