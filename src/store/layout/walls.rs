//! The walls of a layout, brought together at their corners.

use super::form::{FormLevel, FormWall};
use super::{LayoutOptions, LayoutReport, NoteKind, next_id, stray};
use crate::plan::{LevelId, Plan, Wall, WallBuild, WallId};
use crate::units::{Mm, Point2};

/// A shorter piece is the residue of cutting footprints into pieces, mm.
const LENGTH_MIN: f64 = 20.0;
/// A thinner piece is a pane, a panel or a line: nothing can run in it, mm.
const THICKNESS_MIN: Mm = Mm::new(40);
/// Every wall is drawn at least this thick, mm.
const THICKNESS_DRAWN: Mm = Mm::new(10);
/// Gaps up to this are the source's rounding and not a gap, mm.
const GAP_MAX: f64 = 20.0;
/// Ends that are this close after snapping are one corner, mm.
const CORNER_MAX: f64 = 5.0;
/// Below this sine walls run beside each other rather than meet.
const SINE_MIN: f64 = 0.3;

/// Adds the walls of a level; for each of the layout's walls, which it became.
pub(super) fn add(
    plan: &mut Plan,
    level: LevelId,
    form: &FormLevel,
    options: &LayoutOptions,
    report: &mut LayoutReport,
) -> Vec<Option<WallId>> {
    let ceiling = plan.levels[&level].height;
    let walls = &form.walls;
    let strays = stray::strays(form);
    let ends = gathered(&snapped(walls, GAP_MAX));
    let mut ids: Vec<Option<WallId>> = Vec::with_capacity(walls.len());
    for ((wall, ends), stray) in walls.iter().zip(&ends).zip(strays) {
        let part = || wall.part.clone();
        let [a, b] = *ends;
        if stray {
            report.note(NoteKind::LeftOut, part(), "a stray piece, away from the building");
            ids.push(None);
            continue;
        }
        if a.distance(b) < LENGTH_MIN {
            report.note(NoteKind::LeftOut, part(), "shorter than 20 mm");
            ids.push(None);
            continue;
        }
        if let Some(twin) = twin_of(&ends_so_far(&ids, plan), a, b) {
            report.note(NoteKind::LeftOut, part(), "a wall already lies there");
            ids.push(Some(twin));
            continue;
        }
        let moved = wall.a.distance(a).max(wall.b.distance(b));
        if moved > 0.0 {
            let message = format!("an end moved by {moved:.0} mm to the wall that it meets");
            report.note(NoteKind::Changed, part(), message);
        }
        let build = build(wall, ceiling, options);
        if build == WallBuild::Screen && wall.kind != "railing" {
            report.note(NoteKind::Changed, part(), "too thin or too low for cables: a screen");
        }
        let id = WallId(next_id(plan));
        let thickness = wall.thickness.max(THICKNESS_DRAWN);
        plan.walls.insert(id, Wall { level, a, b, thickness, build, insulated: false, wet: None });
        ids.push(Some(id));
    }
    ids
}

fn build(wall: &FormWall, ceiling: Mm, options: &LayoutOptions) -> WallBuild {
    let low = wall.height.is_some_and(|height| wall.base + height < ceiling.half());
    match wall.kind.as_str() {
        "railing" => WallBuild::Screen,
        _ if low || wall.thickness < THICKNESS_MIN => WallBuild::Screen,
        "column" => WallBuild::Concrete,
        _ if wall.thickness >= options.thick_from => options.thick,
        _ => options.thin,
    }
}

fn ends_so_far(ids: &[Option<WallId>], plan: &Plan) -> Vec<(WallId, Point2, Point2)> {
    ids.iter()
        .flatten()
        .filter_map(|id| plan.walls.get(id).map(|wall| (*id, wall.a, wall.b)))
        .collect()
}

/// The wall that already lies between two places.
fn twin_of(walls: &[(WallId, Point2, Point2)], a: Point2, b: Point2) -> Option<WallId> {
    let same = |(_, c, d): &&(WallId, Point2, Point2)| (*c, *d) == (a, b) || (*c, *d) == (b, a);
    walls.iter().find(same).map(|(id, _, _)| *id)
}

/// Every wall with its ends moved along itself to the centre line of a wall
/// that it touches: it may stop at that wall's face, reach through to the far
/// face, or miss it by a small gap.
pub(in crate::store) fn snapped(walls: &[FormWall], gap: f64) -> Vec<[Point2; 2]> {
    (0..walls.len())
        .map(|index| {
            let wall = &walls[index];
            let ends = [meeting(walls, index, wall.a, gap), meeting(walls, index, wall.b, gap)];
            if keeps_direction(wall, ends) { ends } else { [wall.a, wall.b] }
        })
        .collect()
}

/// A piece no longer than its neighbour is thick could turn round on itself.
fn keeps_direction(wall: &FormWall, [a, b]: [Point2; 2]) -> bool {
    let (old, new) = (wall.b - wall.a, b - a);
    let along = old.x.to_f64() * new.x.to_f64() + old.y.to_f64() * new.y.to_f64();
    along > 0.0 && a.distance(b) >= LENGTH_MIN
}

/// Where the end of a wall meets the centre line of the nearest wall that it
/// touches, or the end itself.
fn meeting(walls: &[FormWall], index: usize, end: Point2, gap: f64) -> Point2 {
    let mut best = (f64::INFINITY, end);
    for other in 0..walls.len() {
        if other == index || (walls[other].kind == "railing" && walls[index].kind != "railing") {
            continue;
        }
        if let Some(place) = touch(walls, [index, other], end, gap) {
            let moved = end.distance(place);
            if moved < best.0 {
                best = (moved, place);
            }
        }
    }
    best.1
}

/// Where two walls' centre lines cross, if the end of the one touches the
/// other there.
fn touch(walls: &[FormWall], [index, other]: [usize; 2], end: Point2, gap: f64) -> Option<Point2> {
    let (wall, met) = (&walls[index], &walls[other]);
    let (length, reach) = (met.a.distance(met.b), wall.thickness.to_f64() / 2.0 + gap);
    if length < LENGTH_MIN {
        return None;
    }
    let step = met.b - met.a;
    let (ux, uy) = (step.x.to_f64() / length, step.y.to_f64() / length);
    let from = end - met.a;
    let along = from.x.to_f64() * ux + from.y.to_f64() * uy;
    let off = from.y.to_f64() * ux - from.x.to_f64() * uy;
    let near = off.abs() <= met.thickness.to_f64() / 2.0 + gap
        && along >= -reach
        && along <= length + reach;
    // The same order for both walls, so that a corner is one place for both.
    let (first, second) = (&walls[index.min(other)], &walls[index.max(other)]);
    if near { crossing(first, second) } else { None }
}

/// Where the centre lines of two walls cross, to the nearest millimetre.
fn crossing(first: &FormWall, second: &FormWall) -> Option<Point2> {
    let vector = |wall: &FormWall| {
        let step = wall.b - wall.a;
        (step.x.to_f64(), step.y.to_f64())
    };
    let ((fx, fy), (sx, sy)) = (vector(first), vector(second));
    let cross = fx * sy - fy * sx;
    let lengths = libm::hypot(fx, fy) * libm::hypot(sx, sy);
    if lengths == 0.0 || cross.abs() < SINE_MIN * lengths {
        return None;
    }
    let gap = second.a - first.a;
    let share = (gap.x.to_f64() * sy - gap.y.to_f64() * sx) / cross;
    let (x, y) = (first.a.x.to_f64() + share * fx, first.a.y.to_f64() + share * fy);
    Some(Point2 { x: Mm::from_f64(x).ok()?, y: Mm::from_f64(y).ok()? })
}

/// Ends that lie within a few millimetres of an earlier end, moved onto it.
fn gathered(walls: &[[Point2; 2]]) -> Vec<[Point2; 2]> {
    let mut corners: Vec<Point2> = Vec::new();
    let mut gather = |end: Point2| {
        let near = corners.iter().find(|corner| corner.distance(end) <= CORNER_MAX);
        let corner = near.copied().unwrap_or(end);
        if near.is_none() {
            corners.push(end);
        }
        corner
    };
    walls
        .iter()
        .map(|ends| {
            let [a, b] = ends.map(&mut gather);
            // A piece of a few millimetres keeps its own ends.
            if a == b { *ends } else { [a, b] }
        })
        .collect()
}
