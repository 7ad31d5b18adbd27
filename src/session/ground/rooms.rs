//! Rooms that close by themselves: the faces that walls enclose.

use std::collections::BTreeMap;

use kurbo::{Point, Vec2};

use crate::plan::{Change, Edit, LevelId, Plan, Room, RoomId, RoomUse, Wall, outline_holds};
use crate::session::ground::places::{exact, rounded};
use crate::units::Point2;

/// The smallest face that is a room, mm²: half a square metre.
const LEAST: f64 = 500_000.0;

/// These edits of walls, and what becomes of the rooms of their level: faces
/// that close become rooms, rooms that walls had closed follow them or go.
/// Outlines that were drawn otherwise stay as they are.
pub fn with_rooms(plan: &Plan, level: LevelId, mut edits: Vec<Edit>) -> Edit {
    let mut after = plan.clone();
    if after.apply(Edit::Many(edits.clone())).is_err() {
        return Edit::Many(edits);
    }
    let (old, mut new) = (faces(plan, level), faces(&after, level));
    let rooms: Vec<(RoomId, &Room)> = after
        .rooms
        .iter()
        .filter(|(_, room)| room.level == level)
        .map(|(id, r)| (*id, r))
        .collect();
    let mut moved = Vec::new();
    for (id, room) in &rooms {
        if let Some(same) = new.iter().position(|face| face == &room.outline) {
            new.remove(same);
        } else if old.contains(&room.outline) {
            moved.push((*id, *room));
        } else {
            new.retain(|face| {
                let inside = within(face);
                !outline_holds(&room.outline, inside.x, inside.y)
            });
        }
    }
    for (id, room) in moved {
        let home = new.iter().position(|face| {
            let (theirs, own) = (within(face), within(&room.outline));
            outline_holds(&room.outline, theirs.x, theirs.y) || outline_holds(face, own.x, own.y)
        });
        match home {
            Some(face) => {
                let outline = new.remove(face);
                edits.push(Change::Put(id, Room { outline, ..room.clone() }).into());
            }
            None => edits.push(Change::<RoomId, Room>::Remove(id).into()),
        }
    }
    let mut names = (1..).map(|count| format!("Room {count}"));
    let free = |name: &String| rooms.iter().all(|(_, room)| room.name != *name);
    for (next, outline) in (after.fresh_id()..).zip(new) {
        let name = names.by_ref().find(free).unwrap_or_default();
        let room = Room { level, name, usage: RoomUse::Other, outline };
        edits.push(Change::Put(RoomId(next), room).into());
    }
    Edit::Many(edits)
}

/// A piece of a wall between two places where walls meet.
#[derive(Clone, Copy)]
struct Side {
    to: Point2,
    half: f64,
}

/// The outlines that the walls of a level enclose, on their inner faces,
/// anticlockwise, each from its lowest corner on.
pub fn faces(plan: &Plan, level: LevelId) -> Vec<Vec<Point2>> {
    let walls: Vec<&Wall> =
        plan.walls.values().filter(|wall| wall.level == level && wall.a != wall.b).collect();
    let mut sides: BTreeMap<Point2, Vec<Side>> = BTreeMap::new();
    for wall in &walls {
        let half = wall.thickness.to_f64() / 2.0;
        for pair in joints(wall, &walls).windows(2) {
            sides.entry(pair[0]).or_default().push(Side { to: pair[1], half });
            sides.entry(pair[1]).or_default().push(Side { to: pair[0], half });
        }
    }
    for (at, around) in &mut sides {
        around.sort_by(|one, other| {
            angle(*at, one.to).total_cmp(&angle(*at, other.to)).then(one.to.cmp(&other.to))
        });
        around.dedup_by_key(|side| side.to);
    }
    prune(&mut sides);
    let mut faces = walk(&sides);
    faces.sort();
    faces
}

/// Where other walls meet a wall, its own ends included, in order along it.
fn joints(wall: &Wall, walls: &[&Wall]) -> Vec<Point2> {
    let (a, b) = (exact(wall.a), exact(wall.b));
    let along = b - a;
    let mut found: Vec<(f64, Point2)> = vec![(0.0, wall.a), (1.0, wall.b)];
    for other in walls {
        for end in [other.a, other.b] {
            let share = (exact(end) - a).dot(along) / along.hypot2();
            let foot = a + along * share;
            let near = foot.distance(exact(end)) <= wall.thickness.to_f64() / 2.0 + 20.0;
            let inner = share * along.hypot() > 1.0 && (1.0 - share) * along.hypot() > 1.0;
            if near && inner {
                found.push((share, end));
            }
        }
        let (c, d) = (exact(other.a), exact(other.b));
        let cross = along.cross(d - c);
        if cross.abs() > 1.0 {
            let share = (c - a).cross(d - c) / cross;
            let on_other = (c - a).cross(along) / cross;
            if (1e-6..=1.0 - 1e-6).contains(&share) && (1e-6..=1.0 - 1e-6).contains(&on_other) {
                found.push((share, rounded(a + along * share)));
            }
        }
    }
    found.sort_by(|one, other| one.0.total_cmp(&other.0).then(one.1.cmp(&other.1)));
    let mut places: Vec<Point2> = found.into_iter().map(|(_, at)| at).collect();
    places.dedup();
    places
}

fn angle(from: Point2, to: Point2) -> f64 {
    let way = exact(to) - exact(from);
    libm::atan2(way.y, way.x)
}

/// Takes away walls that end in the open: they enclose nothing.
fn prune(sides: &mut BTreeMap<Point2, Vec<Side>>) {
    while let Some((at, to)) =
        sides.iter().find(|(_, around)| around.len() == 1).map(|(at, around)| (*at, around[0].to))
    {
        sides.remove(&at);
        if let Some(around) = sides.get_mut(&to) {
            around.retain(|side| side.to != at);
        }
        sides.retain(|_, around| !around.is_empty());
    }
}

/// Goes around every face with its inside on the left.
fn walk(sides: &BTreeMap<Point2, Vec<Side>>) -> Vec<Vec<Point2>> {
    let mut seen: std::collections::BTreeSet<(Point2, Point2)> = std::collections::BTreeSet::new();
    let mut faces = Vec::new();
    for (start, around) in sides {
        for first in around {
            let mut corners: Vec<(Point2, f64)> = Vec::new();
            let (mut at, mut side) = (*start, *first);
            while seen.insert((at, side.to)) {
                corners.push((at, side.half));
                let Some(turns) = sides.get(&side.to) else { break };
                // The next to the right of the way back keeps the face left.
                let back = turns.iter().position(|turn| turn.to == at).unwrap_or(0);
                at = side.to;
                side = turns[(back + turns.len() - 1) % turns.len()];
            }
            let outline = inset(&corners);
            if area(&corners) >= LEAST && outline.len() >= 3 {
                faces.push(outline);
            }
        }
    }
    faces
}

fn area(corners: &[(Point2, f64)]) -> f64 {
    let next = corners.iter().cycle().skip(1);
    let twice: f64 = corners
        .iter()
        .zip(next)
        .map(|((a, _), (b, _))| exact(*a).to_vec2().cross(exact(*b).to_vec2()))
        .sum();
    twice / 2.0
}

/// The inner faces of a loop of walls.
fn inset(corners: &[(Point2, f64)]) -> Vec<Point2> {
    let count = corners.len();
    let mut outline = Vec::new();
    for index in 0..count {
        let (before, at, after) =
            (corners[(index + count - 1) % count], corners[index], corners[(index + 1) % count]);
        let into = |from: Point2, to: Point2| {
            let way = exact(to) - exact(from);
            let length = way.hypot().max(1.0);
            (way / length, Vec2::new(-way.y, way.x) / length)
        };
        let (way, left) = into(before.0, at.0);
        let (way_on, left_on) = into(at.0, after.0);
        let (p, q) = (exact(at.0) + left * before.1, exact(at.0) + left_on * at.1);
        let cross = way.cross(way_on);
        if cross.abs() < 1e-3 {
            if (before.1 - at.1).abs() > 0.5 {
                outline.extend([rounded(p), rounded(q)]);
            }
        } else {
            outline.push(rounded(p + way * ((q - p).cross(way_on) / cross)));
        }
    }
    let lowest = (0..outline.len()).min_by_key(|index| outline[*index]).unwrap_or(0);
    outline.rotate_left(lowest);
    outline
}

/// A place inside an outline: beside the middle of its longest edge.
fn within(outline: &[Point2]) -> Point {
    let next = outline.iter().cycle().skip(1);
    let edges = outline.iter().zip(next).map(|(a, b)| (exact(*a), exact(*b)));
    let longest =
        edges.max_by(|one, other| one.0.distance(one.1).total_cmp(&other.0.distance(other.1)));
    let Some((a, b)) = longest else { return Point::ORIGIN };
    let way = b - a;
    let aside = Vec2::new(-way.y, way.x) / way.hypot().max(1.0) * 50.0;
    let (one, other) = (a.midpoint(b) + aside, a.midpoint(b) - aside);
    if outline_holds(outline, one.x, one.y) { one } else { other }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{WallBuild, WallId};
    use crate::units::Mm;

    fn walls(lines: &[[i64; 4]]) -> Plan {
        let mut plan = crate::session::ground::blank::plan();
        let level = *plan.levels.keys().next().expect("a level");
        for line in lines {
            let id = WallId(plan.fresh_id());
            let wall = Wall {
                level,
                a: Point2::new(line[0], line[1]),
                b: Point2::new(line[2], line[3]),
                thickness: Mm::new(100),
                build: WallBuild::Stud,
                insulated: false,
                wet: None,
            };
            let edit = with_rooms(&plan, level, vec![Change::Put(id, wall).into()]);
            plan.apply(edit).expect("a wall can be drawn");
        }
        plan
    }

    const BOX: [[i64; 4]; 4] =
        [[0, 0, 6000, 0], [6000, 0, 6000, 4000], [6000, 4000, 0, 4000], [0, 4000, 0, 0]];

    #[test]
    fn four_walls_close_a_room_on_their_inner_faces() {
        assert!(walls(&BOX[..3]).rooms.is_empty(), "three walls close nothing");
        let plan = walls(&BOX);
        let outlines: Vec<_> = plan.rooms.values().map(|room| room.outline.clone()).collect();
        let inner = [(50, 50), (5950, 50), (5950, 3950), (50, 3950)];
        assert_eq!(outlines, vec![inner.map(|(x, y)| Point2::new(x, y)).to_vec()]);
    }

    #[test]
    fn a_wall_across_makes_two_rooms_of_one_and_keeps_its_name() {
        let mut lines = BOX.to_vec();
        lines.push([2000, 0, 2000, 4000]);
        let plan = walls(&lines);
        assert_eq!(plan.rooms.len(), 2, "{:?}", plan.rooms);
        assert!(plan.rooms.values().any(|room| room.name == "Room 1"), "the first room stays");
        // Two that cross make four; one that ends in the open makes none.
        lines.extend([[0, 2000, 6000, 2000], [4000, 0, 4000, 1000]]);
        let plan = walls(&lines);
        let mut names: Vec<&str> = plan.rooms.values().map(|room| room.name.as_str()).collect();
        names.sort_unstable();
        assert_eq!(names, ["Room 1", "Room 2", "Room 3", "Room 4"]);
    }
}
