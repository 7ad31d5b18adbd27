//! Places of points and boards that cannot be.

use super::super::{End, Faces, Finding, OnWall, Place, Severity, Subject, WallBuild, faces};
use super::Drawing;
use crate::units::Mm;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let boards = drawing.plan.boards.iter().map(|(id, it)| (End::Board(*id), it.place));
    let points = drawing.plan.points.iter().map(|(id, it)| (End::Point(*id), it.place));
    let finished = faces(drawing.plan);
    for (end, place) in boards.chain(points) {
        match place {
            Some(Place::Wall(on)) => {
                on_wall(drawing, end, on, findings);
                in_a_corner(drawing, &finished, (end, on), findings);
            }
            Some(Place::Post(on)) if on.height < Mm::ZERO => {
                let message = format!("{} is below the ground", drawing.end(end));
                let limits = (on.height.to_string(), "at least 0 mm".to_owned());
                let remedy = "measure its height above the ground";
                findings.push(fault(drawing, end, "place-past-height", message, remedy, limits));
            }
            _ => {}
        }
    }
}

/// A fault of a place, with where it is and what was measured.
fn fault(
    drawing: &Drawing<'_>,
    end: End,
    code: &'static str,
    message: String,
    remedy: &str,
    (measured, limit): (String, String),
) -> Finding {
    let place = drawing.plan.place_of(end).and_then(|place| drawing.plan.position(&place));
    let finding = Finding::new(code, Severity::Fault, Subject::from(end), message, remedy);
    Finding { place, ..finding.against(measured, limit, "") }
}

fn on_wall(drawing: &Drawing<'_>, end: End, on: OnWall, findings: &mut Vec<Finding>) {
    past_the_end(drawing, end, on, findings);
    past_the_height(drawing, end, on, findings);
    in_an_opening(drawing, end, on, findings);
    on_a_screen(drawing, end, on, findings);
}

fn past_the_end(drawing: &Drawing<'_>, end: End, on: OnWall, findings: &mut Vec<Finding>) {
    let Some(wall) = drawing.plan.walls.get(&on.wall) else { return };
    // An oblique wall has no whole length, so half a millimetre is let pass.
    if on.along < Mm::ZERO || on.along.to_f64() > wall.length() + 0.5 {
        let message = format!("{} is past the end of wall {}", drawing.end(end), on.wall);
        let limits = (on.along.to_string(), format!("0 to {:.0} mm", wall.length()));
        let remedy = "move it along the wall, or put it on another";
        findings.push(fault(drawing, end, "place-past-wall-end", message, remedy, limits));
    }
}

fn past_the_height(drawing: &Drawing<'_>, end: End, on: OnWall, findings: &mut Vec<Finding>) {
    let wall = drawing.plan.walls.get(&on.wall);
    let Some(level) = wall.and_then(|wall| drawing.plan.levels.get(&wall.level)) else { return };
    if on.height < Mm::ZERO || on.height > level.height {
        let which = if on.height < Mm::ZERO { "below the floor" } else { "above the ceiling" };
        let message = format!("{} is {which}", drawing.end(end));
        let limits = (on.height.to_string(), format!("0 to {}", level.height));
        let remedy = "measure its height above the floor";
        findings.push(fault(drawing, end, "place-past-height", message, remedy, limits));
    }
}

fn in_an_opening(drawing: &Drawing<'_>, end: End, on: OnWall, findings: &mut Vec<Finding>) {
    let openings = drawing.openings.get(&on.wall).into_iter().flatten();
    let inside = openings.map(|id| (id, &drawing.plan.openings[id])).find(|(_, opening)| {
        opening.from < on.along
            && on.along < opening.from + opening.width
            && opening.sill < on.height
            && on.height < opening.head
    });
    let Some((id, opening)) = inside else { return };
    let message = format!("{} is within opening {id} of wall {}", drawing.end(end), on.wall);
    let edges = (opening.from.get(), opening.from + opening.width);
    let limits = (on.along.to_string(), format!("not from {} to {}", edges.0, edges.1));
    let remedy = "move it beside the opening";
    findings.push(fault(drawing, end, "place-in-opening", message, remedy, limits));
}

/// Within the wall that meets its own: there is no face.
fn in_a_corner(
    drawing: &Drawing<'_>,
    finished: &Faces,
    (end, on): (End, OnWall),
    findings: &mut Vec<Finding>,
) {
    let Some(wall) = drawing.plan.walls.get(&on.wall) else { return };
    let is_past = on.along < Mm::ZERO || on.along.to_f64() > wall.length() + 0.5;
    if is_past || finished.piece_of(&on).is_some() {
        return;
    }
    let Some((piece, across)) = finished.nearest(&on) else { return };
    let corner = if across * 2.0 > piece.length { piece.right } else { piece.left };
    let Some(met) = corner.with else { return };
    let past = piece.span_of(on.wall, on.face).map_or(0.0, |span| {
        let along = on.along.to_f64();
        (span.from - along).max(along - span.to)
    });
    let message =
        format!("{} is within wall {met}, where that meets wall {}", drawing.end(end), on.wall);
    let limits = (format!("{past:.0} mm past the corner"), "short of the corner".to_owned());
    let remedy = "move it along the wall, clear of the corner";
    let finding = fault(drawing, end, "place-in-corner", message, remedy, limits);
    findings.push(Finding { severity: Severity::Warning, ..finding });
}

fn on_a_screen(drawing: &Drawing<'_>, end: End, on: OnWall, findings: &mut Vec<Finding>) {
    let Some(wall) = drawing.plan.walls.get(&on.wall) else { return };
    if wall.build == WallBuild::Screen {
        let message =
            format!("{} is on wall {}, a screen that carries no cable", drawing.end(end), on.wall);
        let limits = (String::new(), String::new());
        let remedy = "put it on a wall that cables run in, or on a post";
        findings.push(fault(drawing, end, "place-on-screen", message, remedy, limits));
    }
}
