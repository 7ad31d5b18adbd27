//! Pieces of faces against the outlines of the walls.

use wirewend::sheet::{House, wall_views};

use super::Job;
use super::judge::OFF;
use super::outline::{Body, Outlines};

/// Every piece is as long as it is clear, and every side of an outline is
/// found by a piece.
pub(super) fn pieces(job: &Job, house: &House<'_>) -> Vec<String> {
    let outlines = Outlines::of(&job.plan);
    let views = wall_views(house);
    let mut found = Vec::new();
    for view in &views {
        for span in &view.piece.spans {
            let middle = f64::midpoint(span.from, span.to);
            let said = format!("{} of {} {:?}", view.piece.name, span.wall, span.side);
            let Some(run) = outlines.run(&job.plan, (span.wall, span.side), middle) else {
                found.push(format!("no face there: {said}: {:?}", view.piece));
                continue;
            };
            let clear = run.left + run.right;
            if (clear - view.piece.length).abs() > OFF {
                found.push(format!("clear {clear:.2}, not {:.2}: {said}", view.piece.length));
            }
            if (run.left - span.across(middle)).abs() > OFF {
                found.push(format!("{:.2} from the left: {said}", run.left));
            }
        }
    }
    for level in job.plan.levels.keys() {
        for (from, to) in outlines.sides(*level) {
            let middle = (f64::midpoint(from.0, to.0), f64::midpoint(from.1, to.1));
            let on = |one: &wirewend::plan::Span| {
                let body = Body::of(&job.plan.walls[&one.wall]);
                let (a, b) = (body.on_face(one.from, one.side), body.on_face(one.to, one.side));
                let step = (b.0 - a.0, b.1 - a.1);
                let length = libm::hypot(step.0, step.1);
                let off = (middle.0 - a.0, middle.1 - a.1);
                let along = (off.0 * step.0 + off.1 * step.1) / length;
                let away = (off.0 * step.1 - off.1 * step.0).abs() / length;
                away < 2.0 && -1.0 <= along && along <= length + 1.0
            };
            let mut pieces = views.iter().filter(|view| view.piece.level == *level);
            let known = pieces.any(|view| view.piece.spans.iter().any(on));
            // The bare end of a wall, a step: no longer than a wall is thick.
            let thickest =
                job.plan.walls.values().map(|wall| wall.thickness.to_f64()).fold(0.0, f64::max);
            let length = libm::hypot(to.0 - from.0, to.1 - from.1);
            if !known && length > thickest + 1.0 {
                found.push(format!("no piece along {from:?} to {to:?}"));
            }
        }
    }
    found
}
