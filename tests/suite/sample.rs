//! A small invented plan in which every noun and every kind of place occurs.

use wirewend::plan::*;
use wirewend::units::{Amps, Angle, Cents, Csa, Milliseconds, Mm, Ohms, Point2, Volts, Watts};

fn mm(millimetres: i64) -> Mm {
    Mm::new(millimetres)
}

fn wall(a: (i64, i64), b: (i64, i64), build: WallBuild) -> Wall {
    Wall {
        level: LevelId(1),
        a: Point2::new(a.0, a.1),
        b: Point2::new(b.0, b.1),
        thickness: mm(110),
        build,
        insulated: false,
        wet: None,
    }
}

fn point(kind: PointKind, place: Place, circuit: u32) -> Point {
    Point { place: Some(place), circuit: Some(CircuitId(circuit)), ..Point::new(kind) }
}

fn on_wall(wall: u32, along: i64, height: i64, face: Face) -> Place {
    Place::Wall(OnWall { wall: WallId(wall), along: mm(along), height: mm(height), face })
}

fn circuit(number: u16, name: &str, usage: CircuitUse, cable: Cable, rating: f64) -> Circuit {
    Circuit {
        name: name.to_owned(),
        board: Some(BoardId(20)),
        cable: Some(cable),
        device: Some(Device { rating: Amps(rating), curve: Curve::C, residual: Some(Amps(0.03)) }),
        ..Circuit::new(number, usage)
    }
}

fn cable(hundredths: u32) -> Cable {
    Cable { cores: 2, size: Csa::from_hundredths(hundredths), make: CableMake::Flat }
}

/// One room, 4 m by 3 m, with a roof space, three socket-outlets, a light with
/// its switch, a board, and one of everything else.
pub(crate) fn plan() -> Plan {
    let mut plan = Plan { next_id: 41, ..Plan::default() };
    plan.project.title = "Shed at the end of the lane".to_owned();
    plan.project.notes = "Invented: “quoted”, \\ and ä".to_owned();
    draw_building(&mut plan);
    draw_wiring(&mut plan);
    fill_books(&mut plan);
    plan
}

fn draw_building(plan: &mut Plan) {
    plan.levels.insert(
        LevelId(1),
        Level {
            name: "Ground".to_owned(),
            floor: mm(0),
            height: mm(2400),
            above: vec![VoidId(2)],
            below: vec![VoidId(3)],
        },
    );
    let void = |kind, z, joists| Void {
        name: "space".to_owned(),
        kind,
        z: mm(z),
        depth: mm(500),
        direction: Angle::ZERO,
        joists,
        insulation: mm(0),
        access: Access::Crawl,
        outline: None,
    };
    let joists = Joists { spacing: mm(450), depth: mm(140), thickness: mm(45) };
    plan.voids.insert(VoidId(2), void(VoidKind::RoofSpace, 2500, Some(joists)));
    plan.voids.insert(VoidId(3), void(VoidKind::Ground, -500, None));
    for (id, a, b) in [
        (4, (0, 0), (4000, 0)),
        (5, (4000, 0), (4000, 3000)),
        (6, (4000, 3000), (0, 3000)),
        (7, (0, 3000), (0, 0)),
    ] {
        plan.walls.insert(WallId(id), wall(a, b, WallBuild::Stud));
    }
    plan.voids[&VoidId(3)].outline = Some(
        [(-1000, -1000), (8000, -1000), (8000, 4000), (-1000, 4000)]
            .map(|(x, y)| Point2::new(x, y))
            .to_vec(),
    );
    plan.walls[&WallId(4)].wet = Some(Face::Right);
    plan.openings.insert(
        OpeningId(8),
        Opening {
            wall: WallId(5),
            kind: OpeningKind::Door,
            from: mm(1000),
            width: mm(820),
            sill: mm(0),
            head: mm(2040),
            hinge: Some(Hinge { at_near_edge: true, opens: Face::Left }),
        },
    );
    let outline = [(0, 0), (4000, 0), (4000, 3000), (0, 3000)];
    let outline: Vec<Point2> = outline.iter().map(|(x, y)| Point2::new(*x, *y)).collect();
    plan.rooms.insert(
        RoomId(9),
        Room { level: LevelId(1), name: "Shed".to_owned(), usage: RoomUse::Garage, outline },
    );
    let outline = vec![Point2::new(100, 100), Point2::new(400, 100), Point2::new(400, 400)];
    plan.areas.insert(
        AreaId(10),
        Area {
            name: "flue".to_owned(),
            on: Plane::Void(VoidId(2)),
            outline,
            effect: AreaEffect::KeepOut,
        },
    );
    let on_the_wall = vec![Point2::new(0, 0), Point2::new(600, 0), Point2::new(600, 2000)];
    plan.areas.insert(
        AreaId(12),
        Area {
            name: "party wall".to_owned(),
            on: Plane::Wall(WallId(6)),
            outline: on_the_wall,
            effect: AreaEffect::Barrier(mm(2000)),
        },
    );
    plan.backdrops.insert(
        LevelId(1),
        Backdrop {
            file: "scan.png".to_owned(),
            at: Point2::new(-150, -120),
            width: mm(9000),
            turn: Angle::from_millidegrees(500),
            strength: 40,
            hidden: false,
        },
    );
    plan.risers.insert(
        RiserId(11),
        Riser {
            name: "duct".to_owned(),
            at: Point2::new(3900, 2900),
            voids: vec![VoidId(2), VoidId(3)],
        },
    );
}

fn draw_wiring(plan: &mut Plan) {
    plan.boards.insert(
        BoardId(20),
        Board {
            label: "MSB".to_owned(),
            place: Some(on_wall(7, 1500, 1600, Face::Left)),
            supply: Supply {
                voltage: Some(Volts(230.0)),
                phases: Some(1),
                loop_impedance: Some(Ohms(0.35)),
                fault_current: Some(Amps(3000.0)),
                earthing: Some(Earthing::Men),
                main_switch: Some(Amps(63.0)),
            },
            ways: Some(12),
        },
    );
    let mut sockets = circuit(1, "Sockets", CircuitUse::Sockets, cable(250), 20.0);
    sockets.order = vec![PointId(31), PointId(30)];
    sockets.spurs = vec![Spur { point: PointId(32), from: End::Point(PointId(30)) }];
    sockets.pins = vec![Pin {
        from: End::Board(BoardId(20)),
        to: End::Point(PointId(31)),
        through: vec![PinPlace { void: VoidId(2), at: Point2::new(2000, 1000) }],
    }];
    plan.circuits.insert(CircuitId(21), sockets);
    let mut lights = circuit(2, "Lights", CircuitUse::Lighting, cable(150), 10.0);
    lights.loop_at = Some(LoopAt::Light);
    lights.rcd_group = "left".to_owned();
    lights.phase = Some(1);
    lights.ways = Some(vec![Way::Overhead, Way::InWall]);
    plan.circuits.insert(CircuitId(22), lights);

    let overhead = OnLevel { level: LevelId(1), at: Point2::new(2000, 1500) };
    let post = OnPost { level: LevelId(1), at: Point2::new(6000, 1000), height: mm(900) };
    let wall_socket = on_wall(4, 800, 300, Face::Left);
    plan.points.insert(PointId(30), point(PointKind::Socket, wall_socket, 21));
    let floor = Place::Floor(OnLevel { level: LevelId(1), at: Point2::new(1000, 1000) });
    plan.points.insert(PointId(31), point(PointKind::Socket, floor, 21));
    plan.points.insert(PointId(32), point(PointKind::WeatherproofSocket, Place::Post(post), 21));
    plan.points.insert(PointId(33), point(PointKind::Luminaire, Place::Ceiling(overhead), 22));
    let by_the_door = on_wall(5, 850, 1000, Face::Left);
    plan.points.insert(PointId(34), point(PointKind::Switch, by_the_door, 22));
    plan.points[&PointId(33)].load = Some(Watts(12.5));
    plan.points[&PointId(30)].gangs = 2;
    plan.points[&PointId(30)].tail = Some(mm(450));
    plan.points[&PointId(31)].label = "floor box".to_owned();
    plan.points[&PointId(32)].note = "on the old fence post".to_owned();
    plan.points[&PointId(32)].optional = true;
    plan.controls.insert(
        ControlId(40),
        Control { lights: vec![PointId(33)], switches: vec![PointId(34)], in_order: false },
    );
}

fn fill_books(plan: &mut Plan) {
    let drum = Drum { cable: cable(250), length: mm(100_000), price: Some(Cents::new(19_900)) };
    let off_cut = OffCut { cable: cable(150), length: mm(7300), label: "red tape".to_owned() };
    plan.stock = Stock { drums: vec![drum], off_cuts: vec![off_cut], usable: mm(1500) };
    plan.prices = PriceBook {
        currency: "AUD".to_owned(),
        tax_permille: 100,
        margin_permille: 150,
        items: vec![PriceItem {
            code: "socket".to_owned(),
            name: "Socket-outlet, double".to_owned(),
            unit: "each".to_owned(),
            price: Cents::new(1450),
        }],
        labour: Labour {
            lived_in: true,
            minutes: vec![TaskMinutes { code: "way".to_owned(), minutes: 25 }],
            ..Labour::default()
        },
    };
    plan.measured = vec![Measured {
        circuit: CircuitId(22),
        from: End::Point(PointId(33)),
        to: End::Point(PointId(34)),
        length: mm(5200),
        by: "invented".to_owned(),
        on: "2026-11-25".to_owned(),
    }];
    let reading = |at, reads| Reading {
        circuit: CircuitId(22),
        at,
        reads,
        by: "invented".to_owned(),
        on: "2026-11-25".to_owned(),
    };
    plan.readings = vec![
        reading(End::Point(PointId(34)), Reads::Loop(Ohms(0.84))),
        reading(End::Point(PointId(33)), Reads::Polarity(true)),
        reading(End::Board(BoardId(20)), Reads::Trip(Milliseconds(24.0))),
    ];
}
