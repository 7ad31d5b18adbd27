//! The walls of each level, found by place.

use std::collections::BTreeMap;

use super::grid::{Grid, bounds_of};
use crate::plan::{LevelId, Plan, Wall, WallId};
use crate::units::Point2;

/// The walls of every level, with where they are.
pub(super) struct Walls<'a> {
    levels: BTreeMap<LevelId, (Vec<Named<'a>>, Grid)>,
}

/// A wall with its name.
type Named<'a> = (WallId, &'a Wall);

impl<'a> Walls<'a> {
    pub(super) fn of(plan: &'a Plan) -> Self {
        let mut walls: BTreeMap<LevelId, Vec<(WallId, &Wall)>> = BTreeMap::new();
        for (id, wall) in &plan.walls {
            walls.entry(wall.level).or_default().push((*id, wall));
        }
        let gridded = |(level, walls): (LevelId, Vec<(WallId, &'a Wall)>)| {
            let grid = Grid::of(walls.iter().map(|(_, wall)| {
                let end = |end: Point2| (end.x.to_f64(), end.y.to_f64());
                bounds_of(end(wall.a), end(wall.b), wall.thickness.to_f64() / 2.0)
            }));
            (level, (walls, grid))
        };
        Self { levels: walls.into_iter().map(gridded).collect() }
    }

    /// The walls of a level that may lie within some bounds, in the order of
    /// the plan.
    pub(super) fn around(&self, level: LevelId, bounds: [f64; 4]) -> Vec<(WallId, &'a Wall)> {
        self.levels.get(&level).map_or_else(Vec::new, |(walls, grid)| {
            grid.around(bounds).into_iter().map(|index| walls[index]).collect()
        })
    }
}
