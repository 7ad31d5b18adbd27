//! Sinks and basins: how far sockets keep away.
//!
//! **Looks at** sockets near an area named sink, basin or tub. **Matters**
//! because hands are wet there. **Example:** a socket 150 mm beside a kitchen
//! sink. **Remedy:** move it along the bench. **Source:** table `clearance`.

use super::super::context::House;
use super::wet_zone::{level_of, named, of_area};
use crate::plan::{End, Family, Finding, RoomUse, Severity, Subject};
use crate::rules::words::ClearanceOf;

const CODE: &str = "sink-clearance";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    let row = house.tables().clearance.row(ClearanceOf::SinkSocket);
    let clear = row.distance.exact();
    let sinks: Vec<_> = house
        .plan
        .areas
        .values()
        .filter(|area| named(area, &["sink", "basin", "tub"]) && !named(area, &["bath"]))
        .map(|area| (level_of(house, area), of_area(house, area)))
        .collect();
    if sinks.is_empty() {
        findings.extend(nothing_drawn(house));
        return;
    }
    for (id, point) in &house.plan.points {
        if point.kind.family() != Family::Sockets {
            continue;
        }
        let Some(seen) = point.place.and_then(|place| house.plan.position_on_face(&place)) else {
            continue;
        };
        let level = point.place.and_then(|place| house.plan.level_of(&place));
        let nearest = sinks
            .iter()
            .filter(|(own, _)| own.is_none() || *own == level)
            .map(|(_, sink)| (sink.distance(seen), sink))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((distance, sink)) = nearest.filter(|(distance, _)| *distance < clear) else {
            continue;
        };
        let message = format!("{} is too near the {}", house.label(End::Point(*id)), sink.name);
        let remedy = format!("move it {:.0} mm further along", clear - distance);
        findings.push(
            Finding::new(CODE, Severity::Fault, Subject::Point(*id), message, remedy)
                .at(seen)
                .against(format!("{distance:.0} mm"), format!("{} mm", clear), row.credit()),
        );
    }
}

/// Kitchens and laundries have sinks, drawn or not.
fn nothing_drawn(house: &House<'_>) -> Option<Finding> {
    let (id, room) = house.plan.rooms.iter().find(|(id, room)| {
        matches!(room.usage, RoomUse::Kitchen | RoomUse::Laundry)
            && house.plan.points.values().any(|point| {
                point.kind.family() == Family::Sockets
                    && point.place.is_some_and(|place| house.plan.room_of(&place) == Some(**id))
            })
    })?;
    Some(super::not_in_plan(
        CODE,
        Subject::Room(*id),
        &format!("{}: distance of sockets from the sink", room.name),
        "no sink is drawn",
        "draw an area named sink where it stands",
    ))
}
