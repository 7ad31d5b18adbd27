//! Levels, walls, openings and rooms, by splitting rectangles.

use wirewend::plan::*;
use wirewend::units::{Mm, Point2};

use super::chance::Chance;
use super::{Size, next_id};

/// A rectangle of centre lines: low corner and high corner.
#[derive(Clone, Copy)]
pub(super) struct Rect {
    pub(super) x0: i64,
    pub(super) y0: i64,
    pub(super) x1: i64,
    pub(super) y1: i64,
}

/// What later stages need to know of the house.
pub(super) struct House {
    pub(super) levels: Vec<LevelId>,
    pub(super) footprint: Rect,
    pub(super) outer: i64,
    /// The inside of every room, in the plan's order of rooms.
    pub(super) insides: Vec<(LevelId, Rect)>,
}

/// Floor to floor less floor to ceiling, mm.
const BUILD_UP: i64 = 300;
/// No room is narrower between centre lines, mm.
const ROOM_MIN: i64 = 900;

pub(super) fn draw(plan: &mut Plan, chance: &mut Chance, size: Size) -> House {
    let footprint =
        Rect { x0: 0, y0: 0, x1: 100 * chance.between(25, 140), y1: 100 * chance.between(25, 120) };
    let (outer, inner) = (chance.pick(&[110, 200, 230, 270]), chance.pick(&[90, 100, 110]));
    let mut levels = Vec::new();
    let mut insides = Vec::new();
    let mut lines = Lines::default();
    for storey in 0..size.storeys {
        let height = chance.pick(&[2400, 2550, 2700]);
        let floor = i64::try_from(storey).unwrap() * (2700 + BUILD_UP);
        let level = add_level(plan, floor, height);
        levels.push(level);
        outer_walls(plan, chance, level, footprint, outer);
        let rooms = split(plan, chance, level, footprint, inner, size.rooms, &mut lines);
        for room in rooms {
            let inside = inside(room, footprint, outer, inner);
            add_room(plan, chance, level, inside);
            insides.push((level, inside));
        }
        if chance.percent(25) {
            screen(plan, level, footprint);
        }
    }
    openings(plan, chance);
    House { levels, footprint, outer, insides }
}

fn add_level(plan: &mut Plan, floor: i64, height: i64) -> LevelId {
    let id = LevelId(next_id(plan));
    let level = Level {
        name: format!("Level at {floor}"),
        floor: Mm::new(floor),
        height: Mm::new(height),
        above: Vec::new(),
        below: Vec::new(),
    };
    plan.levels.insert(id, level);
    id
}

fn add_wall(plan: &mut Plan, wall: Wall) {
    let id = WallId(next_id(plan));
    plan.walls.insert(id, wall);
}

/// Walls, some of which are drawn in two pieces in line.
fn add_in_pieces(plan: &mut Plan, chance: &mut Chance, wall: Wall) {
    let middle = Point2 { x: (wall.a.x + wall.b.x).half(), y: (wall.a.y + wall.b.y).half() };
    if chance.percent(20) && wall.length() > 2000.0 {
        add_wall(plan, Wall { b: middle, ..wall.clone() });
        add_wall(plan, Wall { a: middle, ..wall });
    } else if chance.percent(30) {
        // The other way round: left and right change sides.
        let wet = wall.wet.map(|_| Face::Left);
        add_wall(plan, Wall { a: wall.b, b: wall.a, wet, ..wall });
    } else {
        add_wall(plan, wall);
    }
}

fn outer_walls(plan: &mut Plan, chance: &mut Chance, level: LevelId, rect: Rect, thickness: i64) {
    let corners = [(rect.x0, rect.y0), (rect.x1, rect.y0), (rect.x1, rect.y1), (rect.x0, rect.y1)]
        .map(|(x, y)| Point2::new(x, y));
    let build = chance.pick(&[
        WallBuild::BrickVeneer,
        WallBuild::SolidMasonry,
        WallBuild::CavityMasonry,
        WallBuild::DoubleBrick,
        WallBuild::Concrete,
        WallBuild::Stud,
    ]);
    for side in 0..4 {
        let (a, b) = (corners[side], corners[(side + 1) % 4]);
        let insulated = chance.percent(50);
        let thickness = Mm::new(thickness);
        let wet = Some(Face::Right);
        add_in_pieces(plan, chance, Wall { level, a, b, thickness, build, insulated, wet });
    }
}

/// A free-standing screen outside, on which nothing runs.
fn screen(plan: &mut Plan, level: LevelId, rect: Rect) {
    let (a, b) = (Point2::new(rect.x0, rect.y0 - 1500), Point2::new(rect.x1, rect.y0 - 1500));
    let (thickness, build) = (Mm::new(60), WallBuild::Screen);
    add_wall(plan, Wall { level, a, b, thickness, build, insulated: false, wet: None });
}

/// Where earlier splits lie, so that later ones can line up with them.
#[derive(Default)]
struct Lines {
    upright: Vec<i64>,
    level: Vec<i64>,
}

fn split(
    plan: &mut Plan,
    chance: &mut Chance,
    level: LevelId,
    footprint: Rect,
    thickness: i64,
    count: usize,
    lines: &mut Lines,
) -> Vec<Rect> {
    let mut rooms = vec![footprint];
    for _ in 0..4 * count {
        if rooms.len() >= count {
            break;
        }
        let index = chance.below(rooms.len());
        let room = rooms[index];
        let upright = chance.percent(50);
        let (low, high) = if upright { (room.x0, room.x1) } else { (room.y0, room.y1) };
        if high - low < 2 * ROOM_MIN {
            continue;
        }
        let known = if upright { &mut lines.upright } else { &mut lines.level };
        let place = place(chance, low + ROOM_MIN, high - ROOM_MIN, known);
        let (a, b, first, second) = if upright {
            let (a, b) = (Point2::new(place, room.y0), Point2::new(place, room.y1));
            (a, b, Rect { x1: place, ..room }, Rect { x0: place, ..room })
        } else {
            let (a, b) = (Point2::new(room.x0, place), Point2::new(room.x1, place));
            (a, b, Rect { y1: place, ..room }, Rect { y0: place, ..room })
        };
        let build = chance.pick(&[
            WallBuild::Stud,
            WallBuild::Stud,
            WallBuild::SolidMasonry,
            WallBuild::LathAndPlaster,
            WallBuild::Concrete,
        ]);
        let thickness = Mm::new(thickness);
        let wall = Wall { level, a, b, thickness, build, insulated: false, wet: None };
        add_in_pieces(plan, chance, wall);
        rooms[index] = first;
        rooms.push(second);
    }
    rooms
}

/// Often in line with an earlier split, of this storey or the one below.
fn place(chance: &mut Chance, low: i64, high: i64, known: &mut Vec<i64>) -> i64 {
    let fitting: Vec<i64> =
        known.iter().copied().filter(|place| (low..=high).contains(place)).collect();
    if !fitting.is_empty() && chance.percent(60) {
        return chance.pick(&fitting);
    }
    let place = chance.between(low, high);
    known.push(place);
    place
}

fn inside(room: Rect, footprint: Rect, outer: i64, inner: i64) -> Rect {
    let half = |at: i64, edge: i64| {
        let thickness = if at == edge { outer } else { inner };
        thickness.div_euclid(2)
    };
    Rect {
        x0: room.x0 + half(room.x0, footprint.x0),
        y0: room.y0 + half(room.y0, footprint.y0),
        x1: room.x1 - half(room.x1, footprint.x1),
        y1: room.y1 - half(room.y1, footprint.y1),
    }
}

fn add_room(plan: &mut Plan, chance: &mut Chance, level: LevelId, inside: Rect) {
    let id = RoomId(next_id(plan));
    let usage = chance.pick(&[
        RoomUse::Living,
        RoomUse::Kitchen,
        RoomUse::Bedroom,
        RoomUse::Bathroom,
        RoomUse::Hall,
        RoomUse::Other,
    ]);
    let mut outline = inside.corners().to_vec();
    if chance.percent(50) {
        outline.reverse();
    }
    plan.rooms.insert(id, Room { level, name: format!("{usage:?} {}", id.0), usage, outline });
}

impl Rect {
    pub(super) fn corners(self) -> [Point2; 4] {
        let Self { x0, y0, x1, y1 } = self;
        [(x0, y0), (x1, y0), (x1, y1), (x0, y1)].map(|(x, y)| Point2::new(x, y))
    }
}

/// Up to three openings a wall: touching its ends, touching each other.
fn openings(plan: &mut Plan, chance: &mut Chance) {
    let walls: Vec<(WallId, i64, i64)> = plan
        .walls
        .iter()
        .map(|(id, wall)| {
            let step = wall.b - wall.a;
            // Still along `x` or `y`, so one of the two is the length.
            let length = step.x.abs().get() + step.y.abs().get();
            (*id, length, plan.levels[&wall.level].height.get())
        })
        .collect();
    for (wall, length, height) in walls {
        let mut from = chance.pick(&[0, 0, 30, 300, 1000]);
        for _ in 0..chance.below(4) {
            let width = chance.pick(&[400, 620, 820, 1500]);
            if from + width > length {
                break;
            }
            // Now and then up to the far end.
            let last = length - from - width < 700 && chance.percent(40);
            let width = if last { length - from } else { width };
            add_opening(plan, chance, wall, (from, width), height);
            from += width + chance.pick(&[0, 90, 600, 1200]);
        }
    }
}

fn add_opening(
    plan: &mut Plan,
    chance: &mut Chance,
    wall: WallId,
    (from, width): (i64, i64),
    height: i64,
) {
    let (kind, sill, head) = chance.pick(&[
        (OpeningKind::Door, 0, 2040),
        (OpeningKind::SlidingDoor, 0, 2100),
        (OpeningKind::Window, 900, 2100),
        (OpeningKind::Window, 1500, 2100),
        (OpeningKind::Plain, 0, height),
    ]);
    let hinge = (kind == OpeningKind::Door).then(|| Hinge {
        at_near_edge: chance.percent(50),
        opens: chance.pick(&[Face::Left, Face::Right]),
    });
    let id = OpeningId(next_id(plan));
    let (from, width) = (Mm::new(from), Mm::new(width));
    let (sill, head) = (Mm::new(sill), Mm::new(head));
    plan.openings.insert(id, Opening { wall, kind, from, width, sill, head, hinge });
}
