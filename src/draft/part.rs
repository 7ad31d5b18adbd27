//! The part of a plan around one dwelling, so that large blocks are grouped
//! and sized dwelling by dwelling.

use std::collections::BTreeSet;

use super::dwellings::Dwelling;
use super::outline::bounds;
use crate::plan::{LevelId, Plan, Plane, PointId};

/// How far around a room its walls may stand, mm.
const REACH: f64 = 400.0;

/// The plan with what lies in and around a dwelling only.
pub(super) fn around(plan: &Plan, dwelling: &Dwelling, points: &BTreeSet<PointId>) -> Plan {
    let boxes: Vec<(LevelId, [f64; 4])> = dwelling
        .rooms
        .iter()
        .filter_map(|room| {
            let room = plan.rooms.get(room)?;
            Some((room.level, bounds(&room.outline)?))
        })
        .collect();
    let near = |wall: &crate::plan::Wall| {
        let (ax, ay, bx, by) =
            (wall.a.x.to_f64(), wall.a.y.to_f64(), wall.b.x.to_f64(), wall.b.y.to_f64());
        boxes.iter().any(|(level, [x0, y0, x1, y1])| {
            *level == wall.level
                && ax.max(bx) >= x0 - REACH
                && ax.min(bx) <= x1 + REACH
                && ay.max(by) >= y0 - REACH
                && ay.min(by) <= y1 + REACH
        })
    };
    let board_wall = dwelling.board.and_then(|board| match plan.boards.get(&board)?.place? {
        crate::plan::Place::Wall(on) => Some(on.wall),
        _ => None,
    });
    let mut part = Plan {
        levels: plan.levels.clone(),
        voids: plan.voids.clone(),
        risers: plan.risers.clone(),
        ..plan.undrawn()
    };
    let walls = plan.walls.iter().filter(|(id, wall)| near(wall) || Some(**id) == board_wall);
    part.walls = walls.map(|(id, wall)| (*id, wall.clone())).collect();
    let openings = plan.openings.iter().filter(|(_, o)| part.walls.contains_key(&o.wall));
    part.openings = openings.map(|(id, opening)| (*id, opening.clone())).collect();
    let rooms = dwelling.rooms.iter().filter_map(|id| Some((*id, plan.rooms.get(id)?.clone())));
    part.rooms = rooms.collect();
    let areas = plan.areas.iter().filter(|(_, area)| match area.on {
        Plane::Void(_) => true,
        Plane::Wall(wall) => part.walls.contains_key(&wall),
    });
    part.areas = areas.map(|(id, area)| (*id, area.clone())).collect();
    let boards = plan.boards.iter().filter(|(id, _)| Some(**id) == dwelling.board);
    part.boards = boards.map(|(id, board)| (*id, board.clone())).collect();
    let own = plan.points.iter().filter(|(id, _)| points.contains(id));
    part.points = own.map(|(id, point)| (*id, point.clone())).collect();
    let controls = plan.controls.iter().filter(|(_, control)| {
        control.lights.iter().chain(&control.switches).all(|id| points.contains(id))
    });
    part.controls = controls.map(|(id, control)| (*id, control.clone())).collect();
    part
}
