//! Points, circuits and a board for a bare layout, by simple means, so that
//! tests can route houses that nobody here drew.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails by panicking")]

use wirewend::plan::*;
use wirewend::units::{Amps, Csa, Mm, Point2};

/// From box to box along a wall, mm.
const SPACING: i64 = 2600;
/// The most sockets in a room.
const SOCKETS_MAX: usize = 6;
/// The most points on a circuit, switches not counted.
const POINTS_MAX: usize = 10;
/// From a box to the end of its wall or to an opening, mm.
const CLEAR: i64 = 150;
/// A level that is lower is no place to live in, mm.
const HEIGHT_MIN: i64 = 2000;

/// A free place on a wall, and the room that it looks into.
#[derive(Clone, Copy)]
struct Spot {
    on: OnWall,
    room: Option<RoomId>,
}

/// The same plan with a board, sockets, lights and switches. The same layout
/// gives the same plan.
pub(crate) fn furnished(mut plan: Plan) -> Plan {
    let spots = spots(&plan);
    let Some(board) = board(&mut plan, &spots) else { return plan };
    let sockets = sockets(&plan, &spots);
    for group in sockets.chunks(POINTS_MAX) {
        let circuit = circuit(&mut plan, board, CircuitUse::Sockets);
        for spot in group {
            point(&mut plan, circuit, PointKind::Socket, wall_place(spot, 300));
        }
    }
    let lit = lit(&plan, &spots);
    for group in lit.chunks(POINTS_MAX) {
        let circuit = circuit(&mut plan, board, CircuitUse::Lighting);
        for (kind, place, switch) in group {
            let light = point(&mut plan, circuit, *kind, *place);
            if let Some(switch) = switch {
                let switch = point(&mut plan, circuit, PointKind::Switch, wall_place(switch, 1100));
                let id = ControlId(next_id(&mut plan));
                let (lights, switches) = (vec![light], vec![switch]);
                plan.controls.insert(id, Control { lights, switches, in_order: false });
            }
        }
    }
    plan
}

fn next_id(plan: &mut Plan) -> u32 {
    plan.next_id += 1;
    plan.next_id - 1
}

fn wall_place(spot: &Spot, height: i64) -> Place {
    Place::Wall(OnWall { height: Mm::new(height), ..spot.on })
}

/// Every 100 mm along every face that looks into a room, clear of openings
/// and ends; on a level without rooms, along every face.
fn spots(plan: &Plan) -> Vec<Spot> {
    let mut spots = Vec::new();
    for (id, wall) in &plan.walls {
        if wall.build == WallBuild::Screen || !lived_in(plan, wall.level) {
            continue;
        }
        let has_rooms =
            plan.rooms.values().any(|room| room.level == wall.level && !room.outline.is_empty());
        for face in [Face::Left, Face::Right] {
            let mut along = CLEAR;
            while Mm::new(along + CLEAR).to_f64() <= wall.length() {
                let on = OnWall { wall: *id, along: Mm::new(along), height: Mm::new(300), face };
                let room = plan.room_of(&Place::Wall(on));
                if is_clear(plan, *id, along) && (room.is_some() || !has_rooms) {
                    spots.push(Spot { on, room });
                }
                along += 100;
            }
        }
    }
    spots
}

fn lived_in(plan: &Plan, level: LevelId) -> bool {
    plan.levels[&level].height >= Mm::new(HEIGHT_MIN)
}

fn is_clear(plan: &Plan, wall: WallId, along: i64) -> bool {
    plan.openings.values().filter(|opening| opening.wall == wall).all(|opening| {
        along + CLEAR <= opening.from.get() || along >= (opening.from + opening.width).get() + CLEAR
    })
}

/// A board as near as can be to the first door that leads out of all rooms.
fn board(plan: &mut Plan, spots: &[Spot]) -> Option<BoardId> {
    let entrance = plan
        .openings
        .values()
        .filter(|opening| opening.kind == OpeningKind::Door)
        .find(|opening| {
            let middle = opening.from + opening.width.half();
            let side = |face| {
                let on = OnWall { wall: opening.wall, along: middle, height: Mm::ZERO, face };
                plan.room_of(&Place::Wall(on)).is_some()
            };
            side(Face::Left) != side(Face::Right)
        })
        .map(|opening| {
            let middle = opening.from + opening.width.half();
            plan.walls[&opening.wall].at(middle.to_f64())
        });
    let from = |spot: &&Spot| {
        let at = plan.walls[&spot.on.wall].at(spot.on.along.to_f64());
        Mm::from_f64(entrance.map_or(0.0, |door| door.distance(at))).unwrap()
    };
    let spot = spots.iter().min_by_key(from)?;
    let id = BoardId(next_id(plan));
    let place = Some(wall_place(spot, 1500));
    plan.boards
        .insert(id, Board { label: String::new(), place, supply: Supply::default(), ways: None });
    Some(id)
}

/// Spots spaced out along each face and spread over the rooms, room by room.
fn sockets(plan: &Plan, spots: &[Spot]) -> Vec<Spot> {
    let mut chosen: Vec<Spot> = Vec::new();
    for spot in spots {
        let same_face =
            |other: &&Spot| (other.on.wall, other.on.face) == (spot.on.wall, spot.on.face);
        let near = chosen
            .iter()
            .filter(same_face)
            .any(|other| (spot.on.along - other.on.along).get() < SPACING);
        let room = spot.room.and_then(|room| plan.rooms.get(&room));
        let outdoors = room.is_some_and(|room| room.usage == RoomUse::Outdoor);
        let full = spot.room.is_some()
            && chosen.iter().filter(|other| other.room == spot.room).count() >= SOCKETS_MAX;
        if !(near || full || outdoors) {
            chosen.push(*spot);
        }
    }
    chosen.sort_by_key(|spot| (plan.walls[&spot.on.wall].level, spot.room));
    chosen
}

/// A light for every room, or for every long wall of a level without rooms:
/// its kind, its place and the spot for its switch.
fn lit(plan: &Plan, spots: &[Spot]) -> Vec<(PointKind, Place, Option<Spot>)> {
    let mut lit = Vec::new();
    for (id, room) in plan.rooms.iter().filter(|(_, room)| lived_in(plan, room.level)) {
        let own: Vec<Spot> = spots.iter().filter(|spot| spot.room == Some(*id)).copied().collect();
        let switch = switch(plan, &own);
        if plan.levels[&room.level].above.is_empty() {
            // No cable reaches a concrete ceiling.
            if let Some(spot) = own.get(own.len().div_ceil(2)) {
                lit.push((PointKind::WallLight, wall_place(spot, 1900), switch));
            }
        } else if let Some(at) = inside(&room.outline) {
            let place = Place::Ceiling(OnLevel { level: room.level, at });
            lit.push((PointKind::Luminaire, place, switch));
        }
    }
    let roomless = spots.iter().filter(|spot| spot.room.is_none() && spot.on.face == Face::Left);
    let mut walls: Vec<WallId> = Vec::new();
    for spot in roomless {
        let wall = &plan.walls[&spot.on.wall];
        if walls.contains(&spot.on.wall) || wall.length() < 4000.0 {
            continue;
        }
        walls.push(spot.on.wall);
        let (nx, ny) = wall.normal(Face::Left);
        let middle = wall.at(wall.length() / 2.0);
        let off = |value: f64| Mm::from_f64(value * 1000.0).unwrap();
        let at = Point2 { x: middle.x + off(nx), y: middle.y + off(ny) };
        let place = Place::Ceiling(OnLevel { level: wall.level, at });
        lit.push((PointKind::Luminaire, place, Some(*spot)));
    }
    lit
}

/// The spot nearest to a door of a room, along the door's own wall if it can.
fn switch(plan: &Plan, own: &[Spot]) -> Option<Spot> {
    let to_door = |spot: &&Spot| {
        let beside = |opening: &&Opening| {
            opening.wall == spot.on.wall && opening.kind != OpeningKind::Window
        };
        let gap = |opening: &Opening| {
            let along = spot.on.along;
            (opening.from - along).max(along - opening.from - opening.width)
        };
        plan.openings.values().filter(beside).map(gap).min().unwrap_or(Mm::COORDINATE_MAX)
    };
    own.iter().min_by_key(to_door).copied()
}

/// A place inside an outline: the mean of its corners, or else the middle of
/// the widest stretch inside it half way up.
fn inside(outline: &[Point2]) -> Option<Point2> {
    let count = i64::try_from(outline.len()).ok().filter(|count| *count > 2)?;
    let mean = |sum: i64| Mm::new(sum.div_euclid(count));
    let x = mean(outline.iter().map(|corner| corner.x.get()).sum());
    let y = mean(outline.iter().map(|corner| corner.y.get()).sum());
    if outline_holds(outline, x.to_f64(), y.to_f64()) {
        return Some(Point2 { x, y });
    }
    let low = outline.iter().map(|corner| corner.x.get()).min()?;
    let high = outline.iter().map(|corner| corner.x.get()).max()?;
    let within = |x: &i64| outline_holds(outline, Mm::new(*x).to_f64(), y.to_f64());
    let stretch: Vec<i64> = (low..high).step_by(50).filter(within).collect();
    stretch.get(stretch.len().div_euclid(2)).map(|x| Point2 { x: Mm::new(*x), y })
}

fn circuit(plan: &mut Plan, board: BoardId, usage: CircuitUse) -> CircuitId {
    let lighting = usage == CircuitUse::Lighting;
    let number = u16::try_from(plan.circuits.len() + 1).unwrap();
    let size = Csa::from_hundredths(if lighting { 150 } else { 250 });
    let rating = Amps(if lighting { 10.0 } else { 20.0 });
    let loop_at = if number.is_multiple_of(2) { LoopAt::Switch } else { LoopAt::Light };
    let circuit = Circuit {
        name: format!("{} {number}", if lighting { "Lights" } else { "Sockets" }),
        board: Some(board),
        cable: Some(Cable { cores: 2, size, make: CableMake::Flat }),
        device: Some(Device { rating, curve: Curve::C, residual: Some(Amps(0.03)) }),
        loop_at: lighting.then_some(loop_at),
        ..Circuit::new(number, usage)
    };
    let id = CircuitId(next_id(plan));
    plan.circuits.insert(id, circuit);
    id
}

fn point(plan: &mut Plan, circuit: CircuitId, kind: PointKind, place: Place) -> PointId {
    let id = PointId(next_id(plan));
    let point = Point { place: Some(place), circuit: Some(circuit), ..Point::new(kind) };
    plan.points.insert(id, point);
    id
}
