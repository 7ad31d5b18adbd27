//! Which room lies at a place.

use std::collections::BTreeMap;

use super::grid::Grid;
use super::outline::bounds;
use crate::plan::{LevelId, Plan, Room, RoomId, outline_holds};
use crate::units::Point2;

/// Finds the room at a place.
pub(super) struct RoomFinder {
    levels: BTreeMap<LevelId, (Vec<Outlined>, Grid)>,
}

/// A room with its outline.
type Outlined = (RoomId, Vec<Point2>);

impl RoomFinder {
    pub(super) fn of(plan: &Plan) -> Self {
        let mut rooms: BTreeMap<LevelId, (Vec<_>, Vec<[f64; 4]>)> = BTreeMap::new();
        for (id, Room { level, outline, .. }) in &plan.rooms {
            if let Some(bounds) = bounds(outline) {
                let (rooms, all) = rooms.entry(*level).or_default();
                rooms.push((*id, outline.clone()));
                all.push(bounds);
            }
        }
        let gridded = |(level, (rooms, bounds))| (level, (rooms, Grid::of(bounds)));
        Self { levels: rooms.into_iter().map(gridded).collect() }
    }

    pub(super) fn at(&self, level: LevelId, x: f64, y: f64) -> Option<RoomId> {
        let (rooms, grid) = self.levels.get(&level)?;
        let mut near = grid.around([x, y, x, y]).into_iter().map(|index| &rooms[index]);
        near.find(|(_, outline)| outline_holds(outline, x, y)).map(|room| room.0)
    }
}
