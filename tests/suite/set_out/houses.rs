//! Houses by chance, awkward in their walls: thick ones, skew ones, some that
//! cross, and whole houses turned by odd angles.

use proptest::prelude::*;
use wirewend::plan::*;
use wirewend::units::{Angle, Mm, Point2};

use super::{Job, complaints};
use crate::generate::{Size, sized_plan, turned};

/// What is done to a generated house.
#[derive(Clone, Copy, Debug)]
pub(super) struct Awkward {
    pub(super) seed: u64,
    pub(super) rooms: usize,
    /// Millimetres to the right for every 1,000 up.
    pub(super) shear: i64,
    /// Thousandths of a degree.
    pub(super) turn: i32,
    /// Thicknesses to give to its walls in turn; none leaves them.
    pub(super) thick: &'static [i64],
}

/// The house.
pub(super) fn house(of: Awkward) -> Plan {
    let size = Size { storeys: 1, rooms: of.rooms, points: 14 };
    let mut plan = sized_plan(of.seed, size);
    for (wall, thickness) in plan.walls.values_mut().zip(of.thick.iter().cycle()) {
        wall.thickness = Mm::new(*thickness);
    }
    cross(&mut plan);
    sheared(&mut plan, of.shear);
    turned(&plan, Angle::from_millidegrees(of.turn))
}

/// A short wall across the longest inner one, with two of the boxes on it.
fn cross(plan: &mut Plan) {
    let inner = plan.walls.values().filter(|wall| wall.wet.is_none());
    let inner = inner.filter(|wall| wall.build != WallBuild::Screen);
    let Some(wall) = inner.max_by_key(|wall| wall.a.distance(wall.b) as i64).cloned() else {
        return;
    };
    let at = wall.at(wall.length() * 0.37);
    let (dx, dy) = wall.direction();
    let off = |share: f64| Point2 {
        x: at.x + Mm::from_f64((-dy + dx / 2.0) * share).unwrap(),
        y: at.y + Mm::from_f64((dx + dy / 2.0) * share).unwrap(),
    };
    let id = WallId(plan.next_id);
    plan.next_id += 1;
    let half = wall.thickness.to_f64() / 2.0;
    let reach = half + 330.0;
    let (a, b) = (off(-reach), off(reach));
    plan.walls.insert(id, Wall { a, b, thickness: Mm::new(90), ..wall });
    let along = [100, 40].map(Mm::new);
    let points = plan.points.values_mut().filter(|it| matches!(it.place, Some(Place::Wall(_))));
    for ((point, along), face) in points.zip(along).zip([Face::Left, Face::Right]) {
        point.place = Some(Place::Wall(OnWall { wall: id, along, height: Mm::new(450), face }));
    }
}

fn sheared(plan: &mut Plan, shear: i64) {
    let map = |at: &mut Point2| at.x = at.x + Mm::new(at.y.get() * shear / 1000);
    plan.walls.values_mut().for_each(|wall| {
        map(&mut wall.a);
        map(&mut wall.b);
    });
    plan.rooms.values_mut().flat_map(|room| &mut room.outline).for_each(map);
    plan.voids.values_mut().filter_map(|void| void.outline.as_mut()).flatten().for_each(map);
}

/// All kinds of them.
pub(super) fn awkward() -> impl Strategy<Value = Awkward> {
    const THICK: [&[i64]; 4] =
        [&[], &[110, 300, 90, 450, 200], &[90, 90, 500], &[250, 100, 100, 350]];
    let shear = prop_oneof![Just(0_i64), -700_i64..700];
    let turn = prop_oneof![Just(0), Just(90_000), -180_000..180_000];
    let some = (any::<u64>().no_shrink(), 1_usize..=9, shear, turn, 0..THICK.len());
    some.prop_map(|(seed, rooms, shear, turn, thick)| Awkward {
        seed,
        rooms,
        shear,
        turn,
        thick: THICK[thick],
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(120) })]

    #[test]
    fn every_figure_is_what_a_tape_finds(of in awkward()) {
        let job = Job::of(house(of));
        let found = complaints(&job);
        prop_assert!(found.is_empty(), "{} complaints:\n{}", found.len(), found.join("\n"));
    }
}

/// The generator shows what it is there for.
#[test]
fn awkward_houses_have_boxes_and_cables_everywhere() {
    let (mut boxes, mut skew, mut past) = (0, 0, 0);
    for seed in 0..40 {
        let thick: &[i64] = &[110, 300, 90, 450, 200];
        let plan = house(Awkward { seed, rooms: 5, shear: 400, turn: 12_345, thick });
        let job = Job::of(plan);
        let house = job.house();
        for row in wirewend::sheet::set_out_rows(&house) {
            boxes += usize::from(matches!(row.what, wirewend::sheet::Marked::Box(_)));
            past += usize::from(row.towards.is_none());
        }
        skew += job.plan.walls.values().filter(|wall| wall.a.x != wall.b.x && wall.a.y != wall.b.y).count();
    }
    assert!(boxes > 300 && skew > 200 && past > 3, "{boxes} boxes, {skew} skew walls, {past} past");
}
