//! Circuits, points and lighting controls of the townhouse.

use wirewend::plan::*;
use wirewend::units::{Amps, Watts};

use super::build::{At, Build, ceiling, chain, device, flat};
use super::townhouse::House;

/// Centre of a socket-outlet above the floor, mm: common practice.
const LOW: i64 = 490;
/// Centre of a socket-outlet over a worktop of 900 mm, mm: common practice.
const WORKTOP: i64 = 1100;
/// Centre of a switch above the floor, mm: common practice.
const SWITCH: i64 = 1150;

pub(crate) fn draw(build: &mut Build, house: &House) {
    ground_ring(build, house);
    upper_ring(build, house);
    ground_lights(build, house);
    upper_lights(build, house);
    alarms(build, house);
    fixed(build, house);
}

fn ring(build: &mut Build, board: BoardId, number: u16, name: &str) -> CircuitId {
    let usage = CircuitUse::Sockets;
    let circuit = chain(board, number, name, usage, flat(250), device(32.0, Curve::B));
    build.circuit(Circuit { wiring: Wiring::Ring, ..circuit })
}

fn spur(build: &mut Build, circuit: CircuitId, point: PointId, from: PointId) {
    build.plan.circuits[&circuit].spurs.push(Spur { point, from: End::Point(from) });
}

fn ground_ring(build: &mut Build, &House { ground, board, .. }: &House) {
    let circuit = ring(build, board, 1, "Ring: ground floor");
    let low = [
        (2000, 2600),
        (2100, 600),
        (2600, 135),
        (5665, 1200),
        (5665, 4200),
        (3000, 4950),
        (2100, 3600),
        (5665, 5900),
    ];
    build.sockets(circuit, ground, LOW, &low);
    let worktop = [(135, 5600), (135, 6500), (135, 7900), (2500, 8465), (2700, 5050)];
    let worktop = build.sockets(circuit, ground, WORKTOP, &worktop);
    build.mark(worktop[0], "K-S1");
    let place = build.beside(ground, (5300, 8735), 600);
    let garden = build.point(circuit, PointKind::WeatherproofSocket, place);
    let inside = build.sockets(circuit, ground, LOW, &[(5300, 8465)]);
    spur(build, circuit, garden, inside[0]);
}

fn upper_ring(build: &mut Build, &House { upper, board, .. }: &House) {
    let circuit = ring(build, board, 2, "Ring: first floor");
    let faces = [
        (2100, 600),
        (2500, 135),
        (5665, 1000),
        (5665, 4400),
        (2100, 4400),
        (2600, 5050),
        (5665, 6000),
        (5665, 8000),
        (2100, 7600),
        (2000, 4400),
        (135, 1000),
    ];
    let ring = build.sockets(circuit, upper, LOW, &faces);
    let study = build.sockets(circuit, upper, LOW, &[(2000, 1000)]);
    build.edit(study[0], |point| point.gangs = 1);
    spur(build, circuit, study[0], ring[0]);
}

fn lights(build: &mut Build, board: BoardId, number: u16, name: &str, at: LoopAt) -> CircuitId {
    let usage = CircuitUse::Lighting;
    let circuit = chain(board, number, name, usage, flat(150), device(6.0, Curve::B));
    build.circuit(Circuit { loop_at: Some(at), ..circuit })
}

fn switch(build: &mut Build, circuit: CircuitId, level: LevelId, face: At) -> PointId {
    let place = build.beside(level, face, SWITCH);
    build.point(circuit, PointKind::Switch, place)
}

fn ground_lights(build: &mut Build, &House { ground, board, .. }: &House) {
    let name = "Lights: ground floor";
    let circuit = lights(build, board, 3, name, LoopAt::Switch);
    let at_ceiling = |build: &mut Build, kind, at| build.point(circuit, kind, ceiling(ground, at));
    let hall = at_ceiling(build, PointKind::Luminaire, (1550, 1500));
    let at_front_door = switch(build, circuit, ground, (300, 135));
    let at_kitchen_door = switch(build, circuit, ground, (2000, 4700));
    build.control(&[hall], &[at_front_door, at_kitchen_door]);
    let lounge = [(3880, 1700), (3880, 3500)].map(|at| at_ceiling(build, PointKind::Luminaire, at));
    let place = build.beside(ground, (2100, 2100), SWITCH);
    let dimmer = build.point(circuit, PointKind::Dimmer, place);
    build.control(&lounge, &[dimmer]);
    let kitchen = [(1000, 6000), (1000, 7600), (2400, 6000), (2400, 7600)]
        .map(|at| at_ceiling(build, PointKind::Downlight, at));
    let at_kitchen = switch(build, circuit, ground, (2100, 5050));
    build.control(&kitchen, &[at_kitchen]);
    let diner = at_ceiling(build, PointKind::Luminaire, (4400, 6750));
    let at_garden_door = switch(build, circuit, ground, (3100, 8465));
    let at_diner = switch(build, circuit, ground, (3000, 5050));
    build.control(&[diner], &[at_diner, at_garden_door]);
}

fn upper_lights(build: &mut Build, &House { ground, upper, board }: &House) {
    let circuit = lights(build, board, 4, "Lights: first floor", LoopAt::Light);
    let at_ceiling = |build: &mut Build, kind, at| build.point(circuit, kind, ceiling(upper, at));
    let landing = at_ceiling(build, PointKind::Luminaire, (1530, 4000));
    // Both switches stay on this circuit, so that no neutral is borrowed.
    let below = switch(build, circuit, ground, (2000, 2000));
    let above = switch(build, circuit, upper, (2000, 2500));
    build.control(&[landing], &[below, above]);
    let mut room = |at, face| {
        let light = at_ceiling(build, PointKind::Luminaire, at);
        let switch = switch(build, circuit, upper, face);
        build.control(&[light], &[switch]);
    };
    room((1070, 1040), (1000, 1950));
    room((3880, 2540), (2100, 3500));
    room((3880, 6760), (2100, 6100));
    let bathroom = at_ceiling(build, PointKind::Downlight, (1070, 7000));
    let fan = at_ceiling(build, PointKind::ExhaustFan, (1070, 8000));
    let cord = build.point(circuit, PointKind::PullCord, ceiling(upper, (1800, 6350)));
    build.control(&[bathroom, fan], &[cord]);
}

fn alarms(build: &mut Build, &House { ground, upper, board }: &House) {
    let usage = CircuitUse::Alarms;
    let circuit = chain(board, 5, "Alarms", usage, flat(150), device(6.0, Curve::B));
    let circuit = build.circuit(circuit);
    for (kind, level, at) in [
        (PointKind::SmokeAlarm, ground, (1550, 2800)),
        (PointKind::SmokeAlarm, ground, (3000, 2540)),
        (PointKind::HeatAlarm, ground, (1700, 6800)),
        (PointKind::SmokeAlarm, upper, (1530, 5200)),
    ] {
        build.point(circuit, kind, ceiling(level, at));
    }
}

fn fixed(build: &mut Build, &House { ground, upper, board }: &House) {
    let usage = CircuitUse::Fixed;
    let cooker = chain(board, 6, "Cooker", usage, flat(600), device(32.0, Curve::B));
    let cooker = build.circuit(cooker);
    let place = build.beside(ground, (3300, 5050), WORKTOP);
    build.point(cooker, PointKind::Isolator, place);
    let place = build.beside(ground, (3800, 5050), 600);
    let range = build.point(cooker, PointKind::Cooktop, place);
    build.edit(range, |point| point.load = Some(Watts(9000.0)));
    let name = "Shower";
    let shower = chain(board, 7, name, usage, flat(1000), device(40.0, Curve::B));
    let shower = build.circuit(shower);
    let isolator = build.point(shower, PointKind::PullCord, ceiling(upper, (1800, 6700)));
    build.edit(isolator, |point| point.kind = PointKind::Isolator);
    let place = build.beside(upper, (135, 7850), 2100);
    let unit = build.point(shower, PointKind::Shower, place);
    build.edit(unit, |point| {
        point.load = Some(Watts(8500.0));
        point.note = "connection above the spray, as the maker says".to_owned();
    });
    let heater = chain(board, 8, "Immersion heater", usage, flat(250), device(16.0, Curve::B));
    let heater = build.circuit(Circuit { wiring: Wiring::Single, ..heater });
    let place = build.beside(upper, (135, 5600), 1200);
    let unit = build.point(heater, PointKind::WaterHeater, place);
    build.edit(unit, |point| point.load = Some(Watts(3000.0)));
    // The circuits left on one shared device are those that may trip together.
    build.plan.circuits[&heater].rcd_group = "B".to_owned();
    build.plan.circuits[&heater].device =
        Some(Device { rating: Amps(16.0), curve: Curve::B, residual: None });
}
