//! Cooktops: how far sockets and switches keep away.
//!
//! **Looks at** sockets and switches on the wall of a cooktop, beside and
//! above it. **Matters** because flexes and hands should not cross hot pans.
//! **Example:** a socket right above the hob. **Remedy:** move it along the
//! wall. **Source:** table `clearance`; the cooktop's own width is taken as
//! 600 mm unless an area named cooktop or hob is drawn (common practice).

use super::super::context::House;
use super::wet_zone::{named, on_floor, to_outline};
use crate::plan::{End, Family, Finding, OnWall, Place, PointKind, Severity, Subject};
use crate::rules::words::ClearanceOf;

const CODE: &str = "cooktop-clearance";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    let rule = |what| house.tables().clearance.row(what);
    let clear = rule(ClearanceOf::CooktopSocket);
    let half = rule(ClearanceOf::CooktopHalfWidth).distance.exact();
    let top = rule(ClearanceOf::BenchHeightMax).distance.exact();
    let drawn: Vec<_> = house
        .plan
        .areas
        .values()
        .filter(|area| named(area, &["cooktop", "hob"]))
        .map(|area| on_floor(house, area))
        .collect();
    let cooktops: Vec<OnWall> = house
        .plan
        .points
        .values()
        .filter(|point| point.kind == PointKind::Cooktop)
        .filter_map(|point| match point.place {
            Some(Place::Wall(on)) => Some(on),
            _ => None,
        })
        .collect();
    for (id, point) in &house.plan.points {
        let accessory = matches!(point.kind.family(), Family::Sockets | Family::Switches);
        let Some(Place::Wall(on)) = point.place.filter(|_| accessory) else { continue };
        if on.height.to_f64() > top || on.height.get() < BENCH {
            continue;
        }
        let seen = house.plan.position_on_face(&Place::Wall(on));
        let by_area =
            drawn.iter().filter_map(|outline| Some(to_outline(outline, seen?.on_floor())));
        let by_point = cooktops
            .iter()
            .filter(|cooktop| {
                drawn.is_empty() && cooktop.wall == on.wall && cooktop.face == on.face
            })
            .map(|cooktop| ((cooktop.along - on.along).abs().to_f64() - half).max(0.0));
        let distance = by_area.chain(by_point).fold(f64::INFINITY, f64::min);
        if distance >= clear.distance.exact() {
            continue;
        }
        let message = format!("{} is too near the cooktop", house.label(End::Point(*id)));
        let remedy = format!("move it {:.0} mm further along", clear.distance.exact() - distance);
        let mut finding = Finding::new(CODE, Severity::Fault, Subject::Point(*id), message, remedy)
            .against(
                format!("{distance:.0} mm"),
                format!("{} mm", clear.distance.exact()),
                clear.credit(),
            );
        finding.place = seen;
        findings.push(finding);
    }
}

/// Below the bench a cooktop is no hazard, mm.
const BENCH: i64 = 900;
