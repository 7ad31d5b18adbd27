//! A single-storey house with a roof space, a shed and a gate.
//!
//! Slab floor, brick veneer outside, studs inside. Rooms are drawn along
//! their inner faces.

use wirewend::plan::*;
use wirewend::units::{Amps, Angle, Mm, Ohms, Volts};

use super::build::{At, Build, Kind, outline_of};
use super::{cottage_points, shop};

/// The ids that the points need.
pub(crate) struct Ground {
    pub(crate) level: LevelId,
    pub(crate) board: BoardId,
}

pub(crate) fn plan() -> Plan {
    let mut build = Build::new(project());
    let level = build.level("Ground floor", 0, 2400);
    shell(&mut build, level);
    voids(&mut build, level);
    openings(&mut build, level);
    rooms(&mut build, level);
    let place = build.beside(level, (6195, 700), 1500);
    let board = build.board(board(place));
    cottage_points::draw(&mut build, &Ground { level, board });
    build.plan.stock = shop::stock(&[150, 250, 400, 600]);
    build.plan.prices = shop::prices("AUD", 100);
    build.plan
}

fn project() -> Project {
    Project {
        title: "Cottage rewire".to_owned(),
        site: "3 Example Lane".to_owned(),
        client: "A. Client".to_owned(),
        drawn_by: "D. Rawer".to_owned(),
        contractor: "Example Electrical".to_owned(),
        number: "E-101".to_owned(),
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
            loop_impedance: Some(Ohms(0.3)),
            fault_current: Some(Amps(3000.0)),
            earthing: Some(Earthing::Men),
            main_switch: Some(Amps(63.0)),
        },
        ways: Some(18),
    }
}

fn shell(build: &mut Build, level: LevelId) {
    let veneer = Kind::outer(WallBuild::BrickVeneer, 250, true);
    let stud = Kind::new(WallBuild::Stud, 110);
    let shed = Kind::outer(WallBuild::Stud, 90, false);
    let house: [At; 5] = [(0, 0), (12600, 0), (12600, 8000), (0, 8000), (0, 0)];
    build.walls(level, &veneer, &house);
    build.wall(level, (4800, 0), (4800, 8000), &stud);
    build.wall(level, (0, 3600), (4800, 3600), &stud);
    build.wall(level, (6250, 0), (6250, 3500), &stud);
    build.wall(level, (6250, 3500), (12600, 3500), &stud);
    build.wall(level, (9150, 0), (9150, 3500), &stud);
    build.wall(level, (4800, 4710), (10400, 4710), &stud);
    build.wall(level, (10400, 3500), (10400, 4710), &stud);
    build.wall(level, (6650, 4710), (6650, 8000), &stud);
    build.wall(level, (8900, 4710), (8900, 8000), &stud);
    let yard: [At; 5] =
        [(9500, 11500), (12500, 11500), (12500, 13900), (9500, 13900), (9500, 11500)];
    build.walls(level, &shed, &yard);
}

fn voids(build: &mut Build, level: LevelId) {
    let roof = build.void(roof_space());
    let shed_roof = build.void(Void {
        name: "Shed roof".to_owned(),
        joists: None,
        insulation: Mm::ZERO,
        outline: Some(outline_of(&[(9455, 11455), (12545, 11455), (12545, 13945), (9455, 13945)])),
        ..roof_space()
    });
    let ground = build.void(Void {
        name: "Back garden".to_owned(),
        kind: VoidKind::Ground,
        z: Mm::new(-600),
        depth: Mm::new(600),
        direction: Angle::ZERO,
        joists: None,
        insulation: Mm::ZERO,
        access: Access::Closed,
        outline: Some(outline_of(&[(-500, 7875), (16000, 7875), (16000, 14500), (-500, 14500)])),
    });
    build.reaches(level, &[roof, shed_roof], &[ground]);
    areas(build, level, roof);
}

fn roof_space() -> Void {
    Void {
        name: "Roof space".to_owned(),
        kind: VoidKind::RoofSpace,
        z: Mm::new(2500),
        depth: Mm::new(1400),
        // Trusses span from front to back.
        direction: Angle::from_millidegrees(90_000),
        joists: Some(Joists { spacing: Mm::new(600), depth: Mm::new(90), thickness: Mm::new(35) }),
        insulation: Mm::new(175),
        access: Access::Crawl,
        outline: Some(outline_of(&[
            (-125, -125),
            (4200, -125),
            (4200, -1600),
            (7000, -1600),
            (7000, -125),
            (12725, -125),
            (12725, 8125),
            (-125, 8125),
        ])),
    }
}

fn areas(build: &mut Build, level: LevelId, roof: VoidId) {
    let roof = Plane::Void(roof);
    build.area("flue", roof, ((125, 1400), (825, 2100)), AreaEffect::KeepOut);
    build.area("loft hatch", roof, ((8000, 3800), (8600, 4400)), AreaEffect::KeepOut);
    build.area("deep insulation", roof, ((125, 125), (4745, 3545)), AreaEffect::Percent(160));
    build.area("boarded walkway", roof, ((4855, 3555), (10345, 4655)), AreaEffect::Percent(80));
    // The old end wall of the house, before it was made longer.
    let old_end = AreaEffect::Barrier(Mm::new(2500));
    build.area("old brick gable", roof, ((8845, -125), (8955, 8125)), old_end);
    let (north, _) = build.wall_at(level, (1000, 8000));
    build.area("gas meter", Plane::Wall(north), ((12000, 0), (12600, 900)), AreaEffect::KeepOut);
}

fn openings(build: &mut Build, level: LevelId) {
    build.door(level, (5525, 0), 820, (5000, 1000)); // front door
    build.door(level, (4800, 2700), 820, (4000, 3400)); // living
    build.door(level, (4800, 4160), 820, (4000, 3700)); // kitchen
    build.gap(level, (2400, 3600), 1500, 2100); // living to kitchen
    build.door(level, (7900, 3500), 820, (7400, 3000)); // bedroom 1
    build.door(level, (9710, 3500), 820, (9200, 3000)); // bedroom 2
    build.door(level, (10400, 4105), 820, (11000, 3600)); // main bedroom
    build.door(level, (5500, 4710), 720, (5100, 5500)); // laundry
    build.door(level, (7800, 4710), 720, (8300, 5500)); // bathroom
    build.door(level, (5900, 8000), 820, (5300, 7000)); // back door
    build.window(level, (2400, 0), 1800, 900, 2100);
    build.window(level, (0, 2700), 900, 900, 2100);
    build.window(level, (0, 5800), 1200, 1050, 2100);
    build.sliding_door(level, (3300, 8000), 1800);
    build.window(level, (7700, 0), 1500, 900, 2100);
    build.window(level, (10900, 0), 1500, 900, 2100);
    build.window(level, (12600, 6000), 1200, 900, 2100);
    build.window(level, (10700, 8000), 1800, 900, 2100);
    build.window(level, (7775, 8000), 600, 1500, 2100);
    build.door(level, (10300, 11500), 820, (10000, 12500)); // shed
    build.window(level, (12500, 12700), 600, 1200, 1800);
}

fn rooms(build: &mut Build, level: LevelId) {
    let mut boxed = |name: &str, usage: RoomUse, (x0, y0): At, (x1, y1): At| {
        build.room(level, name, usage, &[(x0, y0), (x1, y0), (x1, y1), (x0, y1)]);
    };
    boxed("Living", RoomUse::Living, (125, 125), (4745, 3545));
    boxed("Kitchen and dining", RoomUse::Kitchen, (125, 3655), (4745, 7875));
    boxed("Bedroom 1", RoomUse::Bedroom, (6305, 125), (9095, 3445));
    boxed("Bedroom 2", RoomUse::Bedroom, (9205, 125), (12475, 3445));
    boxed("Laundry", RoomUse::Laundry, (4855, 4765), (6595, 7875));
    boxed("Bathroom", RoomUse::Bathroom, (6705, 4765), (8845, 7875));
    boxed("Porch", RoomUse::Outdoor, (4200, -1600), (7000, -125));
    boxed("Shed", RoomUse::Store, (9545, 11545), (12455, 13855));
    let hall: [At; 6] =
        [(4855, 125), (6195, 125), (6195, 3555), (10345, 3555), (10345, 4655), (4855, 4655)];
    build.room(level, "Hall", RoomUse::Hall, &hall);
    let main_bedroom: [At; 6] =
        [(8955, 4765), (10455, 4765), (10455, 3555), (12475, 3555), (12475, 7875), (8955, 7875)];
    build.room(level, "Main bedroom", RoomUse::Bedroom, &main_bedroom);
}
