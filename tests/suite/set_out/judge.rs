//! Every row of what is set out, measured again.

use wirewend::plan::{Edge, End, Face, Hand, Place, Plan, Plane, WallId};
use wirewend::sheet::{House, Marked, SetOutRow, set_out_rows};

use super::Job;
use super::outline::{Body, Outlines, Run};

/// What may be off, mm.
pub(super) const OFF: f64 = 1.0;

pub(super) fn rows(job: &Job, house: &House<'_>) -> Vec<String> {
    let rows = set_out_rows(house);
    let outlines = Outlines::of(&job.plan);
    let mut found: Vec<String> =
        rows.iter().filter_map(|row| complaint(job, &outlines, row)).collect();
    found.extend(missing(job, &rows));
    found
}

/// What is wrong with a row.
pub(super) fn complaint(job: &Job, outlines: &Outlines, row: &SetOutRow<'_>) -> Option<String> {
    match row.what {
        Marked::Box(end) => a_box(job, outlines, row, end),
        Marked::Cable { .. } => a_cable(job, outlines, row),
    }
}

fn a_box(job: &Job, outlines: &Outlines, row: &SetOutRow<'_>, end: End) -> Option<String> {
    let Some(Place::Wall(on)) = job.plan.place_of(end) else {
        return Some(format!("{end} is on no wall"));
    };
    if row.height != on.height {
        return Some(format!("{end}: {} high, not {}", row.height, on.height));
    }
    let name = job.plan.room_of(&Place::Wall(on)).map(|id| job.plan.rooms[&id].name.clone());
    if let Some(name) = name.filter(|name| *name != row.room) {
        return Some(format!("{end} is in {name}, not in {}", row.room));
    }
    let said = || format!("{end} on {} {:?} at {}: {row:?}", on.wall, on.face, on.along);
    let along = on.along.to_f64();
    let run = outlines.run(&job.plan, (on.wall, on.face), along);
    let Some(run) = run else {
        // No face there: it must say so.
        let is_told = row.towards.is_none() || row.distance.get() <= 2;
        return (!is_told).then(|| format!("no face under {}", said()));
    };
    if row.towards.is_none() {
        return (run.left.min(run.right) > 2.5).then(|| format!("a face under {}", said()));
    }
    let complaint = measured(&job.plan, (on.wall, on.face), along, run, row);
    complaint.map(|text| format!("{text}: {}", said()))
}

/// Whether the edge that a row names is where it says, and no other nearer.
fn measured(
    plan: &Plan,
    on: (WallId, Face),
    along: f64,
    run: Run,
    row: &SetOutRow<'_>,
) -> Option<String> {
    let distance = row.distance.to_f64();
    let sides = opening_sides(plan, on, along, run);
    // To the left counts positive.
    let claimed = match row.edge {
        Edge::Corner { end: Hand::Left, .. } => run.left,
        Edge::Corner { end: Hand::Right, .. } => -run.right,
        Edge::Opening { id, side } => {
            let own = sides.iter().filter(|one| one.0 == id).map(|one| one.1);
            let both: Vec<f64> = own.collect();
            let found = if side == Hand::Left {
                both.iter().copied().reduce(f64::max)
            } else {
                both.iter().copied().reduce(f64::min)
            };
            let Some(found) = found else { return Some(format!("no side of {id} there")) };
            found
        }
    };
    if (claimed.abs() - distance).abs() > OFF {
        return Some(format!("the tape says {:.2}", claimed.abs()));
    }
    let towards = if claimed >= 0.0 { Hand::Right } else { Hand::Left };
    if claimed.abs() > OFF && row.towards != Some(towards) {
        return Some(format!("it lies towards the {towards:?}"));
    }
    let corners = [run.left, run.right].into_iter();
    let nearest = corners.chain(sides.iter().map(|one| one.1.abs())).fold(f64::INFINITY, f64::min);
    // A side of an opening right in a corner is no edge of its own.
    (nearest + 2.5 < distance).then(|| format!("an edge is nearer, {nearest:.2} off"))
}

/// The sides of openings within a run: how far to the left of a place.
fn opening_sides(
    plan: &Plan,
    (wall, face): (WallId, Face),
    along: f64,
    run: Run,
) -> Vec<(wirewend::plan::OpeningId, f64)> {
    let body = Body::of(&plan.walls[&wall]);
    let place = body.on_face(along, face);
    let (x, y) = body.out(face);
    let left = (y, -x);
    let mut sides = Vec::new();
    for (id, opening) in &plan.openings {
        let own = &plan.walls[&opening.wall];
        if own.level != plan.walls[&wall].level || own.a == own.b {
            continue;
        }
        let other = Body::of(own);
        for at in [opening.from, opening.from + opening.width] {
            for side in [Face::Left, Face::Right] {
                let (u, v) = other.on_face(at.to_f64(), side);
                let off = (u - place.0, v - place.1);
                let aside = off.0 * left.0 + off.1 * left.1;
                let away = off.0 * x + off.1 * y;
                let same = {
                    let (a, b) = other.out(side);
                    a * x + b * y > 0.99
                };
                let inside = -run.right + 1.0 < aside && aside < run.left - 1.0;
                if same && away.abs() < 2.5 && inside {
                    sides.push((*id, aside));
                }
            }
        }
    }
    sides
}

/// A cable: both of its ends, from the runs and not from the row's own walls.
fn a_cable(job: &Job, outlines: &Outlines, row: &SetOutRow<'_>) -> Option<String> {
    let Marked::Cable { circuit, ends, is_upright } = row.what else { return None };
    let said = || format!("cable {} of {}: {row:?}", row.leg, row.piece.name);
    let Some((to, to_height)) = row.to else { return Some(format!("no other end: {}", said())) };
    let mut segments = job.runs.circuits[&circuit]
        .legs
        .iter()
        .filter(|leg| (leg.from, leg.to) == ends)
        .flat_map(|leg| &leg.route.segments);
    // One of the leg's pieces must lie where the row says.
    let lies = |segment: &wirewend::runs::Segment| {
        let Some(Plane::Wall(id)) = segment.plane else { return false };
        let Some(span) = row.piece.spans.iter().find(|span| span.wall == id) else { return false };
        let wall = &job.plan.walls[&id];
        let body = Body::of(wall);
        let level = &job.plan.levels[&wall.level];
        let high =
            |z: wirewend::units::Mm| (z - level.floor).to_f64().clamp(0.0, level.height.to_f64());
        let low = high(segment.from.z).min(high(segment.to.z));
        let top = high(segment.from.z).max(high(segment.to.z));
        let heights = [row.height.to_f64(), to_height.to_f64()];
        let same_height = (heights[0].min(heights[1]) - low).abs() < 1.5
            && (heights[0].max(heights[1]) - top).abs() < 1.5;
        let way = |at: wirewend::units::Point3| {
            let start = body.on_face(0.0, span.side);
            let (x, y) = (at.x.to_f64() - start.0, at.y.to_f64() - start.1);
            let step = body.on_face(1.0, span.side);
            x * (step.0 - start.0) + y * (step.1 - start.1)
        };
        let (from, until) = (way(segment.from), way(segment.to));
        let flat = (from - until).abs() < 2.0;
        if flat != is_upright || !same_height {
            return false;
        }
        let at = |along: f64| outlines.run(&job.plan, (id, span.side), along);
        if is_upright {
            return match (at(from), row.towards) {
                (None, None) => true,
                (Some(run), Some(_)) => {
                    measured(&job.plan, (id, span.side), from, run, row).is_none()
                }
                (Some(run), None) => run.left.min(run.right) < 2.5,
                (None, Some(_)) => row.distance.get() <= 2,
            };
        }
        // Sideways: both ends from the same corner; what is beyond the piece
        // is clipped to it.
        let middle = f64::midpoint(from.min(until).max(span.from), from.max(until).min(span.to));
        let Some(run) = at(middle) else { return false };
        let (Edge::Corner { end, .. }, Some(_)) = (row.edge, row.towards) else { return false };
        let sign = if span.side == Face::Left { -1.0 } else { 1.0 };
        let from_corner = |along: f64| {
            let right = (along - middle) * sign;
            let all = run.left + run.right;
            let off = if end == Hand::Left { run.left + right } else { run.right - right };
            off.clamp(0.0, all)
        };
        let truth = [from_corner(from), from_corner(until)];
        let told = [row.distance.to_f64(), to.to_f64()];
        let (a, b) = (truth[0].min(truth[1]), truth[0].max(truth[1]));
        (told[0].min(told[1]) - a).abs() <= OFF && (told[0].max(told[1]) - b).abs() <= OFF
    };
    (!segments.any(lies)).then(|| format!("no tape finds {}", said()))
}

/// Boxes and cables that no row gives.
fn missing(job: &Job, rows: &[SetOutRow<'_>]) -> Vec<String> {
    let mut found = Vec::new();
    let boards = job.plan.boards.iter().map(|(id, it)| (End::Board(*id), it.place));
    let points = job.plan.points.iter().map(|(id, it)| (End::Point(*id), it.place));
    for (end, place) in boards.chain(points) {
        let is_on = |on: wirewend::plan::OnWall| job.plan.walls.contains_key(&on.wall);
        if matches!(place, Some(Place::Wall(on)) if is_on(on)) {
            let count = rows.iter().filter(|row| row.what == Marked::Box(end)).count();
            if count != 1 {
                found.push(format!("{end} has {count} rows"));
            }
        }
    }
    for leg in job.runs.circuits.values().flat_map(|run| &run.legs) {
        let in_wall = leg.route.segments.iter().any(|one| {
            let Some(Plane::Wall(id)) = one.plane else { return false };
            let level = &job.plan.levels[&job.plan.walls[&id].level];
            let inside = |z: wirewend::units::Mm| z >= level.floor && z <= level.ceiling();
            one.from.distance(one.to) > 10.0 && inside(one.from.z) && inside(one.to.z)
        });
        let told = rows.iter().any(|row| {
            matches!(row.what, Marked::Cable { circuit, ends, .. }
                if circuit == leg.circuit && ends == (leg.from, leg.to))
        });
        if in_wall && !told {
            found.push(format!("leg {} to {} of {} has no row", leg.from, leg.to, leg.circuit));
        }
    }
    found
}
