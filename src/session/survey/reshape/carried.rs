//! What stands on a wall goes with it when its ends go elsewhere.

use std::collections::BTreeMap;

use kurbo::Vec2;

use crate::plan::{
    Area, Board, Change, Edit, LevelId, OnWall, Opening, Place, Plan, Plane, Room, Wall, WallId,
};
use crate::session::ground::places::{exact, rounded};
use crate::session::ground::rooms;
use crate::units::{Mm, Point2};

/// Where the two ends of walls go.
pub(crate) type Ends = BTreeMap<WallId, (Point2, Point2)>;

/// The shortest wall that is left, mm.
const LEAST: f64 = 50.0;
/// How far from a wall's face the edge of a room may lie and still be its own, mm.
const LOOSE: f64 = 60.0;

/// The edit that gives walls other ends: openings, points, boards and areas
/// stay where they are in the house as far as their wall reaches, rooms close
/// again. Why not, where something would not fit any more.
pub(crate) fn edit(plan: &Plan, level: LevelId, ends: &Ends) -> Result<Edit, String> {
    let mut edits: Vec<Edit> = Vec::new();
    for (id, (a, b)) in ends {
        let Some(old) = plan.walls.get(id) else { continue };
        let new = Wall { a: *a, b: *b, ..old.clone() };
        let (was, is) = (exact(old.b) - exact(old.a), exact(*b) - exact(*a));
        if is.hypot() < LEAST || was.dot(is) <= 0.0 {
            return Err("a wall would be too short; delete it instead".to_owned());
        }
        on_wall(plan, *id, old, &new, &mut edits)?;
        edits.push(Change::Put(*id, new).into());
    }
    edits.extend(loose_rooms(plan, level, ends));
    Ok(rooms::with_rooms(plan, level, edits))
}

/// Everything on a wall, where it is along the new one.
fn on_wall(
    plan: &Plan,
    id: WallId,
    old: &Wall,
    new: &Wall,
    edits: &mut Vec<Edit>,
) -> Result<(), String> {
    let shift = shift_along(old, new);
    let reach = libm::floor(new.length());
    let moved = |along: Mm, most: f64| whole((along.to_f64() + shift).clamp(0.0, most.max(0.0)));
    for (opening_id, opening) in plan.openings.iter().filter(|(_, one)| one.wall == id) {
        let most = reach - opening.width.to_f64();
        if most < 0.0 {
            return Err("a door or a window would not fit any more".to_owned());
        }
        let from = moved(opening.from, most);
        if from != opening.from {
            edits.push(Change::Put(*opening_id, Opening { from, ..opening.clone() }).into());
        }
    }
    let carried = |place: Option<Place>| match place {
        Some(Place::Wall(on)) if on.wall == id => {
            let along = moved(on.along, reach);
            (along != on.along).then_some(Some(Place::Wall(OnWall { along, ..on })))
        }
        _ => None,
    };
    for (point_id, point) in &plan.points {
        if let Some(place) = carried(point.place) {
            let point = crate::plan::Point { place, ..point.clone() };
            edits.push(Change::Put(*point_id, point).into());
        }
    }
    for (board_id, board) in &plan.boards {
        if let Some(place) = carried(board.place) {
            edits.push(Change::Put(*board_id, Board { place, ..board.clone() }).into());
        }
    }
    for (area_id, area) in &plan.areas {
        let by = whole(shift);
        if area.on == Plane::Wall(id) && by != Mm::ZERO {
            let outline = area.outline.iter().map(|at| Point2 { x: at.x + by, y: at.y }).collect();
            edits.push(Change::Put(*area_id, Area { outline, ..area.clone() }).into());
        }
    }
    Ok(())
}

/// What is added to a distance along the old wall so that it means the same
/// place on the new one: with both ends moved, how far `a` slid along the wall;
/// with one, the other keeps its distances.
fn shift_along(old: &Wall, new: &Wall) -> f64 {
    if old.a == new.a {
        return 0.0;
    }
    if old.b == new.b {
        return new.length() - old.length();
    }
    let (x, y) = old.direction();
    -(exact(new.a) - exact(old.a)).dot(Vec2::new(x, y))
}

/// Rooms whose outlines are not the faces of walls: their corners beside what
/// moves go along.
fn loose_rooms(plan: &Plan, level: LevelId, ends: &Ends) -> Vec<Edit> {
    let faces = rooms::faces(plan, level);
    let mut edits = Vec::new();
    let rooms = plan.rooms.iter().filter(|(_, room)| room.level == level);
    for (id, room) in rooms.filter(|(_, room)| !faces.contains(&room.outline)) {
        let outline: Vec<Point2> =
            room.outline.iter().map(|corner| followed(plan, ends, *corner)).collect();
        if outline != room.outline {
            edits.push(Change::Put(*id, Room { outline, ..room.clone() }).into());
        }
    }
    edits
}

/// Where a corner goes that lies beside a wall that moves: across every such
/// wall as far as that goes there.
fn followed(plan: &Plan, ends: &Ends, corner: Point2) -> Point2 {
    let at = exact(corner);
    let mut to = at;
    for (id, (a, b)) in ends {
        let Some(old) = plan.walls.get(id) else { continue };
        let (x, y) = old.direction();
        let (way, from) = (Vec2::new(x, y), exact(old.a));
        let near = old.thickness.to_f64() / 2.0 + LOOSE;
        let (along, off) = ((at - from).dot(way), way.cross(at - from));
        if off.abs() > near || along < -near || along > old.length() + near {
            continue;
        }
        let share = (along / old.length().max(1.0)).clamp(0.0, 1.0);
        let (sa, sb) = (exact(*a) - from, exact(*b) - exact(old.b));
        let across = Vec2::new(-way.y, way.x);
        to += across * (sa + (sb - sa) * share).dot(across);
    }
    rounded(to)
}

fn whole(value: f64) -> Mm {
    Mm::from_f64(value).unwrap_or(Mm::ZERO)
}
