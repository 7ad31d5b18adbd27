//! After every drag the runs are what routing from scratch gives.

use wirewend::plan::Change;
use wirewend::plan::{Edit, Place, Plan, Point, PointId, WallId};
use wirewend::runs::{self, Memory, chain::Effort};
use wirewend::space::Space;
use wirewend::units::{Mm, Point2};

use crate::generate::{Size, generated_plan, sized_plan};

const QUICK: Effort = Effort { exact_up_to: 7, kicks: 20, ascent_steps: 60, branch_trees: 0 };

/// A point pushed some way along its wall or over its ceiling.
fn pushed(plan: &Plan, point: &Point, step: i64) -> Option<Point> {
    let place = match point.place? {
        Place::Wall(mut on) => {
            let length = Mm::from_f64(plan.walls.get(&on.wall)?.length()).ok()?;
            let most = (length.get() - 100).max(100);
            on.along = Mm::new(100 + (on.along.get() + step).rem_euclid(most));
            Place::Wall(on)
        }
        Place::Ceiling(mut on) => {
            on.at = on.at + Point2::new(step, -step);
            Place::Ceiling(on)
        }
        other => other,
    };
    Some(Point { place: Some(place), ..point.clone() })
}

fn drag(plan: &mut Plan, id: PointId, step: i64) {
    if let Some(moved) = pushed(plan, &plan.points[&id], step) {
        let edit = Edit::Point(Change::Put(id, moved));
        plan.apply(edit).expect("a point can be moved");
    }
}

fn follow(mut plan: Plan, name: &str) -> usize {
    if Space::of(&plan).voids.iter().any(|void| void.regions.len() > 60) {
        return 0;
    }
    let mut memory = Memory::default();
    let mut followed = 0;
    let points: Vec<PointId> = plan.points.keys().copied().collect();
    for (round, id) in (1..).zip(points.into_iter().cycle().take(8)) {
        drag(&mut plan, id, 137 * round);
        let space = Space::of(&plan);
        let again = runs::route_again(&plan, &space, &QUICK, &mut memory);
        assert_eq!(again, runs::route(&plan, &space, &QUICK), "{name}, round {round}, {id}");
        followed += 1;
    }
    followed
}

#[test]
fn dragged_points_give_the_runs_that_routing_from_scratch_gives() {
    let small: usize =
        (0..300).map(|seed| follow(generated_plan(seed), &format!("seed {seed}"))).sum();
    let size = Size { storeys: 3, rooms: 12, points: 80 };
    let large: usize =
        (0..20).map(|seed| follow(sized_plan(seed, size), &format!("large {seed}"))).sum();
    assert!(small > 800 && large > 40, "{small} and {large} drags");
}

#[test]
fn a_wall_that_moves_is_noticed() {
    let mut plan = sized_plan(3, Size { storeys: 1, rooms: 6, points: 20 });
    let mut memory = Memory::default();
    let space = Space::of(&plan);
    let before = runs::route_again(&plan, &space, &QUICK, &mut memory);
    let id: WallId = *plan.walls.keys().next().expect("a wall");
    let mut wall = plan.walls[&id].clone();
    wall.thickness += Mm::new(60);
    plan.apply(Edit::Wall(Change::Put(id, wall))).expect("a wall can be thicker");
    let space = Space::of(&plan);
    let again = runs::route_again(&plan, &space, &QUICK, &mut memory);
    assert_eq!(again, runs::route(&plan, &space, &QUICK));
    assert_ne!(again, before, "and it made a difference");
}
