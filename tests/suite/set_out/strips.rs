//! Strips not to drill in against the cables.

use wirewend::plan::{Face, Plane};
use wirewend::sheet::{House, KEEP_OFF, wall_views};

use super::Job;
use super::judge::OFF;
use super::outline::{Body, Outlines};

/// From whichever face one drills into a wall: an upright or level cable lies
/// in a strip with all that is 50 mm around it, as a tape has it from the corner.
pub(super) fn strips(job: &Job, house: &House<'_>) -> Vec<String> {
    let outlines = Outlines::of(&job.plan);
    let views = wall_views(house);
    let mut found = Vec::new();
    let legs = job.runs.circuits.values().flat_map(|run| &run.legs);
    for (leg, segment) in legs.flat_map(|leg| leg.route.segments.iter().map(move |one| (leg, one)))
    {
        let Some(Plane::Wall(id)) = segment.plane else { continue };
        let wall = &job.plan.walls[&id];
        let level = &job.plan.levels[&wall.level];
        let body = Body::of(wall);
        let place = |at: wirewend::units::Point3| {
            let (from, to) = (body.on_face(0.0, Face::Left), body.on_face(1.0, Face::Left));
            let (x, y) = (at.x.to_f64() - from.0, at.y.to_f64() - from.1);
            let along = x * (to.0 - from.0) + y * (to.1 - from.1);
            (along, (at.z - level.floor).to_f64().clamp(0.0, level.height.to_f64()))
        };
        let (from, to) = (place(segment.from), place(segment.to));
        if libm::hypot(from.0 - to.0, from.1 - to.1) < 1.5 {
            continue;
        }
        for side in [Face::Left, Face::Right] {
            for share in [0.0, 0.25, 0.5, 0.75, 1.0] {
                let along = from.0 + (to.0 - from.0) * share;
                let up = from.1 + (to.1 - from.1) * share;
                let Some(run) = outlines.run(&job.plan, (id, side), along) else { continue };
                let (left, all) = (run.left, run.left + run.right);
                let own = views.iter().filter(|view| {
                    let mut spans = view.piece.spans.iter();
                    spans.any(|one| one.wall == id && one.side == side && one.holds(along))
                });
                let covered = own.flat_map(|view| view.strips()).any(|strip| {
                    strip.x0 <= (left - KEEP_OFF).max(0.0) + OFF
                        && strip.x1 >= (left + KEEP_OFF).min(all) - OFF
                        && strip.y0 <= (up - KEEP_OFF).max(0.0) + OFF
                        && strip.y1 >= (up + KEEP_OFF).min(level.height.to_f64()) - OFF
                });
                if !covered {
                    let name = format!("{} to {} of {}", leg.from, leg.to, leg.circuit);
                    found.push(format!("{name}: bare in {id} {side:?} at {left:.1}, {up:.1} up"));
                }
            }
        }
    }
    found
}
