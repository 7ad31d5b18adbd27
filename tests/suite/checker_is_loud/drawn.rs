//! A small house drawn by hand: four outer walls, one between, a window, a
//! roof space, a subfloor, the ground, and above it all a flat of concrete.

use wirewend::plan::{
    Board, BoardId, Cable, CableMake, Circuit, CircuitId, CircuitUse, Control, ControlId, End,
    Face, Joists, Level, LevelId, LoopAt, Measured, OnLevel, OnPost, OnWall, Opening, OpeningId,
    OpeningKind, Pin, PinPlace, Place, Plan, Point, PointId, PointKind, Riser, RiserId, Room,
    RoomId, RoomUse, Spur, Supply, Void, VoidId, VoidKind, Wall, WallBuild, WallId, Wiring,
};
use wirewend::units::{Angle, Csa, Mm, Point2};

pub(super) const DB: End = End::Board(BoardId(1));
pub(super) const FLAT_DB: End = End::Board(BoardId(2));

/// A point as an end.
pub(super) const fn p(id: u32) -> End {
    End::Point(PointId(id))
}

/// The house with its points and circuits.
pub(super) fn plan() -> Plan {
    let mut plan = Plan::default();
    plan.allowances.void_loop = Mm::new(500);
    add_building(&mut plan);
    add_points(&mut plan);
    add_circuits(&mut plan);
    plan.measured.push(Measured {
        circuit: CircuitId(1),
        from: p(2),
        to: p(1),
        length: Mm::new(4350),
        by: String::new(),
        on: String::new(),
    });
    plan
}

fn rectangle(x0: i64, y0: i64, x1: i64, y1: i64) -> Vec<Point2> {
    vec![Point2::new(x0, y0), Point2::new(x1, y0), Point2::new(x1, y1), Point2::new(x0, y1)]
}

fn void(kind: VoidKind, z: i64) -> Void {
    Void {
        name: String::new(),
        kind,
        z: Mm::new(z),
        depth: Mm::new(400),
        direction: Angle::ZERO,
        joists: None,
        insulation: Mm::ZERO,
        access: wirewend::plan::Access::Crawl,
        outline: None,
    }
}

fn add_building(plan: &mut Plan) {
    let level = |floor, above: &[u32], below: &[u32]| Level {
        name: String::new(),
        floor: Mm::new(floor),
        height: Mm::new(2400),
        above: above.iter().map(|id| VoidId(*id)).collect(),
        below: below.iter().map(|id| VoidId(*id)).collect(),
    };
    plan.levels.insert(LevelId(1), level(0, &[1], &[2, 3]));
    plan.levels.insert(LevelId(2), level(5000, &[], &[]));
    let joists = Joists { spacing: Mm::new(450), depth: Mm::new(200), thickness: Mm::new(45) };
    let roof =
        Void { joists: Some(joists), insulation: Mm::new(200), ..void(VoidKind::RoofSpace, 2600) };
    plan.voids.insert(VoidId(1), roof);
    plan.voids.insert(VoidId(2), void(VoidKind::Subfloor, -300));
    let outline = Some(rectangle(-1000, -5000, 9000, 5000));
    plan.voids.insert(VoidId(3), Void { outline, ..void(VoidKind::Ground, -600) });
    let mut wall = |id, level, (ax, ay), (bx, by), build| {
        plan.walls.insert(
            WallId(id),
            Wall {
                level: LevelId(level),
                a: Point2::new(ax, ay),
                b: Point2::new(bx, by),
                thickness: Mm::new(100),
                build,
                insulated: false,
                wet: None,
            },
        );
    };
    wall(1, 1, (0, 0), (6000, 0), WallBuild::Stud);
    wall(2, 1, (6000, 0), (6000, 4000), WallBuild::Stud);
    wall(3, 1, (6000, 4000), (0, 4000), WallBuild::Stud);
    wall(4, 1, (0, 4000), (0, 0), WallBuild::Stud);
    wall(5, 1, (3000, 0), (3000, 4000), WallBuild::Stud);
    wall(11, 2, (0, 0), (4000, 0), WallBuild::Concrete);
    wall(12, 2, (4000, 0), (4000, 3000), WallBuild::Concrete);
    plan.walls[&WallId(2)].wet = Some(Face::Right);
    let room = Room {
        level: LevelId(1),
        name: String::new(),
        usage: RoomUse::Other,
        outline: rectangle(0, 0, 6000, 4000),
    };
    plan.rooms.insert(RoomId(1), room);
    let window = Opening {
        wall: WallId(1),
        kind: OpeningKind::Window,
        from: Mm::new(1500),
        width: Mm::new(1000),
        sill: Mm::new(900),
        head: Mm::new(2000),
        hinge: None,
    };
    plan.openings.insert(OpeningId(1), window);
    let shaft = Riser {
        name: String::new(),
        at: Point2::new(5000, 2000),
        voids: vec![VoidId(1), VoidId(2)],
    };
    plan.risers.insert(RiserId(1), shaft);
}

pub(super) fn on_wall(wall: u32, along: i64, height: i64) -> Place {
    Place::Wall(OnWall {
        wall: WallId(wall),
        along: Mm::new(along),
        height: Mm::new(height),
        face: Face::Right,
    })
}

fn on_ceiling(x: i64, y: i64) -> Place {
    Place::Ceiling(OnLevel { level: LevelId(1), at: Point2::new(x, y) })
}

pub(super) fn point(kind: PointKind, place: Place, circuit: u32) -> Point {
    Point { place: Some(place), circuit: Some(CircuitId(circuit)), ..Point::new(kind) }
}

fn add_points(plan: &mut Plan) {
    use PointKind::{Appliance, Luminaire, SmokeAlarm, Socket, Switch, WeatherproofSocket};
    for (id, place) in [(1, on_wall(4, 2000, 1500)), (2, on_wall(11, 1000, 1500))] {
        let board = Board {
            label: String::new(),
            place: Some(place),
            supply: Supply::default(),
            ways: None,
        };
        plan.boards.insert(BoardId(id), board);
    }
    let post = OnPost { level: LevelId(1), at: Point2::new(3000, -3000), height: Mm::new(1000) };
    for (id, kind, place, circuit) in [
        (1, Socket, on_wall(1, 1000, 300), 1),
        (2, Socket, on_wall(1, 4500, 300), 1),
        (3, Luminaire, on_ceiling(1500, 2000), 2),
        (4, Luminaire, on_ceiling(4500, 2000), 2),
        (5, Switch, on_wall(5, 500, 1100), 2),
        (6, Switch, on_wall(1, 5500, 1100), 2),
        (7, Luminaire, on_ceiling(4500, 3000), 2),
        (8, Switch, on_wall(2, 2000, 1100), 2),
        (9, SmokeAlarm, on_ceiling(1500, 1000), 3),
        (10, SmokeAlarm, on_ceiling(4500, 1000), 3),
        (11, Socket, on_wall(3, 1000, 300), 4),
        (12, Socket, on_wall(3, 5000, 300), 4),
        (13, Socket, on_wall(5, 3500, 300), 5),
        (14, Socket, on_wall(5, 2000, 300), 5),
        (15, WeatherproofSocket, Place::Post(post), 6),
        (16, Appliance, on_wall(12, 1000, 1500), 7),
        (17, Socket, on_wall(1, 3500, 300), 8),
        (18, WeatherproofSocket, on_wall(2, 3000, 300), 8),
    ] {
        plan.points.insert(PointId(id), point(kind, place, circuit));
    }
    plan.points[&PointId(1)].tail = Some(Mm::new(450));
    for (id, lights, switches) in [
        (1, vec![PointId(3)], vec![PointId(5), PointId(6)]),
        (2, vec![PointId(4), PointId(7)], vec![PointId(8)]),
    ] {
        plan.controls.insert(ControlId(id), Control { lights, switches, in_order: false });
    }
}

fn add_circuits(plan: &mut Plan) {
    use CircuitUse::{Alarms, Fixed, Lighting, Sockets};
    for (id, board, usage, wiring) in [
        (1, 1, Sockets, Wiring::Chain),
        (2, 1, Lighting, Wiring::Chain),
        (3, 1, Alarms, Wiring::Chain),
        (4, 1, Sockets, Wiring::Ring),
        (5, 1, Sockets, Wiring::ChainWithSpurs),
        (6, 1, Sockets, Wiring::Chain),
        (7, 2, Fixed, Wiring::Single),
        (8, 1, Sockets, Wiring::Chain),
    ] {
        let size = Csa::from_hundredths(if usage == Lighting { 150 } else { 250 });
        let circuit = Circuit {
            board: Some(BoardId(board)),
            cable: Some(Cable { cores: 2, size, make: CableMake::Flat }),
            wiring,
            ..Circuit::new(1, usage)
        };
        plan.circuits.insert(CircuitId(id), circuit);
    }
    plan.circuits[&CircuitId(1)].order = vec![PointId(1)];
    plan.circuits[&CircuitId(2)].loop_at = Some(LoopAt::Light);
    let through = vec![PinPlace { void: VoidId(1), at: Point2::new(1000, 3000) }];
    plan.circuits[&CircuitId(5)].spurs = vec![Spur { point: PointId(14), from: p(13) }];
    plan.circuits[&CircuitId(5)].pins = vec![Pin { from: p(13), to: DB, through }];
}
