//! Houses by chance, awkward in their walls: thick ones, skew ones, some that
//! cross, and whole houses turned by odd angles.

use wirewend::plan::*;
use wirewend::units::{Angle, Mm, Point2};

use super::{Job, complaints};
use crate::generate::{Size, sized_plan, turned};

/// What is done to a generated house.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Awkward {
    pub(crate) seed: u64,
    pub(crate) rooms: usize,
    /// Millimetres to the right for every 1,000 up.
    pub(crate) shear: i64,
    /// Thousandths of a degree.
    pub(crate) turn: i32,
    /// Thicknesses to give to its walls in turn; none leaves them.
    pub(crate) thick: &'static [i64],
}

/// The house.
pub(crate) fn house(of: Awkward) -> Plan {
    let size = Size { storeys: 1, rooms: of.rooms, points: 14 };
    let mut plan = sized_plan(of.seed, size);
    for (wall, thickness) in plan.walls.values_mut().zip(of.thick.iter().cycle()) {
        wall.thickness = Mm::new(*thickness);
    }
    cross(&mut plan);
    sheared(&mut plan, of.shear);
    turned(&plan, Angle::from_millidegrees(of.turn))
}

/// A short wall across the longest inner one, clear of all others, with two of
/// the boxes on it.
fn cross(plan: &mut Plan) {
    let inner = plan.walls.iter().filter(|(_, wall)| wall.wet.is_none());
    let inner = inner.filter(|(_, wall)| wall.build != WallBuild::Screen);
    let Some((crossed, wall)) =
        inner.max_by_key(|(_, wall)| Mm::from_f64(wall.a.distance(wall.b)).ok())
    else {
        return;
    };
    let (crossed, wall) = (*crossed, wall.clone());
    let reach = wall.thickness.to_f64() / 2.0 + 330.0;
    let shares = [0.37, 0.2, 0.55, 0.7, 0.85];
    let ends = shares.into_iter().find_map(|share| {
        let at = wall.at(wall.length() * share);
        let (dx, dy) = wall.direction();
        let off = |share: f64| Point2 {
            x: at.x + Mm::from_f64((-dy + dx / 2.0) * share).unwrap(),
            y: at.y + Mm::from_f64((dx + dy / 2.0) * share).unwrap(),
        };
        let ends = (off(-reach), off(reach));
        is_clear(plan, crossed, ends).then_some(ends)
    });
    let Some((a, b)) = ends else { return };
    let id = WallId(plan.next_id);
    plan.next_id += 1;
    plan.walls.insert(id, Wall { a, b, thickness: Mm::new(90), ..wall });
    let along = [100, 40].map(Mm::new);
    let points = plan.points.values_mut().filter(|it| matches!(it.place, Some(Place::Wall(_))));
    for ((point, along), face) in points.zip(along).zip([Face::Left, Face::Right]) {
        point.place = Some(Place::Wall(OnWall { wall: id, along, height: Mm::new(450), face }));
    }
}

/// Whether no wall but the one that is crossed is close to a short one.
fn is_clear(plan: &Plan, crossed: WallId, (a, b): (Point2, Point2)) -> bool {
    let length = a.distance(b);
    let others = plan.walls.iter().filter(|(id, _)| **id != crossed).map(|(_, wall)| wall);
    let mut others = others.filter(|other| other.length() > 0.0);
    others.all(|other| {
        let (dx, dy) = other.direction();
        let clear = other.thickness.to_f64() / 2.0 + 250.0;
        (0..=10).all(|step| {
            let share = f64::from(step) / 10.0;
            let x = a.x.to_f64() + (b.x - a.x).to_f64() * share - other.a.x.to_f64();
            let y = a.y.to_f64() + (b.y - a.y).to_f64() * share - other.a.y.to_f64();
            let along = (x * dx + y * dy).clamp(0.0, other.length());
            libm::hypot(x - dx * along, y - dy * along) > clear + length / 20.0
        })
    })
}

fn sheared(plan: &mut Plan, shear: i64) {
    let map = |at: &mut Point2| at.x += Mm::new((at.y.get() * shear).div_euclid(1000));
    plan.walls.values_mut().for_each(|wall| {
        map(&mut wall.a);
        map(&mut wall.b);
    });
    plan.rooms.values_mut().flat_map(|room| &mut room.outline).for_each(map);
    plan.voids.values_mut().filter_map(|void| void.outline.as_mut()).flatten().for_each(map);
    // Where a wall has become shorter, what was near its end is past it now.
    let walls = &plan.walls;
    let long = |id: &WallId| Mm::from_f64(walls[id].length().floor()).unwrap();
    plan.openings.retain(|_, opening| opening.from + opening.width <= long(&opening.wall));
    let boards = plan.boards.values_mut().map(|board| &mut board.place);
    let points = plan.points.values_mut().map(|point| &mut point.place);
    for place in boards.chain(points).flatten() {
        if let Place::Wall(on) = place {
            on.along = on.along.min(long(&on.wall) - Mm::new(40));
        }
    }
}

/// All kinds of them, the same for the same number.
fn awkward(number: u64) -> Awkward {
    const THICK: [&[i64]; 4] =
        [&[], &[110, 300, 90, 450, 200], &[90, 90, 500], &[250, 100, 100, 350]];
    let pick = |step: u64, count: u64| (number.wrapping_mul(0x9e37_79b9_7f4a_7c15) >> step) % count;
    let small = |step: u64, count: u64| i64::try_from(pick(step, count)).unwrap();
    Awkward {
        seed: number,
        rooms: usize::try_from(1 + pick(3, 9)).unwrap(),
        shear: if pick(11, 3) == 0 { 0 } else { small(13, 1400) - 700 },
        turn: match pick(25, 4) {
            0 => 0,
            1 => 90_000,
            _ => i32::try_from(small(27, 360_000)).unwrap() - 180_000,
        },
        thick: THICK[usize::try_from(pick(47, 4)).unwrap()],
    }
}

/// Whether a wall ends beside a step in the thickness of others, closer than
/// they are thick: there it is a matter of taste what fills the gap between.
fn is_arguable(plan: &Plan) -> bool {
    let ends = || plan.walls.values().flat_map(|wall| [(wall.a, wall), (wall.b, wall)]);
    let in_line = |one: &Wall, other: &Wall| {
        let ((a, b), (c, d)) = (one.direction(), other.direction());
        (a * d - b * c).abs() < 0.05
    };
    let steps = ends().filter(|(at, one)| {
        ends().any(|(end, other)| {
            end == *at && in_line(one, other) && one.thickness != other.thickness
        })
    });
    let steps: Vec<(Point2, &Wall)> = steps.collect();
    ends().any(|(at, wall)| {
        steps.iter().any(|(step, of)| {
            let thick = (wall.thickness + of.thickness).to_f64();
            !in_line(wall, of) && at.distance(*step) < thick
        })
    })
}

#[test]
fn every_figure_is_what_a_tape_finds() {
    let (mut all, mut judged) = (Vec::new(), 0);
    for of in (std::env::var("FROM").map_or(0, |s| s.parse().unwrap())..).take(150).map(awkward) {
        let plan = house(of);
        if is_arguable(&plan) {
            continue;
        }
        judged += 1;
        all.extend(complaints(&Job::of(plan)).into_iter().map(|line| format!("{of:?}: {line}")));
    }
    assert!(all.is_empty(), "{} complaints:\n{}", all.len(), all.join("\n"));
    assert!(judged > 100, "only {judged} of 150 houses");
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
        skew += job
            .plan
            .walls
            .values()
            .filter(|wall| wall.a.x != wall.b.x && wall.a.y != wall.b.y)
            .count();
    }
    assert!(boxes > 300 && skew > 200 && past > 3, "{boxes} boxes, {skew} skew walls, {past} past");
}
