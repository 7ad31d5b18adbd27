//! The corner strips of a wall.

use wirewend::plan::{Plan, WallId};

use super::corners::MEETING;
use super::house::footprint;
use super::shape::{NEAR, Spot, stretches};

/// The parts of a wall, from its end `a`, where cables may lie because a
/// corner is near: beside each bare end and on both sides of every wall that
/// meets it, measured from that wall's face. What lies behind the face counts
/// as well: cables turn there from wall to wall.
///
/// A wall that meets at a slant has its face where it leaves the centre line;
/// one that goes on straight is taken to have its face half its thickness in.
pub(crate) fn corner_strips(plan: &Plan, id: WallId) -> Vec<(f64, f64)> {
    let Some(wall) = plan.walls.get(&id) else { return Vec::new() };
    let (strip, length) = (plan.habits.zones.strip.to_f64(), wall.length());
    let mut strips = vec![(0.0, strip), (length - strip, length)];
    let (a, b) = (Spot::of(wall.a), Spot::of(wall.b));
    for (_, other) in plan.walls.iter().filter(|(other, wall_2)| {
        **other != id && wall_2.level == wall.level && wall_2.length() > 0.0
    }) {
        let half = other.thickness.to_f64() / 2.0;
        let body = footprint(other, wall.thickness.to_f64() / 2.0 + MEETING + NEAR);
        for (from, to) in stretches(&body, a, b) {
            let (mut from, mut to) = (from * length, to * length);
            if from <= NEAR {
                to = to.max(half);
            }
            if to >= length - NEAR {
                from = from.min(length - half);
            }
            strips.push((from - strip, to + strip));
        }
    }
    strips
}

/// Whether a place along a wall is in one of its corner strips.
pub(crate) fn in_strip(strips: &[(f64, f64)], along: f64) -> bool {
    strips.iter().any(|(from, to)| (from - NEAR..=to + NEAR).contains(&along))
}

/// Whether all between two places along a wall is in its corner strips.
pub(crate) fn all_in_strips(strips: &[(f64, f64)], one: f64, other: f64) -> bool {
    let (mut reached, end) = (one.min(other), one.max(other));
    let mut sorted = strips.to_vec();
    sorted.sort_by(|a, b| a.0.total_cmp(&b.0));
    for (from, to) in sorted {
        if from - NEAR <= reached && reached <= to + NEAR {
            reached = reached.max(to + NEAR);
        }
    }
    reached >= end
}
