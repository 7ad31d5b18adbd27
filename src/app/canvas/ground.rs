//! What of the building is painted before the drawing itself: the level below,
//! areas, joists.

use iced::Color;
use iced::widget::canvas::Frame;
use kurbo::{Affine, BezPath, Point, Rect, Shape as _, Vec2};
use wirewend::plan::{AreaEffect, Plane, Subject, Wall};
use wirewend::session::Session;
use wirewend::session::ground::places::{around, exact};
use wirewend::session::state::{Camera, Step};
use wirewend::session::survey::wall_areas;
use wirewend::sheet::Weight;

use crate::app::canvas::lettering;
use crate::app::canvas::paint::{fill_path, path_of, stroke_path};
use crate::app::canvas::theme::Look;

/// Paints it.
pub(in crate::app) fn paint(frame: &mut Frame, session: &Session, look: &Look) {
    if session.sight.step() != Step::Survey {
        return;
    }
    if let Some(below) = session.below() {
        for wall in session.document.plan().walls.values().filter(|wall| wall.level == below) {
            fill_path(frame, &body(wall, session.sight.camera()), Color { a: 0.55, ..look.rule });
        }
    }
    voids(frame, session, look);
    areas(frame, session, look);
}

/// The outline of a wall on the screen.
fn body(wall: &Wall, camera: Camera) -> BezPath {
    let (a, b) = (exact(wall.a), exact(wall.b));
    let (x, y) = wall.direction();
    let half = Vec2::new(-y, x) * wall.thickness.to_f64() / 2.0;
    closed(&[a + half, b + half, b - half, a - half], camera)
}

fn closed(corners: &[Point], camera: Camera) -> BezPath {
    let mut path = BezPath::new();
    for (index, corner) in corners.iter().enumerate() {
        let at = camera.screen(*corner);
        if index == 0 { path.move_to(at) } else { path.line_to(at) }
    }
    path.close_path();
    path
}

/// Areas of the level's voids, hatched, with their names.
fn areas(frame: &mut Frame, session: &Session, look: &Look) {
    let Some(level) = session.sight.level().and_then(|id| session.document.plan().levels.get(&id))
    else {
        return;
    };
    let of_level = |wall| {
        session
            .document
            .plan()
            .walls
            .get(&wall)
            .is_some_and(|wall| Some(wall.level) == session.sight.level())
    };
    let here = |void| level.above.contains(&void) || level.below.contains(&void);
    for area in session.document.plan().areas.values() {
        let corners: Vec<Point> = match area.on {
            Plane::Void(void) if here(void) => area.outline.iter().map(|at| exact(*at)).collect(),
            Plane::Wall(wall) if of_level(wall) => {
                wall_areas::strip(session.document.plan(), area).unwrap_or_default()
            }
            _ => continue,
        };
        let (colour, way) = match area.effect {
            AreaEffect::KeepOut => (look.fault, Some(Vec2::new(1.0, 1.0))),
            AreaEffect::Percent(part) if part < 100 => (look.accent, None),
            AreaEffect::Percent(_) => (look.warning, Some(Vec2::new(1.0, -1.0))),
            AreaEffect::Barrier(_) => (look.warning, Some(Vec2::new(0.0, 1.0))),
        };
        let edge = closed(&corners, session.sight.camera());
        fill_path(frame, &edge, Color { a: 0.07, ..colour });
        stroke_path(frame, &edge, Color { a: 0.9, ..colour }, 1.4);
        let mut lines = BezPath::new();
        let spacing = session.sight.camera().reach(9.0);
        for (from, to) in way.into_iter().flat_map(|way| hatch(&corners, way, spacing)) {
            lines.move_to(session.sight.camera().screen(from));
            lines.line_to(session.sight.camera().screen(to));
        }
        stroke_path(frame, &lines, Color { a: 0.4, ..colour }, 1.0);
        if matches!(area.on, Plane::Wall(_)) {
            // No room for its name on a wall: its card has it.
            continue;
        }
        let middle = session.sight.camera().screen(around(&area.outline).center());
        let width = lettering::width(&area.name, 12.0);
        let onto = Affine::translate((middle.x - width / 2.0, middle.y + 4.0));
        let letters = lettering::set(&area.name, 12.0, Weight::Regular, onto);
        let ground = Rect::new(
            middle.x - width / 2.0 - 4.0,
            middle.y - 10.0,
            middle.x + width / 2.0 + 4.0,
            middle.y + 8.0,
        );
        fill_path(frame, &ground.to_path(0.1), Color { a: 0.85, ..look.paper });
        frame.fill(&path_of(&letters), colour);
    }
}

/// The joists of the chosen void and the edge of what it covers.
fn voids(frame: &mut Frame, session: &Session, look: &Look) {
    for void in session.selection.chosen().iter().filter_map(|subject| match subject {
        Subject::Void(id) => session.document.plan().voids.get(id),
        _ => None,
    }) {
        let corners: Vec<Point> = match &void.outline {
            Some(outline) => outline.iter().map(|at| exact(*at)).collect(),
            None => all_of_level(session),
        };
        if corners.len() < 3 {
            continue;
        }
        stroke_path(
            frame,
            &closed(&corners, session.sight.camera()),
            Color { a: 0.8, ..look.accent },
            1.6,
        );
        let Some(joists) = void.joists else { continue };
        let (cos, sin) = void.direction.cos_sin();
        let mut lines = BezPath::new();
        let spacing = joists.spacing.to_f64().max(session.sight.camera().reach(4.0));
        for (from, to) in hatch(&corners, Vec2::new(cos, sin), spacing) {
            lines.move_to(session.sight.camera().screen(from));
            lines.line_to(session.sight.camera().screen(to));
        }
        stroke_path(frame, &lines, Color { a: 0.45, ..look.accent }, 1.0);
    }
}

/// The box around the walls of the level.
fn all_of_level(session: &Session) -> Vec<Point> {
    let walls = session
        .document
        .plan()
        .walls
        .values()
        .filter(|wall| Some(wall.level) == session.sight.level());
    let ends: Vec<_> = walls.flat_map(|wall| [wall.a, wall.b]).collect();
    if ends.is_empty() {
        return Vec::new();
    }
    let all = around(&ends);
    [(all.x0, all.y0), (all.x1, all.y0), (all.x1, all.y1), (all.x0, all.y1)]
        .map(|(x, y)| Point::new(x, y))
        .to_vec()
}

/// Parallel lines across an outline, so far apart.
fn hatch(corners: &[Point], way: Vec2, spacing: f64) -> Vec<(Point, Point)> {
    const MOST: f64 = 400.0;
    let way = way / way.hypot().max(1e-9);
    let across = Vec2::new(-way.y, way.x);
    let offs = corners.iter().map(|corner| corner.to_vec2().dot(across));
    let (low, high) = offs
        .fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), off| (low.min(off), high.max(off)));
    let mut lines = Vec::new();
    if spacing <= 0.0 || (high - low) / spacing > MOST {
        return lines;
    }
    let mut off = libm::ceil(low / spacing) * spacing;
    while off < high {
        let next = corners.iter().cycle().skip(1);
        let mut hits: Vec<f64> = corners
            .iter()
            .zip(next)
            .filter_map(|(a, b)| {
                let (da, db) = (a.to_vec2().dot(across) - off, b.to_vec2().dot(across) - off);
                ((da < 0.0) != (db < 0.0))
                    .then(|| (*a + (*b - *a) * (da / (da - db))).to_vec2().dot(way))
            })
            .collect();
        hits.sort_by(f64::total_cmp);
        for pair in hits.chunks_exact(2) {
            let at = |along: f64| (across * off + way * along).to_point();
            lines.push((at(pair[0]), at(pair[1])));
        }
        off += spacing;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hatching_stays_inside() {
        let square = [(0.0, 0.0), (1000.0, 0.0), (1000.0, 1000.0), (0.0, 1000.0)];
        let square = square.map(|(x, y)| Point::new(x, y));
        let lines = hatch(&square, Vec2::new(0.0, 1.0), 300.0);
        let xs: Vec<f64> = lines.iter().map(|(from, _)| libm::round(from.x)).collect();
        assert_eq!(xs.len(), 3, "at 300, 600 and 900: {xs:?}");
        assert!(lines.iter().all(|(a, b)| (a.distance(*b) - 1000.0).abs() < 1e-6), "edge to edge");
    }
}
