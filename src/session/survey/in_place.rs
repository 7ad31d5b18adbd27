//! A building in the place of what is drawn.

use crate::plan::{Edit, Plan};

/// The edit that puts a building in the place of what is drawn. Rules, habits,
/// stock and prices stay; points and circuits hung on the walls that go.
pub fn in_place(plan: &Plan, building: &Plan) -> Edit {
    let kept = plan.undrawn();
    let mut project = plan.project.clone();
    if project.title.is_empty() {
        project.title.clone_from(&building.project.title);
    }
    let to = Plan {
        project,
        levels: building.levels.clone(),
        voids: building.voids.clone(),
        walls: building.walls.clone(),
        openings: building.openings.clone(),
        rooms: building.rooms.clone(),
        areas: building.areas.clone(),
        risers: building.risers.clone(),
        ..kept.clone()
    };
    Edit::Many(vec![plan.difference(&kept), kept.difference(&to)])
}
