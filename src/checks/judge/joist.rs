//! Holes through joists.
//!
//! **Looks at** cables that cross joists, and the hole that those lying
//! together would need. **Matters** because a floor hangs on its joists.
//! **Example:** five cables through one hole in a 150 mm joist. **Remedy:**
//! several smaller holes on the centre line, three diameters apart, in the
//! middle part of the span. **Source:** tables `joist`, `joist_cover`; solid
//! timber only: for made-up joists ask their maker.

use std::collections::BTreeMap;

use super::super::context::House;
use crate::plan::{CableMake, Finding, Plane, Severity, Subject, Void, VoidId};
use crate::rules::words::{JoistRule, JoistSide, OutlineMake};
use crate::runs::{Heading, Leg, Segment};
use crate::units::Csa;

const CODE: &str = "joist-hole";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    let tables = house.tables();
    let share = tables.joist.row(JoistRule::HoleDiameter);
    let spacing = tables.joist.row(JoistRule::HoleSpacing);
    let cover = tables.joist_cover.row(JoistSide::Face);
    for (id, (hole, segment)) in largest_holes(house) {
        let Some((void, joists)) = house.plan.voids.get(&id).and_then(|v| Some((v, v.joists?)))
        else {
            continue;
        };
        let by_depth = share.ratio * joists.depth.to_f64();
        let by_cover = joists.depth.to_f64() - 2.0 * cover.distance.exact();
        let limit = by_depth.min(by_cover);
        if hole <= limit {
            continue;
        }
        let source = if by_depth <= by_cover { share.credit() } else { cover.credit() };
        findings.push(
            Finding::new(
                CODE,
                Severity::Warning,
                Subject::Void(id),
                message(void, segment),
                format!(
                    "drill smaller holes on the centre line, {} diameters apart, or take another way",
                    spacing.ratio
                ),
            )
            .at(segment.from)
            .against(format!("{hole:.0} mm"), format!("{:.0} mm", limit.max(0.0)), source),
        );
    }
}

fn message(void: &Void, segment: &Segment) -> String {
    let name = &void.name;
    match segment.beside {
        0 => format!("a cable crosses the joists of {name}: its hole would weaken them"),
        others => format!(
            "{} cables cross the joists of {name} together: one hole for all would weaken them",
            others + 1
        ),
    }
}

/// For every void the segment whose cables need the largest hole.
fn largest_holes<'h>(house: &'h House<'_>) -> BTreeMap<VoidId, (f64, &'h Segment)> {
    let mut largest: BTreeMap<VoidId, (f64, &Segment)> = BTreeMap::new();
    let mut outlines = Outlines::new();
    for leg in house.runs.circuits.values().flat_map(|run| &run.legs) {
        let mut outline = None;
        for segment in &leg.route.segments {
            let Some(Plane::Void(id)) = segment.plane else { continue };
            if segment.heading != Heading::AcrossJoists {
                continue;
            }
            let outline = *outline.get_or_insert_with(|| known(house, leg, &mut outlines));
            let Some((width, thickness)) = outline else { continue };
            let hole = libm::hypot(width, thickness * f64::from(segment.beside + 1));
            match largest.get(&id) {
                Some((known, _)) if *known >= hole => {}
                _ => {
                    largest.insert(id, (hole, segment));
                }
            }
        }
    }
    largest
}

type Outlines = Vec<((CableMake, Csa), Option<(f64, f64)>)>;

/// Width and thickness of a leg's cable, looked up once for every type.
fn known(house: &House<'_>, leg: &Leg, outlines: &mut Outlines) -> Option<(f64, f64)> {
    let cable = leg.cable?;
    let key = (cable.make, cable.size);
    if let Some((_, outline)) = outlines.iter().find(|(other, _)| *other == key) {
        return *outline;
    }
    let flat = cable.make == CableMake::Flat;
    let make = if flat { OutlineMake::Flat } else { OutlineMake::Round };
    let outline = house
        .tables()
        .cable_outline
        .row((make, cable.size))
        .ok()
        .map(|row| (row.width.exact(), row.thickness.exact()));
    outlines.push((key, outline));
    outline
}
