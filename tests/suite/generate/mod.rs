//! Houses by chance that favour the awkward: shared corners, walls in line,
//! T-junctions, openings in corners, areas that touch and overlap, concrete
//! where a void could be, joists and walls at odd angles.
//!
//! Every plan hangs together (see `sound`), and the same seed always gives
//! the same plan.

#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails by panicking")]

mod chance;
mod circuits;
mod points;
mod shell;
mod symmetry;
mod voids;

use std::collections::BTreeMap;

use proptest::prelude::*;
use wirewend::plan::*;
use wirewend::units::Angle;

use crate::sound::problems;
use chance::Chance;

pub(crate) use symmetry::{mirrored, moved, turned};

/// How large a generated plan may grow.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Size {
    /// Storeys, 1 to 3.
    pub(crate) storeys: usize,
    /// Rooms on each storey, 1 to 12.
    pub(crate) rooms: usize,
    /// Points on the whole plan, about.
    pub(crate) points: usize,
}

/// A plan of a size that the seed chooses.
pub(crate) fn generated_plan(seed: u64) -> Plan {
    let mut chance = Chance::new(seed);
    let size = Size {
        storeys: chance.within(1, 3),
        rooms: chance.within(1, 12),
        points: chance.within(2, 40),
    };
    sized_plan(seed, size)
}

/// A plan of a given size.
pub(crate) fn sized_plan(seed: u64, size: Size) -> Plan {
    let mut chance = Chance::new(seed ^ 0x5eed);
    let mut plan = Plan { next_id: 1, ..Plan::default() };
    let house = shell::draw(&mut plan, &mut chance, size);
    voids::draw(&mut plan, &mut chance, &house);
    let spots = points::spots(&plan, &house);
    circuits::draw(&mut plan, &mut chance, &house, &spots, size.points);
    match chance.below(4) {
        0 => turned(
            &plan,
            Angle::from_millidegrees(i32::try_from(chance.between(-180_000, 180_000)).unwrap()),
        ),
        1 => turned(&plan, Angle::from_millidegrees(90_000)),
        _ => plan,
    }
}

/// Plans for property tests; they shrink towards fewer storeys, rooms and
/// points.
pub(crate) fn plans() -> impl Strategy<Value = Plan> {
    let size = (1_usize..=3, 1_usize..=12, 2_usize..=40)
        .prop_map(|(storeys, rooms, points)| Size { storeys, rooms, points });
    (any::<u64>().no_shrink(), size).prop_map(|(seed, size)| sized_plan(seed, size))
}

fn next_id(plan: &mut Plan) -> u32 {
    plan.next_id += 1;
    plan.next_id - 1
}

#[test]
fn generated_plans_hang_together() {
    for seed in 0..3000 {
        assert_eq!(problems(&generated_plan(seed)), Vec::<String>::new(), "seed {seed}");
    }
}

#[test]
fn the_same_seed_gives_the_same_plan() {
    for seed in [0, 1, 77, u64::MAX] {
        assert_eq!(generated_plan(seed), generated_plan(seed), "seed {seed}");
    }
    assert_ne!(generated_plan(1), generated_plan(2), "another seed, another plan");
}

/// What a plan shows, by name, for counting.
fn features(plan: &Plan) -> Vec<String> {
    let mut found = vec![format!("{} storeys", plan.levels.len())];
    found.extend(plan.voids.values().map(|void| format!("{:?}", void.kind)));
    found.extend(plan.walls.values().map(|wall| format!("{:?}", wall.build)));
    found.extend(plan.points.values().map(|point| format!("{:?}", point.kind.family())));
    found.extend(plan.areas.values().map(|area| match (area.on, area.effect) {
        (Plane::Wall(_), _) => "wall area".to_owned(),
        (_, AreaEffect::KeepOut) => "keep-out".to_owned(),
        (_, AreaEffect::Percent(_)) => "percent".to_owned(),
        (_, AreaEffect::Barrier(_)) => "barrier".to_owned(),
    }));
    for circuit in plan.circuits.values() {
        found.push(format!("{:?}", circuit.wiring));
        found.extend(circuit.loop_at.map(|at| format!("loop at {at:?}")));
        found.extend(circuit.ways.iter().flatten().map(|way| format!("{way:?}")));
        let said = [
            ("no board", circuit.board.is_none()),
            ("no cable", circuit.cable.is_none()),
            ("order", !circuit.order.is_empty()),
            ("spur", !circuit.spurs.is_empty()),
            ("pin", !circuit.pins.is_empty()),
        ];
        found.extend(said.iter().filter(|(_, said)| *said).map(|(name, _)| (*name).to_owned()));
    }
    found.extend(plan.controls.values().map(|control| match control.switches.len() {
        0 => "no switch".to_owned(),
        ways => format!("{}-way", ways.min(3)),
    }));
    let said = [
        ("riser", !plan.risers.is_empty()),
        ("concrete above", plan.levels.values().any(|level| level.above.is_empty())),
        ("concrete below", plan.levels.values().any(|level| level.below.is_empty())),
        ("two boards", plan.boards.len() == 2),
        ("point without place", plan.points.values().any(|point| point.place.is_none())),
        ("point without circuit", plan.points.values().any(|point| point.circuit.is_none())),
        (
            "oblique wall",
            plan.walls.values().any(|wall| wall.a.x != wall.b.x && wall.a.y != wall.b.y),
        ),
        ("opening in a corner", plan.openings.values().any(|opening| opening.from.get() == 0)),
        ("post", plan.points.values().any(|point| matches!(point.place, Some(Place::Post(_))))),
        ("floor", plan.points.values().any(|point| matches!(point.place, Some(Place::Floor(_))))),
        ("outline of a void", plan.voids.values().any(|void| void.outline.is_some())),
    ];
    found.extend(said.iter().filter(|(_, said)| *said).map(|(name, _)| (*name).to_owned()));
    found.sort();
    found.dedup();
    found
}

/// Everything that has to come up, so that no part of the generator can fall
/// silent unnoticed.
const FEATURES: &str = "1 storeys,2 storeys,3 storeys,RoofSpace,BetweenFloors,Subfloor,Ground,\
    Stud,SolidMasonry,Concrete,Screen,Sockets,Lights,Switches,Alarms,Fixed,wall area,keep-out,percent,\
    barrier,Chain,Ring,ChainWithSpurs,Single,loop at Light,loop at Switch,Overhead,Underfloor,\
    InWall,Surface,Underground,no board,no cable,order,spur,pin,no switch,1-way,2-way,3-way,riser,\
    concrete above,concrete below,two boards,point without place,point without circuit,\
    oblique wall,opening in a corner,post,floor,outline of a void";

#[test]
fn everything_awkward_comes_up() {
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for seed in 0..1000 {
        for feature in features(&generated_plan(seed)) {
            *counts.entry(feature).or_default() += 1;
        }
    }
    for feature in FEATURES.split(',') {
        let count = counts.get(feature).copied().unwrap_or_default();
        assert!(count >= 20, "{feature} in {count} of 1000 plans: {counts:?}");
    }
}

#[test]
fn most_points_look_into_rooms() {
    let (mut seen, mut all) = (0, 0);
    for seed in 0..300 {
        let plan = generated_plan(seed);
        for place in plan.points.values().filter_map(|point| point.place) {
            all += 1;
            seen += usize::from(plan.room_of(&place).is_some());
        }
    }
    // The rest stand on posts and on outer faces.
    assert!(seen * 10 > all * 8, "{seen} of {all}");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn generated_plans_are_written_and_read_back(plan in plans()) {
        let text = crate::fixtures::text(&plan);
        prop_assert_eq!(crate::fixtures::read(&text), plan);
    }

    #[test]
    fn symmetries_keep_plans_whole(plan in plans(), turn in -360_000..360_000) {
        let angle = Angle::from_millidegrees(turn);
        for changed in [turned(&plan, angle), mirrored(&plan), moved(&plan, 12_345, -678)] {
            prop_assert_eq!(problems(&changed), Vec::<String>::new());
        }
        prop_assert_eq!(mirrored(&mirrored(&plan)), plan.clone());
        prop_assert_eq!(moved(&moved(&plan, 12_345, -678), -12_345, 678), plan.clone());
        let quarter = Angle::from_millidegrees(90_000);
        let whole = (0..4).fold(plan.clone(), |plan, _| turned(&plan, quarter));
        prop_assert_eq!(whole, plan);
    }

    #[test]
    fn symmetries_keep_what_points_look_into(plan in plans()) {
        let quarter = Angle::from_millidegrees(90_000);
        for changed in [turned(&plan, quarter), mirrored(&plan), moved(&plan, 501, 77)] {
            for (id, point) in &plan.points {
                let (before, after) = (point.place, changed.points[id].place);
                let room = before.and_then(|place| plan.room_of(&place));
                let seen = after.and_then(|place| changed.room_of(&place));
                // A point behind the end of a wall looks at the edge of a room:
                // there a millimetre of rounding decides whether at any.
                if let (Some(room), Some(seen)) = (room, seen) {
                    prop_assert_eq!(seen, room);
                }
            }
        }
    }
}
