//! Which points belong to which dwelling.

use std::collections::{BTreeMap, BTreeSet};

use super::super::dwellings::Dwelling;
use super::super::kit::Kit;
use crate::plan::{PointId, RoomId};

/// The points without a circuit, by dwelling.
pub(super) fn points_of(kit: &Kit<'_>, dwellings: &[Dwelling]) -> Vec<BTreeSet<PointId>> {
    let mut room_of: BTreeMap<PointId, RoomId> = BTreeMap::new();
    for (room, points) in &kit.added {
        room_of.extend(points.iter().map(|point| (*point, *room)));
    }
    let mut points = vec![BTreeSet::new(); dwellings.len()];
    let mut home: BTreeMap<RoomId, usize> = BTreeMap::new();
    for (index, dwelling) in dwellings.iter().enumerate() {
        home.extend(dwelling.rooms.iter().map(|room| (*room, index)));
    }
    for (id, point) in &kit.plan.points {
        let Some(place) = point.place.filter(|_| point.circuit.is_none()) else { continue };
        let room = room_of.get(id).copied().or_else(|| kit.plan.room_of(&place));
        let index = room.and_then(|room| home.get(&room)).copied().unwrap_or(0);
        if let Some(points) = points.get_mut(index) {
            points.insert(*id);
        }
    }
    // What one switch works belongs together, wherever the switch is.
    let mut home: BTreeMap<PointId, usize> = BTreeMap::new();
    for (index, points) in points.iter().enumerate() {
        home.extend(points.iter().map(|id| (*id, index)));
    }
    for control in kit.plan.controls.values() {
        let ids = || control.lights.iter().chain(&control.switches);
        let Some(first) = ids().find_map(|id| home.get(id).copied()) else { continue };
        for id in ids() {
            if let Some(other) = home.insert(*id, first) {
                points[other].remove(id);
                points[first].insert(*id);
            } else {
                home.remove(id);
            }
        }
    }
    points
}
