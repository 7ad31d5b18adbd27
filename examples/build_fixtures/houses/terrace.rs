//! A long narrow terrace house: double-brick long walls, a rear wall at an
//! angle, a crawl space under the front rooms and a roof space.
//!
//! Rooms are drawn along their inner faces; along the angled wall to the
//! nearest millimetre.

use wirewend::plan::*;
use wirewend::units::{Amps, Angle, Mm, Ohms, Point2, Volts, Watts};

use super::build::{At, Build, Kind, ceiling, chain, device, flat, outline_of};
use super::shop;

/// Centre of a socket-outlet above the floor, mm: common practice.
const LOW: i64 = 300;
/// Centre of a socket-outlet over a benchtop of 900 mm, mm: common practice.
const BENCH: i64 = 1100;
/// Centre of a switch above the floor, mm: common practice.
const SWITCH: i64 = 1100;

/// The ids that the points need.
struct House {
    level: LevelId,
    board: BoardId,
    subfloor: VoidId,
}

pub(crate) fn plan() -> Plan {
    let mut build = Build::new(project());
    let level = build.level("Ground floor", 0, 2700);
    shell(&mut build, level);
    let subfloor = voids(&mut build, level);
    openings(&mut build, level);
    rooms(&mut build, level);
    let place = build.beside(level, (115, 900), 1600);
    let board = build.board(board(place));
    let house = House { level, board, subfloor };
    front_sockets(&mut build, &house);
    rear_sockets(&mut build, &house);
    front_lights(&mut build, &house);
    rear_lights(&mut build, &house);
    alarms(&mut build, &house);
    fixed(&mut build, &house);
    build.plan.stock = shop::stock(&[150, 250, 400, 600]);
    build.plan.prices = shop::prices("AUD", 100);
    build.plan
}

fn project() -> Project {
    Project {
        title: "Terrace rewire".to_owned(),
        site: "27 Specimen Street".to_owned(),
        client: "E. Client".to_owned(),
        drawn_by: "D. Rawer".to_owned(),
        contractor: "Example Electrical".to_owned(),
        number: "E-401".to_owned(),
        revision: "A".to_owned(),
        date: "2026-11-25".to_owned(),
        status: Status::Planned,
        built_as_planned: None,
        regime: Regime::AS_NZS,
        notes: shop::INVENTED.to_owned(),
    }
}

fn board(place: Place) -> Board {
    Board {
        label: "MSB".to_owned(),
        place: Some(place),
        supply: Supply {
            voltage: Some(Volts(230.0)),
            phases: Some(1),
            loop_impedance: Some(Ohms(0.35)),
            fault_current: Some(Amps(2500.0)),
            earthing: Some(Earthing::Men),
            main_switch: Some(Amps(63.0)),
        },
        ways: Some(16),
    }
}

fn shell(build: &mut Build, level: LevelId) {
    let party = Kind::new(WallBuild::DoubleBrick, 230);
    let outer = Kind::outer(WallBuild::DoubleBrick, 230, false);
    let brick = Kind::new(WallBuild::SolidMasonry, 110);
    let lath = Kind::new(WallBuild::LathAndPlaster, 110);
    let stud = Kind::new(WallBuild::Stud, 110);
    build.wall(level, (0, 0), (4800, 0), &outer);
    // The end of the row: a passage runs along this side.
    build.wall(level, (4800, 0), (4800, 16200), &outer);
    build.wall(level, (4800, 16200), (0, 15000), &outer);
    build.wall(level, (0, 15000), (0, 0), &party);
    build.wall(level, (1200, 0), (1200, 7500), &lath);
    build.wall(level, (1200, 4000), (4800, 4000), &brick);
    build.wall(level, (0, 7500), (4800, 7500), &brick);
    build.wall(level, (0, 11500), (4800, 11500), &brick);
    build.wall(level, (2700, 11500), (2700, 15675), &stud);
    build.wall(level, (2700, 13700), (4800, 13700), &stud);
}

fn voids(build: &mut Build, level: LevelId) -> VoidId {
    let subfloor = build.void(Void {
        name: "Crawl space".to_owned(),
        kind: VoidKind::Subfloor,
        z: Mm::new(-350),
        depth: Mm::new(600),
        direction: Angle::ZERO,
        joists: Some(Joists { spacing: Mm::new(450), depth: Mm::new(140), thickness: Mm::new(45) }),
        insulation: Mm::ZERO,
        access: Access::Crawl,
        // The kitchen and what lies behind it stand on a slab.
        outline: Some(outline_of(&[(-115, -115), (4915, -115), (4915, 11555), (-115, 11555)])),
    });
    let roof = build.void(Void {
        name: "Roof space".to_owned(),
        kind: VoidKind::RoofSpace,
        z: Mm::new(2820),
        depth: Mm::new(1100),
        direction: Angle::ZERO,
        joists: Some(Joists { spacing: Mm::new(450), depth: Mm::new(120), thickness: Mm::new(38) }),
        insulation: Mm::new(100),
        access: Access::Crawl,
        outline: None,
    });
    build.reaches(level, &[roof], &[subfloor]);
    let chimneys = [((4165, 1500), (4915, 2900)), ((4165, 8800), (4915, 10200))];
    for void in [roof, subfloor] {
        for corners in chimneys {
            build.area("chimney", Plane::Void(void), corners, AreaEffect::KeepOut);
        }
    }
    let damp = ((115, 9000), (2000, 11445));
    build.area("damp corner", Plane::Void(subfloor), damp, AreaEffect::Percent(180));
    let step = AreaEffect::Barrier(Mm::new(1500));
    build.area("lower rear roof", Plane::Void(roof), ((-115, 11445), (4915, 11555)), step);
    subfloor
}

fn openings(build: &mut Build, level: LevelId) {
    build.door(level, (640, 0), 820, (1100, 900)); // front door
    build.door(level, (1200, 3200), 820, (2000, 3700)); // bedroom 1
    build.door(level, (1200, 5000), 820, (2000, 4500)); // bedroom 2
    build.door(level, (660, 7500), 820, (200, 8500)); // living
    build.gap(level, (1300, 11500), 1200, 2100); // living to kitchen
    build.door(level, (3300, 11500), 720, (2900, 12500)); // bathroom
    build.door(level, (2700, 14600), 720, (3500, 15000)); // laundry
    build.window(level, (3000, 0), 1800, 600, 2300);
    build.sliding_door(level, (1400, 15350), 1800);
    build.window(level, (3900, 15975), 600, 1400, 2100);
    build.window(level, (4800, 5800), 600, 1200, 2300);
}

fn rooms(build: &mut Build, level: LevelId) {
    let mut boxed = |name: &str, usage: RoomUse, (x0, y0): At, (x1, y1): At| {
        build.room(level, name, usage, &[(x0, y0), (x1, y0), (x1, y1), (x0, y1)]);
    };
    boxed("Hall", RoomUse::Hall, (115, 115), (1145, 7445));
    boxed("Bedroom 1", RoomUse::Bedroom, (1255, 115), (4685, 3945));
    boxed("Bedroom 2", RoomUse::Bedroom, (1255, 4055), (4685, 7445));
    boxed("Living", RoomUse::Living, (115, 7555), (4685, 11445));
    boxed("Bathroom", RoomUse::Bathroom, (2755, 11555), (4685, 13645));
    let kitchen = [(115, 11555), (2645, 11555), (2645, 15543), (115, 14910)];
    build.room(level, "Kitchen", RoomUse::Kitchen, &kitchen);
    let laundry = [(2755, 13755), (4685, 13755), (4685, 16053), (2755, 15570)];
    build.room(level, "Laundry", RoomUse::Laundry, &laundry);
}

fn sockets(house: &House, number: u16, name: &str) -> Circuit {
    let (usage, device) = (CircuitUse::Sockets, device(20.0, Curve::C));
    chain(house.board, number, name, usage, flat(250), device)
}

fn front_sockets(build: &mut Build, house: &House) {
    let circuit = sockets(house, 1, "Sockets: hall and bedrooms");
    let circuit = build.circuit(Circuit { ways: Some(vec![Way::Underfloor]), ..circuit });
    let faces = [
        (1145, 2400),
        (1255, 1000),
        (4685, 600),
        (4685, 3600),
        (1255, 7000),
        (4685, 4400),
        (4685, 7000),
    ];
    let points = build.sockets(circuit, house.level, LOW, &faces);
    build.mark(points[0], "H-S1");
    let (first, second) = (points[0], points[1]);
    let edited = &mut build.plan.circuits[&circuit];
    // The electrician starts in the hall and goes round by the old hatch.
    edited.order = vec![first, second];
    edited.pins = vec![Pin {
        from: End::Board(house.board),
        to: End::Point(first),
        through: vec![PinPlace { void: house.subfloor, at: Point2::new(640, 1800) }],
    }];
}

fn rear_sockets(build: &mut Build, house: &House) {
    let level = house.level;
    let living = sockets(house, 2, "Sockets: living");
    let ways = Some(vec![Way::Underfloor]);
    let wiring = Wiring::ChainWithSpurs;
    let living = build.circuit(Circuit { wiring, ways, ..living });
    let faces = [
        (115, 8200),
        (115, 10800),
        (4685, 8200),
        (4685, 10900),
        (2500, 7555),
        (4200, 7555),
        (2400, 11445),
    ];
    build.sockets(living, level, LOW, &faces);
    let kitchen =
        build.circuit(Circuit { wiring, ..sockets(house, 3, "Sockets: kitchen, laundry") });
    let bench = [(115, 12300), (115, 13200), (115, 14200), (2645, 12400), (2645, 13600)];
    build.sockets(kitchen, level, BENCH, &bench);
    let laundry = build.sockets(kitchen, level, BENCH, &[(4685, 14600), (3100, 13755)]);
    build.edit(laundry[0], |point| point.note = "washing machine".to_owned());
    // On the angled wall, on its outer face.
    let place = build.beside(level, (2740, 15804), 600);
    build.point(kitchen, PointKind::WeatherproofSocket, place);
}

fn lighting(build: &mut Build, house: &House, number: u16, name: &str) -> CircuitId {
    let usage = CircuitUse::Lighting;
    let circuit = chain(house.board, number, name, usage, flat(150), device(10.0, Curve::C));
    let (loop_at, ways) = (Some(LoopAt::Light), Some(vec![Way::Overhead]));
    build.circuit(Circuit { loop_at, ways, ..circuit })
}

fn control(
    build: &mut Build,
    level: LevelId,
    circuit: CircuitId,
    lights: &[(PointKind, At)],
    switches: &[At],
) {
    let lights: Vec<PointId> =
        lights.iter().map(|(kind, at)| build.point(circuit, *kind, ceiling(level, *at))).collect();
    let switches: Vec<PointId> = switches
        .iter()
        .map(|face| {
            let place = build.beside(level, *face, SWITCH);
            build.point(circuit, PointKind::Switch, place)
        })
        .collect();
    build.control(&lights, &switches);
}

fn front_lights(build: &mut Build, house: &House) {
    use PointKind::Luminaire;
    let circuit = lighting(build, house, 4, "Lights: front");
    let mut room =
        |lights: &[_], switches: &[At]| control(build, house.level, circuit, lights, switches);
    let hall = [(Luminaire, (630, 2000)), (Luminaire, (630, 5800))];
    room(&hall, &[(1145, 300), (1145, 3800), (1145, 7300)]);
    room(&[(Luminaire, (2970, 2030))], &[(1255, 2650)]);
    room(&[(Luminaire, (2970, 5750))], &[(1255, 5550)]);
}

fn rear_lights(build: &mut Build, house: &House) {
    use PointKind::{Downlight, ExhaustFan, Luminaire};
    let circuit = lighting(build, house, 5, "Lights: rear");
    let mut room =
        |lights: &[_], switches: &[At]| control(build, house.level, circuit, lights, switches);
    room(&[(Luminaire, (2400, 9500))], &[(1200, 7555), (2100, 11445)]);
    let kitchen =
        [(Downlight, (1380, 12400)), (Downlight, (1380, 13600)), (Downlight, (1380, 14600))];
    room(&kitchen, &[(2100, 11555), (2645, 14100)]);
    room(&[(Luminaire, (3720, 12600))], &[(2850, 11445)]);
    room(&[(ExhaustFan, (3720, 13300))], &[(3800, 11445)]);
    room(&[(Luminaire, (3720, 14700))], &[(2755, 15150)]);
}

fn alarms(build: &mut Build, house: &House) {
    let usage = CircuitUse::Alarms;
    let circuit = chain(house.board, 6, "Smoke alarms", usage, flat(150), device(10.0, Curve::C));
    let circuit = build.circuit(circuit);
    for at in [(630, 4000), (2970, 3000), (2970, 6500), (2400, 8300)] {
        build.point(circuit, PointKind::SmokeAlarm, ceiling(house.level, at));
    }
}

fn fixed(build: &mut Build, house: &House) {
    let usage = CircuitUse::Fixed;
    let mut single = |number, name, size, rating, (kind, face, height, load): (_, At, i64, f64)| {
        let circuit = chain(house.board, number, name, usage, flat(size), device(rating, Curve::C));
        let circuit = build.circuit(Circuit { wiring: Wiring::Single, ..circuit });
        let place = build.beside(house.level, face, height);
        let point = build.point(circuit, kind, place);
        build.edit(point, |point| point.load = Some(Watts(load)));
    };
    single(7, "Oven", 400, 25.0, (PointKind::Oven, (115, 11900), 500, 3600.0));
    single(8, "Cooktop", 600, 32.0, (PointKind::Cooktop, (115, 12700), 700, 7000.0));
    single(9, "Hot water", 400, 25.0, (PointKind::WaterHeater, (4685, 15500), 1500, 3600.0));
    single(10, "Heater", 250, 16.0, (PointKind::Heater, (3700, 4055), 300, 2400.0));
}
