//! Open sides: where one room goes over into another with no wall between.

use std::collections::BTreeMap;

use super::grid::bounds_of;
use super::room_finder::RoomFinder;
use super::walls_by_level::Walls;
use crate::plan::{Plan, RoomId, Wall};

/// From sample to sample along the edge of a room, mm.
const STEP: f64 = 200.0;
/// So far beyond the edge the other room is looked for, mm.
const BEYOND: f64 = 120.0;
/// Narrower ones are no way through, mm.
const WIDTH_MIN: f64 = 600.0;

/// A stretch of a room's edge that is open towards another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Gap {
    pub(super) beyond: RoomId,
    /// Its ends, mm.
    pub(super) ends: [(f64, f64); 2],
}

impl Gap {
    pub(super) fn middle(&self) -> (f64, f64) {
        let [a, b] = self.ends;
        (f64::midpoint(a.0, b.0), f64::midpoint(a.1, b.1))
    }

    fn width(&self) -> f64 {
        let [a, b] = self.ends;
        libm::hypot(b.0 - a.0, b.1 - a.1)
    }
}

/// The open sides of every room, in the order of its outline.
pub(super) fn of(plan: &Plan, rooms: &RoomFinder, walls: &Walls<'_>) -> BTreeMap<RoomId, Vec<Gap>> {
    let mut all = BTreeMap::new();
    for (id, room) in &plan.rooms {
        let mut gaps: Vec<Gap> = Vec::new();
        for (from, to) in room.outline.iter().zip(room.outline.iter().cycle().skip(1)) {
            let length = from.distance(*to);
            if length < WIDTH_MIN {
                continue;
            }
            let (ax, ay) = (from.x.to_f64(), from.y.to_f64());
            let (dx, dy) = ((to.x.to_f64() - ax) / length, (to.y.to_f64() - ay) / length);
            let box_ = bounds_of((ax, ay), (to.x.to_f64(), to.y.to_f64()), 1000.0);
            let near = walls.around(room.level, box_);
            let mut at = STEP / 2.0;
            let mut open: Option<Gap> = None;
            while at < length {
                let (x, y) = (ax + dx * at, ay + dy * at);
                let beyond = [-BEYOND, BEYOND]
                    .into_iter()
                    .find_map(|off| {
                        let next = rooms.at(room.level, x - dy * off, y + dx * off);
                        next.filter(|next| next != id)
                    })
                    .filter(|_| !near.iter().any(|(_, wall)| is_beside(wall, x, y)));
                let end = |far: f64| (ax + dx * far, ay + dy * far);
                let (low, high) = (end(at - STEP / 2.0), end((at + STEP / 2.0).min(length)));
                match (&mut open, beyond) {
                    (Some(gap), Some(beyond)) if gap.beyond == beyond => gap.ends[1] = high,
                    _ => {
                        gaps.extend(open.take());
                        open = beyond.map(|beyond| Gap { beyond, ends: [low, high] });
                    }
                }
                at += STEP;
            }
            gaps.extend(open);
        }
        gaps.retain(|gap| gap.width() >= WIDTH_MIN);
        if !gaps.is_empty() {
            all.insert(*id, gaps);
        }
    }
    all
}

/// Whether a place on the edge of a room lies on a wall, or just off its face.
pub(super) fn is_beside(wall: &Wall, x: f64, y: f64) -> bool {
    let (dx, dy) = wall.direction();
    let (px, py) = (x - wall.a.x.to_f64(), y - wall.a.y.to_f64());
    let (along, across) = (px * dx + py * dy, px * dy - py * dx);
    (0.0..=wall.length()).contains(&along) && across.abs() < wall.thickness.to_f64() / 2.0 + 200.0
}
