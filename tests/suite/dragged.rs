//! After every drag the runs are what routing from scratch gives.

use wirewend::lengths;
use wirewend::plan::{
    Area, AreaEffect, Change, Edit, Face, OnWall, Opening, Place, Plan, Plane, Point, PointId,
    WallId,
};
use wirewend::runs::{self, Memory, chain::Effort};
use wirewend::space::{Shell, Space};
use wirewend::units::{Mm, Point2};

use crate::fixtures::house;
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
    let mut shell = Shell::default();
    let (mut memory, mut lengths) = (Memory::default(), lengths::Memory::default());
    let mut followed = 0;
    let points: Vec<PointId> = plan.points.keys().copied().collect();
    for (round, id) in (1..).zip(points.into_iter().cycle().take(8)) {
        drag(&mut plan, id, 137 * round);
        let space = Space::again(&plan, &mut shell);
        let again = runs::route_again(&plan, &space, &QUICK, &mut memory);
        let space = Space::of(&plan);
        assert_eq!(again, runs::route(&plan, &space, &QUICK), "{name}, round {round}, {id}");
        let measured = lengths::measure_again(&plan, &again, &mut lengths);
        assert_eq!(measured, lengths::measure(&plan, &again), "{name}, round {round}, {id}");
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

/// What a hand might drag on the given turn: a point along or up its wall or
/// to another wall, its label, an opening, an area, a wall. None where there is
/// no such thing.
fn some_edit(plan: &Plan, turn: usize) -> Option<Edit> {
    let pick = |count: usize| (turn * 31 + 7).checked_rem(count);
    let step = Mm::new(i64::try_from(turn * 37 % 400).unwrap_or(0) - 150);
    match turn % 9 {
        0 | 1 => {
            let (id, point) = plan.points.get_index(pick(plan.points.len())?)?;
            Some(Edit::Point(Change::Put(*id, pushed(plan, point, step.get())?)))
        }
        2 => {
            let (id, point) = plan.points.get_index(pick(plan.points.len())?)?;
            let Some(Place::Wall(on)) = point.place else { return None };
            let place = Place::Wall(OnWall { height: on.height + Mm::new(55), ..on });
            Some(Edit::Point(Change::Put(*id, Point { place: Some(place), ..point.clone() })))
        }
        3 => {
            let (id, point) = plan.points.get_index(pick(plan.points.len())?)?;
            let Some(Place::Wall(on)) = point.place else { return None };
            let (wall, _) = plan.walls.get_index(pick(plan.walls.len())?)?;
            let place = Place::Wall(OnWall { wall: *wall, along: Mm::new(310), ..on });
            Some(Edit::Point(Change::Put(*id, Point { place: Some(place), ..point.clone() })))
        }
        4 | 5 => {
            let (id, opening) = plan.openings.get_index(pick(plan.openings.len())?)?;
            let from = (opening.from + step).max(Mm::ZERO);
            Some(Edit::Opening(Change::Put(*id, Opening { from, ..opening.clone() })))
        }
        6 => {
            let keep_outs = plan.areas.iter().filter(|(_, area)| {
                area.effect == AreaEffect::KeepOut && matches!(area.on, Plane::Void(_))
            });
            let areas: Vec<_> = keep_outs.collect();
            let (id, area) = areas[pick(areas.len())?];
            let outline = area.outline.iter().map(|at| *at + Point2::new(35, -20)).collect();
            Some(Edit::Area(Change::Put(*id, Area { outline, ..area.clone() })))
        }
        7 => {
            let (id, point) = plan.points.get_index(pick(plan.points.len())?)?;
            let (label, tail) = (format!("X{turn}"), Some(Mm::new(450)));
            Some(Edit::Point(Change::Put(*id, Point { label, tail, ..point.clone() })))
        }
        _ => {
            let (id, wall) = plan.walls.get_index(pick(plan.walls.len())?)?;
            let mut wall = wall.clone();
            wall.wet = if wall.wet.is_none() { Some(Face::Left) } else { None };
            wall.thickness += Mm::new(10);
            Some(Edit::Wall(Change::Put(*id, wall)))
        }
    }
}

/// Drags this and that; how many edits the plan took.
fn follow_all(mut plan: Plan, name: &str, turns: usize, first: usize) -> usize {
    let mut shell = Shell::default();
    let (mut memory, mut lengths) = (Memory::default(), lengths::Memory::default());
    let mut followed = 0;
    for turn in first..first + turns {
        let Some(edit) = some_edit(&plan, turn) else { continue };
        if plan.apply(edit).is_err() {
            continue;
        }
        let space = Space::again(&plan, &mut shell);
        if space.voids.iter().any(|void| void.regions.len() > 60) {
            break;
        }
        let again = runs::route_again(&plan, &space, &QUICK, &mut memory);
        let space = Space::of(&plan);
        assert_eq!(again, runs::route(&plan, &space, &QUICK), "{name}, turn {turn}");
        let measured = lengths::measure_again(&plan, &again, &mut lengths);
        assert_eq!(measured, lengths::measure(&plan, &again), "{name}, turn {turn}");
        followed += 1;
    }
    followed
}

#[test]
fn whatever_is_dragged_the_runs_are_those_from_scratch() {
    let fixtures: usize = ["cottage", "flat", "terrace", "townhouse"]
        .iter()
        .map(|name| follow_all(house(name), name, 40, 0))
        .sum();
    let size = Size { storeys: 2, rooms: 8, points: 50 };
    let large: usize = (0..4_u32)
        .map(|seed| follow_all(sized_plan(seed.into(), size), &format!("large {seed}"), 40, 5))
        .sum();
    let small: usize = (0..80_u32)
        .map(|seed| follow_all(generated_plan(seed.into()), &format!("seed {seed}"), 8, 0))
        .sum();
    let all = (fixtures, large, small);
    assert!(fixtures > 40 && large > 50 && small > 150, "{all:?} drags");
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
