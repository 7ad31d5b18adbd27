//! One point, one wall, one door, one keep-out dragged, the same as from scratch.

use wirewend::lengths;
use wirewend::plan::{
    Area, AreaEffect, AreaId, Change, Edit, Opening, OpeningId, OpeningKind, Place, Plan, PointId,
    WallId,
};
use wirewend::runs::{self, Memory, chain::Effort};
use wirewend::space::{Shell, Space};
use wirewend::units::{Mm, Point2};

use super::{at, timed};

/// All that is dragged, or points alone if asked.
pub(crate) fn print(plan: &Plan, asked: &[String]) {
    let points: Vec<PointId> = plan.points.keys().copied().collect();
    let inner = plan.walls.iter().filter(|wall| !wall.1.insulated);
    let walls: Vec<WallId> = inner.map(|wall| *wall.0).collect();
    let areas: Vec<AreaId> = plan.areas.keys().copied().collect();
    row(plan, "one point dragged", 200, |plan, turn| {
        let id = points[turn * 7 % points.len()];
        let mut point = plan.points[&id].clone();
        match &mut point.place {
            Some(Place::Wall(on)) => {
                on.height += Mm::new(10 + 5 * i64::try_from(turn % 3).unwrap_or(0))
            }
            Some(Place::Ceiling(on)) => on.at = on.at + Point2::new(13, -7),
            _ => {}
        }
        Edit::Point(Change::Put(id, point))
    });
    if asked.iter().any(|word| word == "point") {
        return;
    }
    row(plan, "a wall dragged", 30, |plan, turn| {
        let id = walls[(turn * 11 + 40) % walls.len()];
        let mut wall = plan.walls[&id].clone();
        let step = if wall.a.x == wall.b.x { Point2::new(20, 0) } else { Point2::new(0, 20) };
        (wall.a, wall.b) = (wall.a + step, wall.b + step);
        Edit::Wall(Change::Put(id, wall))
    });
    let of_doors = plan.openings.iter().filter(|(_, one)| one.kind == OpeningKind::Door);
    let doors: Vec<OpeningId> = of_doors.map(|(id, _)| *id).collect();
    row(plan, "a door dragged", 30, |plan, turn| {
        let id = doors[turn * 11 % doors.len()];
        let drawn = &plan.openings[&id];
        let from = drawn.from + Mm::new(if turn % 2 == 0 { 15 } else { -15 });
        Edit::Opening(Change::Put(id, Opening { from, ..drawn.clone() }))
    });
    row(plan, "a keep-out dragged", 30, |plan, turn| {
        let keep_outs = areas.iter().filter(|id| plan.areas[*id].effect == AreaEffect::KeepOut);
        let id = *keep_outs.cycle().nth(turn).expect("a keep-out");
        let drawn = &plan.areas[&id];
        let step = Point2::new(15, 10);
        let outline = drawn.outline.iter().map(|corner| *corner + step).collect();
        Edit::Area(Change::Put(id, Area { outline, ..drawn.clone() }))
    });
}

fn row(plan: &Plan, what: &str, count: usize, edit: impl Fn(&Plan, usize) -> Edit) {
    let mut plan = plan.clone();
    let (mut memory, mut lengths) = (Memory::default(), lengths::Memory::default());
    let effort = Effort::default();
    let mut shell = Shell::default();
    let space = Space::again(&plan, &mut shell);
    let routed = runs::route_again(&plan, &space, &effort, &mut memory);
    let _ = lengths::measure_again(&plan, &routed, &mut lengths);
    let mut times = Vec::new();
    for turn in 0..count {
        let edit = edit(&plan, turn);
        let (time, routed) = timed(|| {
            plan.apply(edit).expect("it can be dragged");
            let space = Space::again(&plan, &mut shell);
            let routed = runs::route_again(&plan, &space, &effort, &mut memory);
            let measured = lengths::measure_again(&plan, &routed, &mut lengths);
            (routed, measured)
        });
        times.push(time);
        if turn % 10 == 0 {
            let fresh = runs::route(&plan, &Space::of(&plan), &effort);
            assert_eq!(routed.0, fresh, "{what}: as from scratch");
            assert_eq!(routed.1, lengths::measure(&plan, &fresh), "{what}: as from scratch");
        }
    }
    println!("  {what:<44} {:>9.3} ms   99th  {:>9.3}", at(&mut times, 500), at(&mut times, 990));
}
