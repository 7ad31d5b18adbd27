//! Places where a box can be: in corners, under windows, beside doors.

use wirewend::plan::*;
use wirewend::units::{Mm, Point2};

use super::shell::{House, Rect};

/// Free places of every kind.
#[derive(Default)]
pub(super) struct Spots {
    /// On inner faces of walls, low.
    pub(super) low: Vec<Place>,
    /// On inner faces of walls, at the height of a hand.
    pub(super) hand: Vec<Place>,
    /// On outer faces.
    pub(super) outside: Vec<Place>,
    /// On ceilings.
    pub(super) ceiling: Vec<Place>,
    /// On floors.
    pub(super) floor: Vec<Place>,
    /// On posts outdoors.
    pub(super) post: Vec<Place>,
}

pub(super) fn spots(plan: &Plan, house: &House) -> Spots {
    let mut spots = Spots::default();
    for (id, wall) in plan.walls.iter().filter(|(_, wall)| wall.build != WallBuild::Screen) {
        for face in [Face::Left, Face::Right] {
            for along in alongs(plan, *id, wall) {
                let outer = wall.wet == Some(face);
                for height in [300, 1100] {
                    let on = OnWall { wall: *id, along, height: Mm::new(height), face };
                    if !(is_clear(plan, &on) && (outer || sees_room(plan, &on))) {
                        continue;
                    }
                    let spots = match (outer, height) {
                        (true, _) => &mut spots.outside,
                        (_, 300) => &mut spots.low,
                        _ => &mut spots.hand,
                    };
                    spots.push(Place::Wall(on));
                }
            }
        }
    }
    for (level, inside) in &house.insides {
        let middle = middle(*inside);
        for at in [middle, nudged(middle, 250, 0), nudged(middle, 0, -200)] {
            spots.ceiling.push(Place::Ceiling(OnLevel { level: *level, at }));
        }
        let at = nudged(middle, 100, 100);
        spots.floor.push(Place::Floor(OnLevel { level: *level, at }));
    }
    let Rect { x1, y1, .. } = house.footprint;
    let level = house.levels[0];
    for (dx, dy) in [(1500, -500), (2500, 1000)] {
        let (at, height) = (Point2::new(x1 + dx, y1 + dy), Mm::new(500));
        spots.post.push(Place::Post(OnPost { level, at, height }));
    }
    spots
}

fn middle(rect: Rect) -> Point2 {
    let half = |low: i64, high: i64| low + (high - low).div_euclid(2);
    Point2::new(half(rect.x0, rect.x1), half(rect.y0, rect.y1))
}

fn nudged(at: Point2, x: i64, y: i64) -> Point2 {
    at + Point2::new(x, y)
}

/// Along a wall: in its corners, at its middle, at a few plain places, and
/// for each opening under it and as close beside it as a cable may lie.
fn alongs(plan: &Plan, id: WallId, wall: &Wall) -> Vec<Mm> {
    let length = Mm::from_f64(wall.length()).unwrap();
    let clear = plan.habits.opening_clearance;
    let mut alongs = vec![Mm::new(150), length - Mm::new(150), length.half()];
    alongs.extend((1..8).map(|step| Mm::new(step * 1370)));
    for opening in plan.openings.values().filter(|opening| opening.wall == id) {
        let far = opening.from + opening.width;
        alongs.extend([opening.from + opening.width.half(), opening.from - clear, far + clear]);
    }
    alongs.retain(|along| *along >= Mm::new(60) && *along + Mm::new(60) <= length);
    alongs.sort();
    alongs.dedup();
    alongs
}

/// Clear of every opening grown by the habit's clearance, and of keep-outs;
/// on the very edge is clear.
fn is_clear(plan: &Plan, on: &OnWall) -> bool {
    let clear = plan.habits.opening_clearance;
    let of_wall = |opening: &&Opening| opening.wall == on.wall;
    let openings = plan.openings.values().filter(of_wall).all(|opening| {
        on.along + clear <= opening.from
            || on.along >= opening.from + opening.width + clear
            || on.height + clear <= opening.sill
            || on.height >= opening.head + clear
    });
    let areas = plan.areas.values().filter(|area| area.on == Plane::Wall(on.wall)).all(|area| {
        let (low, high) = (area.outline[0], area.outline[2]);
        on.along <= low.x || on.along >= high.x || on.height <= low.y || on.height >= high.y
    });
    openings && areas
}

fn sees_room(plan: &Plan, on: &OnWall) -> bool {
    plan.room_of(&Place::Wall(*on)).is_some()
}
