//! Pieces of wall that stand inside a room: piers, ducts, walls of a floor
//! without rooms. Nothing hangs in them, nor in what they enclose.

use super::kit::Kit;
use super::outline::{bounds, depth, place};
use crate::plan::{RoomId, Wall, WallId};
use crate::units::Point2;

/// A wall nearer to the outline is one of the room's own, mm.
const OWN: f64 = 250.0;
/// What hangs on a ceiling keeps so far from such a wall's face, mm.
const CLEAR: f64 = 600.0;
/// How far a place may be moved, in steps of so many mm.
const STEP: f64 = 150.0;
const STEPS: i32 = 12;

/// The walls inside a room.
#[derive(Debug, Default)]
pub(super) struct Inner(Vec<Wall>);

impl Inner {
    pub(super) fn of(kit: &Kit<'_>, room: RoomId) -> Self {
        let room = &kit.plan.rooms[&room];
        let Some([x0, y0, x1, y1]) = bounds(&room.outline) else { return Self::default() };
        let inside = |(_, at): &(WallId, Point2)| {
            let (x, y) = (at.x.to_f64(), at.y.to_f64());
            x0 < x && x < x1 && y0 < y && y < y1 && depth(&room.outline, x, y) > OWN
        };
        let walls = kit.middles.around(room.level, [x0, y0, x1, y1]).filter(inside);
        Self(walls.filter_map(|(wall, _)| kit.plan.walls.get(&wall)).cloned().collect())
    }

    /// Whether a place keeps clear of them.
    pub(super) fn leaves(&self, at: Point2) -> bool {
        self.0.iter().all(|wall| {
            let (dx, dy) = wall.direction();
            let (px, py) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
            let along = (px * dx + py * dy).clamp(0.0, wall.length());
            let far = libm::hypot(px - along * dx, py - along * dy);
            far >= wall.thickness.to_f64() / 2.0 + CLEAR
        })
    }

    /// The nearest place that keeps clear of them and inside the room.
    pub(super) fn moved(&self, outline: &[Point2], at: Point2) -> Point2 {
        if self.0.is_empty() || self.leaves(at) {
            return at;
        }
        let mut best: Option<(f64, Point2)> = None;
        for (i, j) in (-STEPS..=STEPS).flat_map(|i| (-STEPS..=STEPS).map(move |j| (i, j))) {
            let (x, y) = (at.x.to_f64() + f64::from(i) * STEP, at.y.to_f64() + f64::from(j) * STEP);
            let far = libm::hypot(f64::from(i), f64::from(j));
            let Some(to) = place(x, y) else { continue };
            if best.is_none_or(|best| far < best.0 - 1e-9)
                && depth(outline, x, y) >= OWN
                && self.leaves(to)
            {
                best = Some((far, to));
            }
        }
        best.map_or(at, |best| best.1)
    }
}
