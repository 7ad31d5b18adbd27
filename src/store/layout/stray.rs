//! Pieces that lie off the building by themselves.

use super::form::{FormLevel, FormWall};
use crate::plan::outline_holds;
use crate::units::Point2;

/// A longer wall is somebody's wall, wherever it stands, mm.
const LENGTH_MAX: f64 = 3000.0;
/// A piece this far from everything else belongs to nothing, mm.
const DISTANCE: f64 = 1000.0;

/// For every wall of a level, whether it is a short piece away from all rooms
/// and all other walls, as scans and tracings leave behind.
pub(super) fn strays(level: &FormLevel) -> Vec<bool> {
    let alone = |index: usize, wall: &FormWall| {
        let others = level.walls.iter().enumerate().filter(|(other, _)| *other != index);
        let near = |other: &FormWall| gap(wall, other.a, other.b) < DISTANCE;
        !others.map(|(_, other)| other).any(near)
    };
    let outdoors = |wall: &FormWall| {
        level.rooms.iter().all(|room| {
            let corners: Vec<Point2> = room.polygon.iter().map(|corner| corner.0).collect();
            let mut edges = corners.iter().zip(corners.iter().cycle().skip(1));
            !outline_holds(&corners, wall.a.x.to_f64(), wall.a.y.to_f64())
                && edges.all(|(from, to)| gap(wall, *from, *to) >= DISTANCE)
        })
    };
    let short = |wall: &FormWall| wall.a.distance(wall.b) <= LENGTH_MAX;
    // A level of one wall has nothing to lie away from.
    let several = level.walls.len() + level.rooms.len() > 1;
    let walls = level.walls.iter().enumerate();
    walls
        .map(|(index, wall)| several && short(wall) && alone(index, wall) && outdoors(wall))
        .collect()
}

/// The gap between a wall and a stretch that it does not cross, mm.
fn gap(wall: &FormWall, from: Point2, to: Point2) -> f64 {
    [(wall.a, from, to), (wall.b, from, to), (from, wall.a, wall.b), (to, wall.a, wall.b)]
        .into_iter()
        .map(|(place, from, to)| off(place, from, to))
        .fold(f64::INFINITY, f64::min)
}

/// From a place to the nearest place of a stretch, mm.
fn off(place: Point2, from: Point2, to: Point2) -> f64 {
    let (step, gap) = (to - from, place - from);
    let (sx, sy) = (step.x.to_f64(), step.y.to_f64());
    let (gx, gy) = (gap.x.to_f64(), gap.y.to_f64());
    let square = sx * sx + sy * sy;
    let share = if square > 0.0 { ((gx * sx + gy * sy) / square).clamp(0.0, 1.0) } else { 0.0 };
    libm::hypot(gx - share * sx, gy - share * sy)
}
