//! What on the plan is near a place.

use kurbo::{Point, Vec2};

use crate::plan::{Face, LevelId, Plan, Wall, WallId};
use crate::session::ground::places::exact;
use crate::units::Mm;

/// A place on a wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OnLine {
    /// The wall.
    pub wall: WallId,
    /// From the wall's end `a`, mm, not rounded.
    pub along: f64,
    /// The face that the asking place is on.
    pub face: Face,
    /// How far away it is, mm, from the nearer face; 0 inside the wall.
    pub away: f64,
}

/// The wall of a level that is nearest to a place, if any is within reach.
pub fn wall(plan: &Plan, level: LevelId, at: Point, reach: f64) -> Option<OnLine> {
    let walls = plan.walls.iter().filter(|(_, wall)| wall.level == level);
    walls
        .filter_map(|(id, wall)| on(wall, *id, at))
        .filter(|found| found.away <= reach)
        .min_by(|one, other| one.away.total_cmp(&other.away))
}

/// A place brought onto one wall. None for a wall without length.
pub fn on(wall: &Wall, id: WallId, at: Point) -> Option<OnLine> {
    let (a, length) = (exact(wall.a), wall.length());
    if length < 1.0 {
        return None;
    }
    let (dx, dy) = wall.direction();
    let way = Vec2::new(dx, dy);
    let along = (at - a).dot(way).clamp(0.0, length);
    let off = at - (a + way * along);
    let face = if way.cross(off) >= 0.0 { Face::Left } else { Face::Right };
    let away = (off.hypot() - wall.thickness.to_f64() / 2.0).max(0.0);
    Some(OnLine { wall: id, along, face, away })
}

/// So far along a wall, to the step, kept clear of both ends.
pub fn stepped(wall: &Wall, along: f64, step: f64, clear: f64) -> Mm {
    let most = (wall.length() - clear).max(clear);
    let along = (libm::round(along / step) * step).clamp(clear.min(most), most);
    Mm::from_f64(along).unwrap_or(Mm::ZERO)
}
