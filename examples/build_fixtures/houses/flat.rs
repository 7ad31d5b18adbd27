//! A flat with concrete above and below: cables stay in chases or on the
//! surface, and its lights hang on walls.
//!
//! Concrete outside and between dwellings, masonry inside. Rooms are drawn
//! along their inner faces.

use wirewend::plan::*;
use wirewend::units::{Amps, Mm, Ohms, Volts, Watts};

use super::build::{At, Build, Kind, chain, device, flat};
use super::shop;

/// Centre of a socket-outlet above the floor, mm: common practice.
const LOW: i64 = 300;
/// Centre of a switch above the floor, mm: common practice.
const SWITCH: i64 = 1050;
/// Centre of a wall light above the floor, mm: common practice.
const LIGHT: i64 = 2100;

pub(crate) fn plan() -> Plan {
    let mut build = Build::new(project());
    let level = build.level("Third floor", 0, 2500);
    shell(&mut build, level);
    rooms(&mut build, level);
    let place = build.beside(level, (5740, 6400), 1600);
    let board = build.board(board(place));
    sockets(&mut build, level, board);
    lights(&mut build, level, board);
    fixed(&mut build, level, board);
    build.plan.stock = shop::stock(&[150, 250, 400]);
    build.plan.prices = shop::prices("EUR", 200);
    build.plan
}

fn project() -> Project {
    Project {
        title: "Flat rewire".to_owned(),
        site: "Example Court, third floor".to_owned(),
        client: "C. Client".to_owned(),
        drawn_by: "D. Rawer".to_owned(),
        contractor: "Example Electrical".to_owned(),
        number: "E-301".to_owned(),
        revision: "A".to_owned(),
        date: "2026-11-25".to_owned(),
        status: Status::Planned,
        built_as_planned: None,
        regime: Regime::IEC,
        notes: shop::INVENTED.to_owned(),
    }
}

fn board(place: Place) -> Board {
    Board {
        label: "DB".to_owned(),
        place: Some(place),
        supply: Supply {
            voltage: Some(Volts(230.0)),
            phases: Some(3),
            loop_impedance: Some(Ohms(0.4)),
            fault_current: None,
            earthing: Some(Earthing::TnS),
            main_switch: Some(Amps(40.0)),
        },
        ways: Some(24),
    }
}

fn shell(build: &mut Build, level: LevelId) {
    let concrete = Kind::new(WallBuild::Concrete, 240);
    let bearing = Kind::new(WallBuild::Concrete, 120);
    let block = Kind::new(WallBuild::SolidMasonry, 120);
    build.walls(level, &concrete, &[(0, 0), (9200, 0), (9200, 6800), (0, 6800), (0, 0)]);
    build.wall(level, (4200, 0), (4200, 6800), &bearing);
    build.wall(level, (0, 4000), (4200, 4000), &block);
    build.wall(level, (4200, 2900), (9200, 2900), &block);
    build.wall(level, (5800, 2900), (5800, 6800), &block);
    build.wall(level, (5800, 4700), (9200, 4700), &block);
    build.door(level, (5000, 6800), 900, (4600, 6000)); // entrance
    build.door(level, (4200, 5000), 800, (3500, 4600)); // kitchen
    build.door(level, (4200, 3450), 800, (3500, 3900)); // living
    build.door(level, (4900, 2900), 800, (4500, 2000)); // bedroom
    build.door(level, (5800, 3700), 800, (6500, 3300)); // study
    build.door(level, (5800, 5750), 700, (6500, 6100)); // bathroom
    build.window(level, (2100, 0), 2100, 600, 2200);
    build.window(level, (0, 2000), 1200, 900, 2200);
    build.window(level, (0, 5300), 1200, 1100, 2200);
    build.window(level, (6700, 0), 1800, 900, 2200);
    build.window(level, (9200, 3700), 900, 900, 2200);
}

fn rooms(build: &mut Build, level: LevelId) {
    let mut boxed = |name: &str, usage: RoomUse, (x0, y0): At, (x1, y1): At| {
        build.room(level, name, usage, &[(x0, y0), (x1, y0), (x1, y1), (x0, y1)]);
    };
    boxed("Living", RoomUse::Living, (120, 120), (4140, 3940));
    boxed("Kitchen", RoomUse::Kitchen, (120, 4060), (4140, 6680));
    boxed("Hall", RoomUse::Hall, (4260, 2960), (5740, 6680));
    boxed("Bedroom", RoomUse::Bedroom, (4260, 120), (9080, 2840));
    boxed("Study", RoomUse::Study, (5860, 2960), (9080, 4640));
    boxed("Bathroom", RoomUse::Bathroom, (5860, 4760), (9080, 6680));
}

fn only(way: Way, phase: u8, circuit: Circuit) -> Circuit {
    Circuit { ways: Some(vec![way]), phase: Some(phase), ..circuit }
}

fn sockets(build: &mut Build, level: LevelId, board: BoardId) {
    let circuit = |number, name| {
        chain(board, number, name, CircuitUse::Sockets, flat(250), device(16.0, Curve::B))
    };
    let living = build.circuit(only(Way::InWall, 1, circuit(1, "Sockets: living")));
    let faces = [(4140, 2700), (4140, 600), (700, 120), (120, 3200), (2000, 3940)];
    build.sockets(living, level, LOW, &faces);
    let kitchen = build.circuit(only(Way::InWall, 2, circuit(2, "Sockets: kitchen")));
    let bench = [(120, 4500), (120, 6200), (1500, 6680), (2600, 6680)];
    build.sockets(kitchen, level, 1150, &bench);
    let fridge = build.sockets(kitchen, level, LOW, &[(3700, 6680)]);
    build.edit(fridge[0], |point| point.note = "refrigerator".to_owned());
    let quiet = build.circuit(only(Way::Surface, 3, circuit(3, "Sockets: bedroom, study, hall")));
    let faces = [
        (5740, 4600),
        (5600, 2840),
        (8600, 2840),
        (9080, 700),
        (4900, 120),
        (6400, 2960),
        (8500, 4640),
    ];
    build.sockets(quiet, level, LOW, &faces);
}

fn lights(build: &mut Build, level: LevelId, board: BoardId) {
    let usage = CircuitUse::Lighting;
    let in_wall = chain(board, 4, "Lights", usage, flat(150), device(10.0, Curve::B));
    let in_wall = Circuit { loop_at: Some(LoopAt::Switch), ..only(Way::InWall, 1, in_wall) };
    let in_wall = build.circuit(in_wall);
    let mut room = |lights: &[At], switches: &[At]| {
        let mut add = |kind, height, faces: &[At]| -> Vec<PointId> {
            faces
                .iter()
                .map(|face| {
                    let place = build.beside(level, *face, height);
                    build.point(in_wall, kind, place)
                })
                .collect()
        };
        let lights = add(PointKind::WallLight, LIGHT, lights);
        let switches = add(PointKind::Switch, SWITCH, switches);
        build.control(&lights, &switches);
    };
    room(&[(4140, 1500), (120, 3500)], &[(4140, 2900)]);
    room(&[(2000, 4060)], &[(4140, 5550)]);
    room(&[(5740, 4900)], &[(5650, 6680), (4260, 4200), (5400, 2960)]);
    room(&[(4260, 1500), (9080, 1500)], &[(5450, 2840), (9080, 2300)]);
    room(&[(7500, 4640)], &[(5860, 4250)]);
    room(&[(7500, 4760)], &[(5740, 5300)]);
    let name = "Smoke alarms";
    let alarms = chain(board, 5, name, CircuitUse::Alarms, flat(150), device(10.0, Curve::B));
    let alarms = build.circuit(only(Way::Surface, 1, alarms));
    for face in [(4260, 4600), (6600, 2840), (6900, 2960)] {
        let place = build.beside(level, face, 2300);
        build.point(alarms, PointKind::SmokeAlarm, place);
    }
}

fn fixed(build: &mut Build, level: LevelId, board: BoardId) {
    let usage = CircuitUse::Fixed;
    let circuit = |number, name, size, rating, phase| {
        only(
            Way::InWall,
            phase,
            chain(board, number, name, usage, flat(size), device(rating, Curve::C)),
        )
    };
    let range = build.circuit(circuit(6, "Range", 400, 25.0, 2));
    let heater = build.circuit(circuit(7, "Water heater", 250, 16.0, 3));
    let washer = build.circuit(circuit(8, "Washing machine", 250, 16.0, 1));
    for (circuit, kind, face, height, load) in [
        (range, PointKind::Isolator, (2400, 4060), 1150, 0.0),
        (range, PointKind::Cooktop, (3000, 4060), 600, 5500.0),
        (heater, PointKind::WaterHeater, (9080, 6000), 1700, 2000.0),
        (washer, PointKind::Appliance, (8300, 4760), 900, 2200.0),
    ] {
        let place = build.beside(level, face, height);
        let point = build.point(circuit, kind, place);
        build.edit(point, |point| point.load = (load > 0.0).then_some(Watts(load)));
    }
    build.plan.habits.opening_clearance = Mm::new(100);
}
