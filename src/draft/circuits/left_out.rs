//! Points that end up on no circuit, and what to do about them.

use std::collections::BTreeSet;

use super::super::dwellings::Dwelling;
use super::super::kit::Kit;
use crate::plan::{PointId, Subject};

/// Points of rooms that have no board.
pub(super) fn no_board(kit: &mut Kit<'_>, dwelling: &Dwelling, points: &BTreeSet<PointId>) {
    if points.is_empty() {
        return;
    }
    let subject = dwelling.rooms.first().map_or(Subject::Plan, |room| Subject::Room(*room));
    let chosen = format!("{} points on no circuit", points.len());
    kit.reason(subject, chosen, "no board feeds these rooms: add one there and draft again");
}

/// Takes points that no cable reaches out again, and switches without lights.
pub(super) fn leave_out(kit: &mut Kit<'_>, lost: &[PointId]) {
    let added: BTreeSet<PointId> = kit.added.values().flatten().copied().collect();
    let because = "no cable reaches it from the board: open a way, or add a board on its side";
    if lost.len() > 1 {
        let mut rooms: Vec<&str> = lost
            .iter()
            .filter_map(|id| kit.plan.room_of(kit.plan.points.get(id)?.place.as_ref()?))
            .map(|room| kit.plan.rooms[&room].name.as_str())
            .collect();
        rooms.sort_unstable();
        rooms.dedup();
        let more = if rooms.len() > 4 { " and more" } else { "" };
        rooms.truncate(4);
        let chosen = format!("{} points left out, in {}{more}", lost.len(), rooms.join(", "));
        kit.reason(Subject::Plan, chosen, because);
    }
    for id in lost {
        let Some(point) = kit.plan.points.get(id) else { continue };
        let kind = point.kind.name();
        let room = point.place.and_then(|place| kit.plan.room_of(&place));
        let name =
            room.map_or_else(String::new, |room| format!(" in {}", kit.plan.rooms[&room].name));
        if added.contains(id) {
            kit.plan.points.shift_remove(id);
            let subject = room.map_or(Subject::Plan, Subject::Room);
            kit.reason(subject, format!("{kind}{name} left out"), because);
        } else {
            kit.reason(Subject::Point(*id), format!("{kind}{name} on no circuit"), because);
        }
    }
    let mut idle: Vec<PointId> = Vec::new();
    let points = &kit.plan.points;
    kit.plan.controls.retain(|_, control| {
        control.lights.retain(|id| points.contains_key(id));
        control.switches.retain(|id| points.contains_key(id));
        if control.lights.is_empty() {
            idle.append(&mut control.switches);
        }
        !control.lights.is_empty() && !control.switches.is_empty()
    });
    for id in idle.iter().filter(|id| added.contains(id)) {
        kit.plan.points.shift_remove(id);
    }
}
