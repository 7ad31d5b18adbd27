//! A house turned, mirrored or moved is the same house.

use wirewend::plan::*;
use wirewend::units::{Angle, Mm, Point2};

/// The plan turned about the origin, joists and all. Places come to the
/// nearest millimetre, so that walls can change their length by one; openings
/// that would stick out for that are cut.
pub(crate) fn turned(plan: &Plan, angle: Angle) -> Plan {
    let mut plan = mapped(plan, |point| angle.turn(point));
    for void in plan.voids.values_mut() {
        let sum = void.direction.millidegrees() + angle.millidegrees();
        void.direction = Angle::from_millidegrees(sum.rem_euclid(180_000));
    }
    cut_openings(&mut plan);
    plan
}

/// The plan as seen in a mirror: left is right.
pub(crate) fn mirrored(plan: &Plan) -> Plan {
    let mut plan = mapped(plan, |point| Point2 { x: -point.x, y: point.y });
    let other = |face: Face| if face == Face::Left { Face::Right } else { Face::Left };
    for void in plan.voids.values_mut() {
        void.direction =
            Angle::from_millidegrees((-void.direction.millidegrees()).rem_euclid(180_000));
    }
    for wall in plan.walls.values_mut() {
        wall.wet = wall.wet.map(other);
    }
    for hinge in plan.openings.values_mut().filter_map(|opening| opening.hinge.as_mut()) {
        hinge.opens = other(hinge.opens);
    }
    let boards = plan.boards.values_mut().map(|board| &mut board.place);
    let points = plan.points.values_mut().map(|point| &mut point.place);
    for place in boards.chain(points).flatten() {
        if let Place::Wall(on) = place {
            on.face = other(on.face);
        }
    }
    plan
}

/// The plan moved across the page.
pub(crate) fn moved(plan: &Plan, dx: i64, dy: i64) -> Plan {
    mapped(plan, |point| point + Point2::new(dx, dy))
}

/// The plan with every place on the page mapped; places along walls stay.
fn mapped(plan: &Plan, map: impl Fn(Point2) -> Point2) -> Plan {
    let mut plan = plan.clone();
    let all = |outline: &mut Vec<Point2>| outline.iter_mut().for_each(|point| *point = map(*point));
    for wall in plan.walls.values_mut() {
        (wall.a, wall.b) = (map(wall.a), map(wall.b));
    }
    plan.voids.values_mut().filter_map(|void| void.outline.as_mut()).for_each(&all);
    plan.rooms.values_mut().for_each(|room| all(&mut room.outline));
    let on_void = |area: &&mut Area| matches!(area.on, Plane::Void(_));
    plan.areas.values_mut().filter(on_void).for_each(|area| all(&mut area.outline));
    plan.risers.values_mut().for_each(|riser| riser.at = map(riser.at));
    let boards = plan.boards.values_mut().map(|board| &mut board.place);
    let points = plan.points.values_mut().map(|point| &mut point.place);
    for place in boards.chain(points).flatten() {
        match place {
            Place::Wall(_) => {}
            Place::Ceiling(on) | Place::Floor(on) => on.at = map(on.at),
            Place::Post(on) => on.at = map(on.at),
        }
    }
    let pins = plan.circuits.values_mut().flat_map(|circuit| &mut circuit.pins);
    pins.flat_map(|pin| &mut pin.through).for_each(|place| place.at = map(place.at));
    plan
}

fn cut_openings(plan: &mut Plan) {
    for opening in plan.openings.values_mut() {
        let length = plan.walls[&opening.wall].length();
        let end = Mm::from_f64(length.floor()).unwrap();
        opening.width = opening.width.min(end - opening.from);
    }
}
