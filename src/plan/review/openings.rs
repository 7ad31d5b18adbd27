//! Doors, windows and holes.

use super::super::{Finding, Opening, OpeningId, OpeningKind, Severity, Subject};
use super::Drawing;
use crate::units::{Mm, Point3};

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    for (id, opening) in &drawing.plan.openings {
        without_size(drawing, *id, opening, findings);
        past_the_end(drawing, *id, opening, findings);
        past_the_ceiling(drawing, *id, opening, findings);
    }
    for ids in drawing.openings.values() {
        overlaps(drawing, ids.clone(), findings);
    }
}

fn mark(opening: &Opening, id: OpeningId) -> String {
    let noun = match opening.kind {
        OpeningKind::Door => "door",
        OpeningKind::SlidingDoor => "sliding door",
        OpeningKind::Window => "window",
        OpeningKind::Plain => "opening",
    };
    format!("{noun} {id}")
}

/// The middle of an opening.
fn place(drawing: &Drawing<'_>, opening: &Opening) -> Option<Point3> {
    let wall = drawing.plan.walls.get(&opening.wall)?;
    let level = drawing.plan.levels.get(&wall.level)?;
    let along = opening.from.to_f64() + opening.width.to_f64() / 2.0;
    Some(wall.at(along).at_height(level.floor + (opening.sill + opening.head).half()))
}

/// A fault of an opening, with its place and what was measured.
fn fault(
    drawing: &Drawing<'_>,
    (id, opening): (OpeningId, &Opening),
    code: &'static str,
    message: String,
    remedy: &str,
    (measured, limit): (String, String),
) -> Finding {
    let finding = Finding::new(code, Severity::Fault, Subject::Opening(id), message, remedy);
    Finding { place: place(drawing, opening), ..finding.against(measured, limit, "") }
}

fn without_size(
    drawing: &Drawing<'_>,
    id: OpeningId,
    opening: &Opening,
    findings: &mut Vec<Finding>,
) {
    let height = opening.head - opening.sill;
    for (what, size) in [("width", opening.width), ("height", height)] {
        if size <= Mm::ZERO {
            findings.push(fault(
                drawing,
                (id, opening),
                "opening-without-size",
                format!("{} has no {what}", mark(opening, id)),
                "measure its width, its sill and its head",
                (size.to_string(), "more than 0 mm".to_owned()),
            ));
        }
    }
}

fn past_the_end(
    drawing: &Drawing<'_>,
    id: OpeningId,
    opening: &Opening,
    findings: &mut Vec<Finding>,
) {
    let Some(wall) = drawing.plan.walls.get(&opening.wall) else { return };
    let (from, to) = (opening.from, opening.from + opening.width);
    // An oblique wall has no whole length, so half a millimetre is let pass.
    if from < Mm::ZERO || to.to_f64() > wall.length() + 0.5 {
        findings.push(fault(
            drawing,
            (id, opening),
            "opening-past-wall-end",
            format!("{} reaches past the end of wall {}", mark(opening, id), opening.wall),
            "move it along the wall, make it narrower, or lengthen the wall",
            (format!("{} to {to}", from.get()), format!("0 to {:.0} mm", wall.length())),
        ));
    }
}

fn past_the_ceiling(
    drawing: &Drawing<'_>,
    id: OpeningId,
    opening: &Opening,
    findings: &mut Vec<Finding>,
) {
    let wall = drawing.plan.walls.get(&opening.wall);
    let Some(level) = wall.and_then(|wall| drawing.plan.levels.get(&wall.level)) else { return };
    if opening.head > level.height || opening.sill < Mm::ZERO {
        findings.push(fault(
            drawing,
            (id, opening),
            "opening-past-wall-height",
            format!("{} reaches past the floor or the ceiling", mark(opening, id)),
            "measure its sill and its head, or the height of the level",
            (
                format!("{} to {}", opening.sill.get(), opening.head),
                format!("0 to {}", level.height),
            ),
        ));
    }
}

/// Openings of one wall that lie over one another.
fn overlaps(drawing: &Drawing<'_>, mut ids: Vec<OpeningId>, findings: &mut Vec<Finding>) {
    let openings = &drawing.plan.openings;
    ids.sort_by_key(|id| (openings[id].from, *id));
    for (index, first) in ids.iter().enumerate() {
        let one = &openings[first];
        let end = one.from + one.width;
        for second in ids[index + 1..].iter().take_while(|id| openings[*id].from < end) {
            let other = &openings[second];
            if one.sill < other.head && other.sill < one.head {
                findings.push(fault(
                    drawing,
                    (*second, other),
                    "openings-overlap",
                    format!("{} overlaps {}", mark(other, *second), mark(one, *first)),
                    "move one of them along the wall, or remove it",
                    (other.from.to_string(), format!("at least {end}")),
                ));
                break;
            }
        }
    }
}
