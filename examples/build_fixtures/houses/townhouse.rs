//! A two-storey house with a concrete ground floor, a void between the
//! storeys and a roof space.
//!
//! Cavity walls outside; block below and studs above inside. Rooms are drawn
//! along their inner faces.

use wirewend::plan::*;
use wirewend::units::{Amps, Angle, Mm, Ohms, Volts};

use super::build::{At, Build, Kind};
use super::{shop, townhouse_points};

/// The ids that the points need.
pub(crate) struct House {
    pub(crate) ground: LevelId,
    pub(crate) upper: LevelId,
    pub(crate) board: BoardId,
}

pub(crate) fn plan() -> Plan {
    let mut build = Build::new(project());
    let ground = build.level("Ground floor", 0, 2400);
    let upper = build.level("First floor", 2700, 2400);
    ground_shell(&mut build, ground);
    upper_shell(&mut build, upper);
    voids(&mut build, ground, upper);
    openings(&mut build, ground, upper);
    rooms(&mut build, ground, upper);
    let place = build.beside(ground, (135, 700), 1400);
    let board = build.board(board(place));
    townhouse_points::draw(&mut build, &House { ground, upper, board });
    build.plan.allowances.tail_board = Mm::new(1000);
    build.plan.stock = shop::stock(&[100, 150, 250, 600, 1000]);
    build.plan.prices = shop::prices("GBP", 200);
    build.plan
}

fn project() -> Project {
    Project {
        title: "Townhouse rewire".to_owned(),
        site: "14 Sample Row".to_owned(),
        client: "B. Client".to_owned(),
        drawn_by: "D. Rawer".to_owned(),
        contractor: "Example Electrical".to_owned(),
        number: "E-201".to_owned(),
        revision: "B".to_owned(),
        date: "2026-11-25".to_owned(),
        status: Status::Planned,
        built_as_planned: None,
        regime: Regime::BS,
        notes: shop::INVENTED.to_owned(),
    }
}

fn board(place: Place) -> Board {
    Board {
        label: "CU".to_owned(),
        place: Some(place),
        supply: Supply {
            voltage: Some(Volts(230.0)),
            phases: Some(1),
            loop_impedance: Some(Ohms(0.35)),
            fault_current: Some(Amps(1500.0)),
            earthing: Some(Earthing::TnCS),
            main_switch: Some(Amps(100.0)),
        },
        ways: Some(12),
    }
}

const OUTER: [At; 5] = [(0, 0), (5800, 0), (5800, 8600), (0, 8600), (0, 0)];
const CAVITY: Kind = Kind::outer(WallBuild::CavityMasonry, 270, true);
const BLOCK: Kind = Kind::new(WallBuild::SolidMasonry, 100);
const STUD: Kind = Kind::new(WallBuild::Stud, 100);

fn ground_shell(build: &mut Build, level: LevelId) {
    build.walls(level, &CAVITY, &OUTER);
    build.wall(level, (2050, 0), (2050, 5000), &BLOCK);
    build.wall(level, (0, 5000), (5800, 5000), &BLOCK);
}

fn upper_shell(build: &mut Build, level: LevelId) {
    build.walls(level, &CAVITY, &OUTER);
    build.wall(level, (2050, 0), (2050, 8600), &STUD);
    build.wall(level, (2050, 5000), (5800, 5000), &STUD);
    build.wall(level, (0, 2000), (2050, 2000), &STUD);
    build.wall(level, (0, 6100), (2050, 6100), &STUD);
}

fn voids(build: &mut Build, ground: LevelId, upper: LevelId) {
    let between = build.void(Void {
        name: "Between floors".to_owned(),
        kind: VoidKind::BetweenFloors,
        z: Mm::new(2550),
        depth: Mm::new(280),
        direction: Angle::ZERO,
        joists: Some(Joists { spacing: Mm::new(400), depth: Mm::new(220), thickness: Mm::new(47) }),
        insulation: Mm::ZERO,
        access: Access::Closed,
        outline: None,
    });
    let roof = build.void(Void {
        name: "Loft".to_owned(),
        kind: VoidKind::RoofSpace,
        z: Mm::new(5200),
        depth: Mm::new(1800),
        direction: Angle::from_millidegrees(90_000),
        joists: Some(Joists { spacing: Mm::new(600), depth: Mm::new(97), thickness: Mm::new(35) }),
        insulation: Mm::new(270),
        access: Access::Crawl,
        outline: None,
    });
    build.reaches(ground, &[between], &[]);
    build.reaches(upper, &[roof], &[between]);
    build.riser("service riser", (1900, 5950), &[between, roof]);
    let (between, roof) = (Plane::Void(between), Plane::Void(roof));
    build.area("stair well", between, ((135, 2050), (1065, 4950)), AreaEffect::KeepOut);
    for plane in [between, roof] {
        build.area("chimney", plane, ((5200, 2100), (5935, 3300)), AreaEffect::KeepOut);
    }
    build.area("water tank", roof, ((300, 6600), (1500, 7600)), AreaEffect::Percent(200));
    let (west, _) = build.wall_at(upper, (0, 7000));
    build.area("shower", Plane::Wall(west), ((300, 0), (1200, 2000)), AreaEffect::KeepOut);
}

fn openings(build: &mut Build, ground: LevelId, upper: LevelId) {
    build.door(ground, (1200, 0), 838, (700, 1000)); // front door
    build.door(ground, (2050, 1500), 762, (3000, 1000)); // lounge
    build.door(ground, (1550, 5000), 762, (1100, 6000)); // kitchen
    build.sliding_door(ground, (4200, 8600), 1800);
    build.window(ground, (3850, 0), 1800, 800, 2100);
    build.window(ground, (1500, 8600), 1200, 1050, 2100);
    build.door(upper, (1530, 2000), 762, (1100, 1000)); // study
    build.door(upper, (2050, 3000), 762, (3000, 2500)); // bedroom 1
    build.door(upper, (2050, 5560), 762, (3000, 6000)); // bedroom 2
    build.door(upper, (1100, 6100), 686, (1600, 7000)); // bathroom
    build.window(upper, (1050, 0), 900, 900, 2100);
    build.window(upper, (3850, 0), 1800, 900, 2100);
    build.window(upper, (3850, 8600), 1500, 900, 2100);
    build.window(upper, (1050, 8600), 600, 1400, 2100);
}

fn rooms(build: &mut Build, ground: LevelId, upper: LevelId) {
    let mut boxed = |level, name: &str, usage: RoomUse, (x0, y0): At, (x1, y1): At| {
        build.room(level, name, usage, &[(x0, y0), (x1, y0), (x1, y1), (x0, y1)]);
    };
    boxed(ground, "Hall and stairs", RoomUse::Hall, (135, 135), (2000, 4950));
    boxed(ground, "Lounge", RoomUse::Living, (2100, 135), (5665, 4950));
    boxed(ground, "Kitchen and diner", RoomUse::Kitchen, (135, 5050), (5665, 8465));
    boxed(upper, "Study", RoomUse::Study, (135, 135), (2000, 1950));
    boxed(upper, "Landing", RoomUse::Stair, (135, 2050), (2000, 6050));
    boxed(upper, "Bathroom", RoomUse::Bathroom, (135, 6150), (2000, 8465));
    boxed(upper, "Bedroom 1", RoomUse::Bedroom, (2100, 135), (5665, 4950));
    boxed(upper, "Bedroom 2", RoomUse::Bedroom, (2100, 5050), (5665, 8465));
}
