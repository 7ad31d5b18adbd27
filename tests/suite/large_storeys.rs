//! Storeys with so many walls that the fast network lays further core lines:
//! still what the plain one says.

use wirewend::plan::*;
use wirewend::space::{FastNetwork, Modes, Network, Space};
use wirewend::units::{Angle, Mm, Point2};

/// Two storeys of a long corridor with so many walls across that stand out
/// beyond it on one side; a void between them and one over them.
fn comb(walls: i64) -> Plan {
    let mut plan = Plan::default();
    let void = |kind, z| Void {
        name: String::new(),
        kind,
        z: Mm::new(z),
        depth: Mm::new(200),
        direction: Angle::ZERO,
        joists: None,
        insulation: Mm::ZERO,
        access: Access::Crawl,
        outline: None,
    };
    plan.voids.insert(VoidId(1), void(VoidKind::BetweenFloors, 2600));
    plan.voids.insert(VoidId(2), void(VoidKind::RoofSpace, 5400));
    plan.next_id = 10;
    let mut next = || {
        plan.next_id += 1;
        plan.next_id
    };
    for (floor, above, below) in [(0, VoidId(1), None), (2700, VoidId(2), Some(VoidId(1)))] {
        let level = LevelId(next());
        let drawn = Level {
            name: String::new(),
            floor: Mm::new(floor),
            height: Mm::new(2500),
            above: vec![above],
            below: below.into_iter().collect(),
        };
        plan.levels.insert(level, drawn);
        let long = 1000 * walls;
        let outline = [(0, 0), (long, 0), (long, 1000), (0, 1000)];
        let outline = outline.map(|(x, y)| Point2::new(x, y)).to_vec();
        let usage = RoomUse::Hall;
        plan.rooms.insert(RoomId(next()), Room { level, name: String::new(), usage, outline });
        let ends = (0..walls).map(|index| ((1000 * index, 0), (1000 * index, 2000)));
        for (a, b) in std::iter::once(((0, 0), (long, 0))).chain(ends) {
            let wall = Wall {
                level,
                a: Point2::new(a.0, a.1),
                b: Point2::new(b.0, b.1),
                thickness: Mm::new(100),
                build: WallBuild::Stud,
                insulated: false,
                wet: None,
            };
            plan.walls.insert(WallId(next()), wall);
        }
    }
    plan
}

#[test]
fn fast_and_plain_networks_agree_on_storeys_with_very_many_walls() {
    let mut plan = comb(220);
    let walls: Vec<WallId> = plan.walls.keys().copied().collect();
    // The long wall of each storey is the first of 221.
    let places = [4, 60, 218, 221 + 5, 221 + 110].map(|index| {
        let (along, height) = (Mm::new(700), Mm::new(300));
        Place::Wall(OnWall { wall: walls[index], along, height, face: Face::Left })
    });
    for (id, place) in (5000..).zip(places) {
        let point = Point { place: Some(place), ..Point::new(PointKind::Socket) };
        plan.points.insert(PointId(id), point);
    }
    let space = Space::of(&plan);
    let ends = places.map(|place| space.terminal(&plan, &place).unwrap());
    let modes = Modes::of(None);
    let fast = FastNetwork::of(&space, modes, &ends);
    let group = fast.group(&[0, 1, 2, 3, 4]);
    let network = Network::around(&space, modes, &ends);
    for from in 0..ends.len() {
        let plain = network.ways_from(from);
        for to in (0..ends.len()).filter(|to| *to != from) {
            assert!(plain.key(to).is_way(), "{from} to {to}");
            assert_eq!(group.key(from, to), plain.key(to), "{from} to {to}");
        }
    }
}
