//! What stands in the rooms of a layout: sinks, baths, benches of kitchens.
//!
//! A layout says where something stands, not how large it is nor which way it
//! is turned. So the walls of the same room that come within a common reach of
//! it are marked, each by an area with the name of the thing: the checks and
//! the draft keep boxes away from there, or look for a bench. Cables may pass.

use super::form::FormFixture;
use super::{LayoutReport, NoteKind, next_id};
use crate::plan::{
    Area, AreaEffect, AreaId, Face, LevelId, Plan, Plane, RoomId, WallBuild, WallId, outline_holds,
};
use crate::units::{Mm, Point2};

/// From the middle of a thing to what its user touches, mm: *common practice*.
const REACH: [(&str, &str, f64); 8] = [
    ("sink", "sink", 450.0),
    ("basin", "sink", 450.0),
    ("bathtub", "bath", 900.0),
    ("bath", "bath", 900.0),
    ("shower", "shower", 700.0),
    ("toilet", "toilet", 400.0),
    ("kitchen", "kitchen bench", 900.0),
    ("cooktop", "cooktop", 400.0),
];
/// What rooms tell already.
const PASSED: [&str; 3] = ["shaft", "stairs", "elevator"];
/// A shorter stretch of wall is not marked, mm.
const LENGTH_MIN: f64 = 100.0;
/// Off the face into the room, mm.
const OFF: f64 = 60.0;
/// As high as the things stand, mm.
const HEIGHT: Mm = Mm::new(900);

/// Marks the walls beside the things on a level.
pub(super) fn add(
    plan: &mut Plan,
    level: LevelId,
    fixtures: &[FormFixture],
    report: &mut LayoutReport,
) {
    for fixture in fixtures {
        let kind = fixture.kind.to_lowercase();
        if PASSED.contains(&kind.as_str()) {
            continue;
        }
        let part = fixture.part.clone();
        let Some((_, name, reach)) = REACH.iter().find(|(word, ..)| *word == kind) else {
            report.note(NoteKind::LeftOut, part, format!("\"{}\" is not known", fixture.kind));
            continue;
        };
        let beside = beside(plan, level, fixture.at, *reach);
        if beside.is_empty() {
            report.note(NoteKind::LeftOut, part, format!("no wall of its room is near the {name}"));
            continue;
        }
        let message = format!(
            "the layout does not say how large the {name} is: {reach:.0} mm around it taken, on {} wall{}",
            beside.len(),
            if beside.len() == 1 { "" } else { "s" },
        );
        report.note(NoteKind::Assumed, part, message);
        for (wall, from, to) in beside {
            let id = AreaId(next_id(plan));
            let corner = |along, height| Point2 { x: along, y: height };
            let outline = vec![
                corner(from, Mm::ZERO),
                corner(to, Mm::ZERO),
                corner(to, HEIGHT),
                corner(from, HEIGHT),
            ];
            let (name, on) = ((*name).to_owned(), Plane::Wall(wall));
            plan.areas.insert(id, Area { name, on, outline, effect: AreaEffect::Percent(100) });
        }
    }
}

/// Stretches of walls that look into the room of a place, within a reach.
fn beside(plan: &Plan, level: LevelId, at: Point2, reach: f64) -> Vec<(WallId, Mm, Mm)> {
    let Some(room) = room_at(plan, level, at.x.to_f64(), at.y.to_f64()) else { return Vec::new() };
    let mut found = Vec::new();
    for (id, wall) in &plan.walls {
        if wall.level != level || wall.build == WallBuild::Screen {
            continue;
        }
        let (dx, dy) = wall.direction();
        let (px, py) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
        let along = px * dx + py * dy;
        let face = if py * dx - px * dy > 0.0 { Face::Left } else { Face::Right };
        let half = wall.thickness.to_f64() / 2.0;
        let off = ((py * dx - px * dy).abs() - half).max(0.0);
        if off >= reach {
            continue;
        }
        let half_chord = libm::sqrt(reach * reach - off * off);
        let from = (along - half_chord).max(0.0);
        let to = (along + half_chord).min(wall.length());
        if to - from < LENGTH_MIN {
            continue;
        }
        let (nx, ny) = wall.normal(face);
        let middle = f64::midpoint(from, to);
        let (x, y) = (
            wall.a.x.to_f64() + dx * middle + nx * (half + OFF),
            wall.a.y.to_f64() + dy * middle + ny * (half + OFF),
        );
        if room_at(plan, level, x, y) != Some(room) {
            continue;
        }
        if let (Ok(from), Ok(to)) = (Mm::from_f64(libm::ceil(from)), Mm::from_f64(libm::floor(to)))
        {
            found.push((*id, from, to));
        }
    }
    found
}

fn room_at(plan: &Plan, level: LevelId, x: f64, y: f64) -> Option<RoomId> {
    let holds =
        |room: &crate::plan::Room| room.level == level && outline_holds(&room.outline, x, y);
    plan.rooms.iter().find(|(_, room)| holds(room)).map(|(id, _)| *id)
}
