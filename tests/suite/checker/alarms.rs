//! Alarms are linked with each other.

use wirewend::plan::{CircuitUse, End, Family, PointId};
use wirewend::runs::LegRole;

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    let is_alarm = |end: End| match end {
        End::Point(id) => {
            case.plan.points.get(&id).is_some_and(|point| point.kind.family() == Family::Alarms)
        }
        End::Board(_) => false,
    };
    for leg in case.legs(LegRole::Interlink) {
        if !is_alarm(leg.from) || !is_alarm(leg.to) {
            book.leg(Code::Interlink, leg, format!("from {} to {}", leg.from, leg.to));
        }
    }
    if case.circuit.usage == CircuitUse::Alarms {
        judge_linked(case, book);
    }
}

/// All alarms that are reached are in one group of links.
fn judge_linked(case: &Case, book: &mut Complaints) {
    let alarms: Vec<PointId> = case
        .plan
        .points
        .iter()
        .filter(|(_, point)| point.circuit == Some(case.id))
        .filter(|(_, point)| point.kind.family() == Family::Alarms)
        .map(|(id, _)| *id)
        .filter(|id| case.reaches(End::Point(*id)))
        .collect();
    // Every alarm starts as a group of its own; a link makes two groups one.
    let mut groups: Vec<Vec<End>> = alarms.iter().map(|id| vec![End::Point(*id)]).collect();
    for leg in case.legs(LegRole::Interlink) {
        let holds = |group: &Vec<End>| group.contains(&leg.from) || group.contains(&leg.to);
        let (linked, apart): (Vec<_>, Vec<_>) = groups.into_iter().partition(holds);
        groups = apart;
        groups.push(linked.concat());
    }
    groups.retain(|group| !group.is_empty());
    if groups.len() > 1 {
        book.circuit(Code::Interlink, case.id, format!("{} groups of alarms", groups.len()));
    }
}
