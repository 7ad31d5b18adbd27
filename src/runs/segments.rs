//! From the stretches of a way to the segments of a route.

use super::{Heading, Route, Segment, Surrounding};
use crate::plan::{Plane, VoidKind, WallBuild};
use crate::space::{Key, Space, Step, Stop};
use crate::units::{Mm, Point3};

/// The route of a way that was found: stretches in one line and one
/// surrounding become one segment.
pub(super) fn route_of(space: &Space, key: Key, start: Point3, stops: &[Stop]) -> Route {
    let mut segments: Vec<Segment> = Vec::new();
    let mut from = start;
    // What rounding to the page took the room of.
    let mut carried = Mm::ZERO;
    for stop in stops {
        if stop.place == from {
            carried += Mm::new(stop.length);
            continue;
        }
        if stop.length == 0 {
            continue;
        }
        let mut segment = segment(space, from, stop);
        segment.length += std::mem::replace(&mut carried, Mm::ZERO);
        from = stop.place;
        match segments.last_mut() {
            Some(last) if goes_on(last, &segment) => {
                last.to = segment.to;
                last.length += segment.length;
            }
            _ => segments.push(segment),
        }
    }
    if let Some(last) = segments.last_mut() {
        last.length += carried;
    }
    let length = segments.iter().map(|segment| segment.length).sum();
    Route { segments, cost: key.cost(), length }
}

fn goes_on(last: &Segment, next: &Segment) -> bool {
    last.through != Surrounding::Plate
        && last.plane == next.plane
        && last.heading == next.heading
        && last.through == next.through
        && last.from.distance(next.to) + 2.0
            >= last.from.distance(last.to) + next.from.distance(next.to)
}

fn segment(space: &Space, from: Point3, stop: &Stop) -> Segment {
    let to = stop.place;
    let upright = if to.z >= from.z { Heading::Up } else { Heading::Down };
    let is_upright = to.on_floor() == from.on_floor();
    let (plane, heading, through, insulation) = match stop.step {
        Step::Wall(wall) | Step::Face(wall) => {
            let field = &space.walls[wall];
            let heading = if is_upright { upright } else { Heading::Sideways };
            let through = if matches!(stop.step, Step::Face(_)) {
                Surrounding::Surface
            } else {
                inside(field.build, is_upright)
            };
            (Some(Plane::Wall(field.id)), heading, through, field.insulation)
        }
        Step::Void(void, along) => {
            let field = &space.voids[void];
            let heading = if along { Heading::AlongJoists } else { Heading::AcrossJoists };
            (Some(Plane::Void(field.id)), heading, medium(field.kind), field.insulation)
        }
        Step::Plate(wall) => {
            (Some(Plane::Wall(space.walls[wall].id)), upright, Surrounding::Plate, Mm::ZERO)
        }
        Step::Passage => (None, upright, Surrounding::Plate, Mm::ZERO),
        Step::Post => (None, upright, Surrounding::Post, Mm::ZERO),
    };
    let insulation = if through == Surrounding::Surface { Mm::ZERO } else { insulation };
    Segment {
        from,
        to,
        length: Mm::new(stop.length),
        plane,
        heading,
        through,
        insulation,
        beside: 0,
    }
}

const fn medium(kind: VoidKind) -> Surrounding {
    match kind {
        VoidKind::RoofSpace => Surrounding::RoofSpace,
        VoidKind::BetweenFloors => Surrounding::BetweenFloors,
        VoidKind::Subfloor => Surrounding::Subfloor,
        VoidKind::Ground => Surrounding::Ground,
    }
}

/// What surrounds a cable inside a wall: uprights drop down a cavity where
/// there is one, sideways moves there are chased into the inner leaf.
const fn inside(build: WallBuild, is_upright: bool) -> Surrounding {
    match build {
        WallBuild::Stud
        | WallBuild::BrickVeneer
        | WallBuild::LathAndPlaster
        | WallBuild::Screen => Surrounding::HollowWall,
        WallBuild::CavityMasonry | WallBuild::DoubleBrick if is_upright => Surrounding::Cavity,
        _ => Surrounding::Chase,
    }
}
