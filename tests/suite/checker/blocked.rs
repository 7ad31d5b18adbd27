//! Nothing goes through openings, keep-outs and walls that carry nothing.

use wirewend::plan::{Plane, WallBuild, WallId};
use wirewend::runs::Segment;

use super::complaint::{Code, Complaints};
use super::house::{keep_outs, on_wall};
use super::medium::Medium;
use super::shape::{Spot, goes_through};
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, segment, medium) in walk.pieces() {
        match medium {
            Medium::Wall(wall) => judge_wall(walk, at, segment, wall, book),
            Medium::Void(void) => {
                let (from, to) = (Spot::under(segment.from), Spot::under(segment.to));
                judge_keep_outs(walk, at, (from, to), Plane::Void(void), book);
            }
            Medium::Plate(wall, _) => judge_screen(walk, at, wall, book),
            _ => {}
        }
    }
}

fn judge_wall(walk: &Walk, at: usize, segment: &Segment, id: WallId, book: &mut Complaints) {
    let Some(wall) = walk.plan.walls.get(&id) else { return };
    judge_screen(walk, at, id, book);
    let line = (on_wall(walk.plan, wall, segment.from), on_wall(walk.plan, wall, segment.to));
    judge_keep_outs(walk, at, line, Plane::Wall(id), book);
    let clear = walk.plan.habits.opening_clearance.to_f64();
    for (name, opening) in walk.plan.openings.iter().filter(|(_, opening)| opening.wall == id) {
        let (left, low) = (opening.from.to_f64() - clear, opening.sill.to_f64() - clear);
        let right = (opening.from + opening.width).to_f64() + clear;
        let high = opening.head.to_f64() + clear;
        let hole = [(left, low), (right, low), (right, high), (left, high)]
            .map(|(along, height)| Spot::new(along, height));
        if goes_through(&hole, line.0, line.1) {
            let text = format!("through {name} of {id} or its margin");
            book.segment(Code::Opening, walk.leg, at, text);
        }
    }
}

fn judge_screen(walk: &Walk, at: usize, id: WallId, book: &mut Complaints) {
    if walk.plan.walls.get(&id).is_some_and(|wall| wall.build == WallBuild::Screen) {
        book.segment(Code::Screen, walk.leg, at, format!("{id} carries nothing"));
    }
}

fn judge_keep_outs(
    walk: &Walk,
    at: usize,
    (from, to): (Spot, Spot),
    on: Plane,
    book: &mut Complaints,
) {
    if keep_outs(walk.plan, on).iter().any(|area| goes_through(area, from, to)) {
        book.segment(Code::KeepOut, walk.leg, at, format!("through a keep-out of {on:?}"));
    }
}
