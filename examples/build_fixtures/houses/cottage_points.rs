//! Circuits, points and lighting controls of the cottage.

use wirewend::plan::*;
use wirewend::units::{Csa, Mm, Watts};

use super::build::{Build, ceiling, chain, device, flat};
use super::cottage::Ground;

/// Centre of a socket-outlet above the floor, mm: common practice.
const LOW: i64 = 300;
/// Centre of a socket-outlet over a benchtop of 900 mm, mm: common practice.
const BENCH: i64 = 1100;
/// Centre of a switch above the floor, mm: common practice.
const SWITCH: i64 = 1100;

pub(crate) fn draw(build: &mut Build, ground: &Ground) {
    day_lights(build, ground);
    night_lights(build, ground);
    alarms(build, ground);
    bedroom_sockets(build, ground);
    living_sockets(build, ground);
    kitchen_sockets(build, ground);
    fixed(build, ground);
    yard(build, ground);
}

fn lighting(build: &mut Build, board: BoardId, number: u16, name: &str) -> CircuitId {
    let usage = CircuitUse::Lighting;
    let circuit = chain(board, number, name, usage, flat(150), device(10.0, Curve::C));
    build.circuit(Circuit { loop_at: Some(LoopAt::Light), ..circuit })
}

fn day_lights(build: &mut Build, &Ground { level, board }: &Ground) {
    let circuit = lighting(build, board, 1, "Lights: living, kitchen, hall, porch");
    let light = |build: &mut Build, kind, at| build.point(circuit, kind, ceiling(level, at));
    let switch = |build: &mut Build, face| {
        let place = build.beside(level, face, SWITCH);
        build.point(circuit, PointKind::Switch, place)
    };
    let living = [(1500, 1835), (3400, 1835)].map(|at| light(build, PointKind::Luminaire, at));
    let at_living = switch(build, (4745, 2100));
    build.control(&living, &[at_living]);
    let kitchen = [(900, 4900), (900, 6800), (2400, 4900), (2400, 6800), (3900, 5800)]
        .map(|at| light(build, PointKind::Downlight, at));
    let at_hall_door = switch(build, (4745, 4700));
    let at_living_gap = switch(build, (1400, 3655));
    build.control(&kitchen, &[at_hall_door, at_living_gap]);
    let hall =
        [(5525, 2300), (6500, 4105), (9000, 4105)].map(|at| light(build, PointKind::Luminaire, at));
    let at_front_door = switch(build, (6100, 125));
    build.edit(at_front_door, |point| point.gangs = 2);
    build.mark(at_front_door, "H-SW1");
    let at_corner = switch(build, (4855, 3400));
    let at_end = switch(build, (10345, 4600));
    build.control(&hall, &[at_front_door, at_corner, at_end]);
    let porch = light(build, PointKind::Luminaire, (5525, -860));
    build.control(&[porch], &[at_front_door]);
    let back_door = build.beside(level, (5300, 8125), 2000);
    let outside = build.point(circuit, PointKind::WallLight, back_door);
    let at_back_door = switch(build, (6450, 7875));
    build.control(&[outside], &[at_back_door]);
}

fn night_lights(build: &mut Build, &Ground { level, board }: &Ground) {
    let circuit = lighting(build, board, 2, "Lights: bedrooms, bathroom, laundry");
    let mut room = |kind, at, face| {
        let light = build.point(circuit, kind, ceiling(level, at));
        let place = build.beside(level, face, SWITCH);
        let switch = build.point(circuit, PointKind::Switch, place);
        build.control(&[light], &[switch]);
        light
    };
    room(PointKind::Luminaire, (7700, 1785), (8450, 3445));
    room(PointKind::Luminaire, (10840, 1785), (10280, 3445));
    room(PointKind::Luminaire, (10715, 6320), (10455, 4600));
    room(PointKind::LinearLight, (5725, 6320), (6000, 4765));
    room(PointKind::Luminaire, (7775, 6000), (8300, 4655));
    let bath_fan = room(PointKind::ExhaustFan, (7775, 7300), (7300, 4655));
    let laundry_fan = room(PointKind::ExhaustFan, (6200, 7300), (6200, 4765));
    for fan in [bath_fan, laundry_fan] {
        build.edit(fan, |point| point.load = Some(Watts(40.0)));
    }
}

fn alarms(build: &mut Build, &Ground { level, board }: &Ground) {
    let usage = CircuitUse::Alarms;
    let circuit = chain(board, 3, "Smoke alarms", usage, flat(150), device(10.0, Curve::C));
    let circuit = build.circuit(circuit);
    for (at, mark) in [
        ((5525, 3800), "H-SA1"),
        ((7700, 2600), "B1-SA1"),
        ((10840, 2600), "B2-SA1"),
        ((10715, 5500), "B3-SA1"),
        ((9700, 4105), "H-SA2"),
    ] {
        let alarm = build.point(circuit, PointKind::SmokeAlarm, ceiling(level, at));
        build.mark(alarm, mark);
    }
}

fn sockets_circuit(build: &mut Build, board: BoardId, number: u16, name: &str) -> CircuitId {
    let usage = CircuitUse::Sockets;
    build.circuit(chain(board, number, name, usage, flat(250), device(16.0, Curve::C)))
}

fn bedroom_sockets(build: &mut Build, &Ground { level, board }: &Ground) {
    let circuit = sockets_circuit(build, board, 4, "Sockets: bedrooms, hall");
    let faces = [
        (6305, 1000),
        (8900, 125),
        (9095, 2400),
        (9205, 1000),
        (12475, 1800),
        (9205, 2600),
        (12475, 4200),
        (12475, 7300),
        (8955, 7000),
        (8955, 5600),
        (6600, 4655),
    ];
    build.sockets(circuit, level, LOW, &faces);
}

fn living_sockets(build: &mut Build, &Ground { level, board }: &Ground) {
    let circuit = sockets_circuit(build, board, 5, "Sockets: living, laundry, bathroom");
    let living = [(125, 600), (125, 3300), (1200, 3545), (4745, 3300), (4745, 700), (800, 125)];
    let marks = build.sockets(circuit, level, LOW, &living);
    build.mark(marks[0], "L-S1");
    let washer = build.sockets(circuit, level, BENCH, &[(6595, 6000), (4855, 6400)]);
    build.edit(washer[0], |point| point.note = "washing machine".to_owned());
    build.sockets(circuit, level, BENCH, &[(8845, 5400)]);
}

fn kitchen_sockets(build: &mut Build, &Ground { level, board }: &Ground) {
    let circuit = sockets_circuit(build, board, 6, "Sockets: kitchen");
    build.sockets(circuit, level, BENCH, &[(125, 4700), (125, 6700), (700, 7875), (1700, 7875)]);
    let low = build.sockets(circuit, level, LOW, &[(4745, 5200), (4745, 7000)]);
    build.edit(low[0], |point| point.note = "refrigerator".to_owned());
    let place = build.beside(level, (125, 7600), LOW);
    let dishwasher = build.point(circuit, PointKind::Socket, place);
    build.edit(dishwasher, |point| point.note = "dishwasher, under the bench".to_owned());
    let place = build.beside(level, (125, 5050), 1900);
    let hood = build.point(circuit, PointKind::RangeHood, place);
    build.edit(hood, |point| point.optional = true);
}

fn fixed(build: &mut Build, &Ground { level, board }: &Ground) {
    let mut appliance = |number,
                         name: &str,
                         size,
                         rating,
                         points: &[(PointKind, (i64, i64), i64, f64)]| {
        let usage = CircuitUse::Fixed;
        let circuit =
            build.circuit(chain(board, number, name, usage, flat(size), device(rating, Curve::C)));
        for (kind, face, height, load) in points {
            let place = build.beside(level, *face, *height);
            let point = build.point(circuit, *kind, place);
            build.edit(point, |point| point.load = (*load > 0.0).then_some(Watts(*load)));
        }
    };
    appliance(7, "Oven", 400, 20.0, &[(PointKind::Oven, (1000, 3655), 600, 3200.0)]);
    appliance(
        8,
        "Cooktop",
        600,
        32.0,
        &[
            (PointKind::Isolator, (125, 4450), 1100, 0.0),
            (PointKind::Cooktop, (125, 5000), 700, 7200.0),
        ],
    );
    appliance(9, "Hot water", 400, 20.0, &[(PointKind::WaterHeater, (6800, 8125), 600, 3600.0)]);
    appliance(
        10,
        "Air conditioner",
        400,
        20.0,
        &[
            (PointKind::Isolator, (12725, 4700), 1200, 0.0),
            (PointKind::AirConditioner, (12725, 4200), 500, 3100.0),
        ],
    );
}

fn yard(build: &mut Build, &Ground { level, board }: &Ground) {
    let cable = Cable { cores: 2, size: Csa::from_hundredths(400), make: CableMake::Round };
    let name = "Shed, gate and outdoor socket";
    let circuit = chain(board, 11, name, CircuitUse::Sockets, cable, device(20.0, Curve::C));
    let circuit = build.circuit(circuit);
    let place = build.beside(level, (4500, 8125), 600);
    build.point(circuit, PointKind::WeatherproofSocket, place);
    build.sockets(circuit, level, 1100, &[(11500, 13855), (9545, 12700)]);
    let gate =
        Place::Post(OnPost { level, at: super::build::xy((15200, 10200)), height: Mm::new(500) });
    let motor = build.point(circuit, PointKind::DoorMotor, gate);
    build.mark(motor, "G-DO1");
    build.edit(motor, |point| point.load = Some(Watts(400.0)));
}
