//! A fixed appliance has mains only through an isolating switch of its room,
//! if its circuit has one there, and nothing else is cut off with it.

use wirewend::plan::{End, Family, PointId, PointKind, Wiring};
use wirewend::runs::{Leg, LegRole};

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    let own = || case.plan.points.iter().filter(|(_, point)| point.circuit == Some(case.id));
    let reached: Vec<PointId> =
        own().map(|(id, _)| *id).filter(|id| case.reaches(End::Point(*id))).collect();
    let switches: Vec<PointId> =
        reached.iter().copied().filter(|id| kind(case, *id) == PointKind::Isolator).collect();
    let loads: Vec<PointId> = reached.iter().copied().filter(|id| is_load(case, *id)).collect();
    for load in &loads {
        let same = |switch: &&PointId| room(case, **switch) == room(case, *load);
        let mut its: Vec<PointId> = switches.iter().filter(same).copied().collect();
        if let ([switch], [_]) = (&switches[..], &loads[..]) {
            its = vec![*switch];
        }
        if its.is_empty() || said(case, *load) {
            continue;
        }
        let way = way(case, *load);
        let in_ring =
            case.circuit.wiring == Wiring::Ring && case.run.order.ends.contains(&End::Point(*load));
        if in_ring || !its.iter().any(|switch| way.contains(&End::Point(*switch))) {
            let text = format!("{load} is not behind {its:?} but by way of {way:?}");
            book.circuit(Code::Isolator, case.id, text);
        }
        for leg in case.run.legs.iter().filter(|leg| leg.from == End::Point(*load)) {
            let others = matches!(leg.to, End::Point(id) if !is_load(case, id));
            if others && !by_hand(case, *load) {
                book.leg(Code::Isolator, leg, format!("{} is cut off with {load}", leg.to));
            }
        }
    }
}

/// Whether a leg hangs a fixed appliance behind a switch, or behind another
/// that hangs there.
pub(crate) fn hangs_behind(case: &Case, leg: &Leg) -> bool {
    let is_switch =
        |end: &End| matches!(end, End::Point(id) if kind(case, *id) == PointKind::Isolator);
    let End::Point(load) = leg.to else { return false };
    is_load(case, load) && way(case, load).iter().any(is_switch)
}

fn kind(case: &Case, id: PointId) -> PointKind {
    case.plan.points[&id].kind
}

fn is_load(case: &Case, id: PointId) -> bool {
    let kind = kind(case, id);
    let worked = case.plan.controls.values().any(|control| control.lights.contains(&id));
    kind.family() == Family::Fixed && kind != PointKind::Isolator && !worked
}

fn room(case: &Case, id: PointId) -> Option<wirewend::plan::RoomId> {
    case.plan.points[&id].place.and_then(|place| case.plan.room_of(&place))
}

fn by_hand(case: &Case, id: PointId) -> bool {
    let spurs = &case.circuit.spurs;
    case.circuit.order.contains(&id)
        || spurs.iter().any(|spur| spur.point == id || spur.from == End::Point(id))
}

/// Whether a finding tells the person who ordered it so.
fn said(case: &Case, id: PointId) -> bool {
    let about = wirewend::plan::Subject::Point(id);
    let told =
        |one: &wirewend::plan::Finding| one.code == "not-behind-isolator" && one.subject == about;
    by_hand(case, id) && case.findings.iter().any(told)
}

/// From an end back to the board, itself left out.
fn way(case: &Case, id: PointId) -> Vec<End> {
    let mut way = Vec::new();
    let mut at = End::Point(id);
    while let Some(leg) =
        case.run.legs.iter().find(|leg| leg.to == at && leg.role != LegRole::RingReturn)
    {
        if way.len() > case.run.legs.len() {
            break;
        }
        way.push(leg.from);
        at = leg.from;
    }
    way
}
