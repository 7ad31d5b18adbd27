//! A plan in the middle of being drawn: whatever can be missing is.

use wirewend::plan::*;
use wirewend::units::{Amps, Mm};

use super::build::{Build, Kind, bare, ceiling, chain, device, flat, outline_of};
use super::shop;

pub(crate) fn plan() -> Plan {
    let mut build = Build::new(Project {
        title: "Half drawn".to_owned(),
        notes: shop::INVENTED.to_owned(),
        ..Project::default()
    });
    let level = build.level("Ground floor", 0, 2500);
    // A storey of which nothing is known yet but its height.
    build.level("Upper floor", 2800, 2400);
    shell(&mut build, level);
    let board = build.board(Board {
        label: String::new(),
        place: None,
        supply: Supply::default(),
        ways: None,
    });
    circuits(&mut build, level, board);
    build.plan
}

fn shell(build: &mut Build, level: LevelId) {
    let outer = Kind::outer(WallBuild::BrickVeneer, 250, false);
    let stud = Kind::new(WallBuild::Stud, 110);
    // The fourth outer wall is still to be measured.
    build.walls(level, &outer, &[(7200, 4400), (0, 4400), (0, 0), (7200, 0)]);
    build.wall(level, (3600, 0), (3600, 4400), &stud);
    // A wall that does not reach anything yet.
    build.wall(level, (5400, 1000), (5400, 3000), &stud);
    build.window(level, (1800, 0), 1500, 900, 2100);
    build.door(level, (3600, 3400), 820, (3000, 3900));
    build.room(
        level,
        "Bedroom",
        RoomUse::Bedroom,
        &[(125, 125), (3545, 125), (3545, 4275), (125, 4275)],
    );
    build.room(level, "Room 2", RoomUse::Other, &[]);
    let roof = build.void(Void {
        name: "Roof space".to_owned(),
        kind: VoidKind::RoofSpace,
        z: Mm::new(2600),
        depth: Mm::new(900),
        direction: wirewend::units::Angle::ZERO,
        joists: None,
        insulation: Mm::ZERO,
        access: Access::default(),
        outline: Some(outline_of(&[(-125, -125), (7325, -125), (7325, 4525), (-125, 4525)])),
    });
    build.reaches(level, &[roof], &[]);
}

fn circuits(build: &mut Build, level: LevelId, board: BoardId) {
    let named = |name: &str, usage| chain(board, 0, name, usage, flat(250), device(20.0, Curve::C));
    let whole = build.circuit(Circuit { number: 1, ..named("Sockets", CircuitUse::Sockets) });
    // Neither board, cable nor device; and its number is taken.
    let lights = Circuit {
        number: 1,
        board: None,
        cable: None,
        device: None,
        ..named("Lights", CircuitUse::Lighting)
    };
    let lights = build.circuit(lights);
    let empty = named("Something for the kitchen", CircuitUse::Fixed);
    let device = Some(Device { rating: Amps(32.0), curve: Curve::B, residual: None });
    build.circuit(Circuit { number: 3, device, ..empty });
    build.sockets(whole, level, 300, &[(125, 1000), (3545, 1000)]);
    // Placed but on no circuit, on a circuit but not placed, and neither.
    let place = Some(build.beside(level, (125, 3000), 300));
    build.add(Point { place, ..bare(PointKind::Socket) });
    build.add(Point { circuit: Some(whole), ..bare(PointKind::Socket) });
    build.add(bare(PointKind::CarCharger));
    let light = build.point(lights, PointKind::Luminaire, ceiling(level, (1835, 2200)));
    let unswitched = build.point(lights, PointKind::Luminaire, ceiling(level, (5400, 2200)));
    let place = build.beside(level, (3545, 2800), 1100);
    let switch = build.point(lights, PointKind::Switch, place);
    build.control(&[light], &[switch]);
    build.control(&[unswitched], &[]);
    build.control(&[], &[]);
}
