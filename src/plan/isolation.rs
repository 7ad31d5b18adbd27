//! Which isolating switch or connection unit cuts off which fixed appliance.

use std::collections::BTreeSet;

use super::{Family, Plan, PointId, PointKind, RoomId};
use crate::units::Point3;

/// A fixed appliance, and the switch or connection unit that cuts it off: the
/// cable goes to the switch first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Isolation {
    /// The isolating switch or connection unit.
    pub by: PointId,
    /// What it cuts off.
    pub load: PointId,
}

/// What the isolating switches among some points cut off, switch by switch in
/// the order of the points, for each first the one it is there for; a drawing
/// has no word for it, so places tell.
///
/// A switch belongs to a fixed appliance of its room (or outdoors, as itself),
/// the nearest pairs first and one to each; what is left in the room goes with
/// its nearest switch. A switch with nothing in its room belongs to what is
/// nearest elsewhere, in the same way. A fan that a light's switch works is
/// left out: it is wired with the lights.
///
/// *Common practice*: a cooker switch beside the hob, a connection unit beside
/// what it feeds, a shower's switch outside its reach.
#[must_use]
pub fn isolations(plan: &Plan, points: &[PointId]) -> Vec<Isolation> {
    let of = |wanted: fn(PointKind) -> bool| {
        points.iter().filter_map(move |id| Seen::of(plan, *id, wanted)).collect::<Vec<Seen>>()
    };
    let switches = of(|kind| kind == PointKind::Isolator);
    if switches.is_empty() {
        return Vec::new();
    }
    let worked: BTreeSet<PointId> =
        plan.controls.values().flat_map(|control| control.lights.iter().copied()).collect();
    let mut loads = of(|kind| kind.family() == Family::Fixed && kind != PointKind::Isolator);
    loads.retain(|load| !worked.contains(&load.id));
    let mut found = share(&switches, &loads, |switch, load| switch.room == load.room);
    let without = |switch: &&Seen| found.iter().all(|one| one.by != switch.id);
    let idle: Vec<Seen> = switches.iter().filter(without).copied().collect();
    loads.retain(|load| found.iter().all(|one| one.load != load.id));
    found.extend(share(&idle, &loads, |_, _| true));
    let place = |id: PointId| points.iter().position(|other| *other == id);
    found.sort_by_key(|one| place(one.by));
    found
}

/// A point and where it is.
#[derive(Clone, Copy, Debug)]
struct Seen {
    id: PointId,
    room: Option<RoomId>,
    at: Point3,
}

impl Seen {
    fn of(plan: &Plan, id: PointId, wanted: fn(PointKind) -> bool) -> Option<Self> {
        let point = plan.points.get(&id).filter(|point| wanted(point.kind))?;
        let place = point.place?;
        Some(Self { id, room: plan.room_of(&place), at: plan.position(&place)? })
    }

    fn distance(&self, other: &Self) -> i128 {
        let square = |a: i64, b: i64| i128::from(a - b) * i128::from(a - b);
        square(self.at.x.get(), other.at.x.get())
            + square(self.at.y.get(), other.at.y.get())
            + square(self.at.z.get(), other.at.z.get())
    }
}

/// One load to each switch, the nearest pairs first; then what is left to its
/// nearest.
fn share(switches: &[Seen], loads: &[Seen], may: impl Fn(&Seen, &Seen) -> bool) -> Vec<Isolation> {
    let mut pairs: Vec<(i128, PointId, PointId)> = Vec::new();
    for switch in switches {
        let its = loads.iter().filter(|load| may(switch, load));
        pairs.extend(its.map(|load| (switch.distance(load), switch.id, load.id)));
    }
    pairs.sort_unstable();
    let mut found: Vec<Isolation> = Vec::new();
    for one_each in [true, false] {
        for (_, by, load) in &pairs {
            let taken = found.iter().any(|one| one.load == *load);
            let busy = one_each && found.iter().any(|one| one.by == *by);
            if !taken && !busy {
                found.push(Isolation { by: *by, load: *load });
            }
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::{Control, ControlId, Level, LevelId, OnLevel, Place, Point, Room, RoomUse};
    use crate::units::{Mm, Point2};

    /// Points on the floor of two rooms side by side, 4 m by 4 m each.
    fn plan(points: &[(PointKind, i64, i64)]) -> (Plan, Vec<PointId>) {
        let mut plan = Plan::default();
        let level = LevelId(1);
        let drawn = Level {
            name: String::new(),
            floor: Mm::ZERO,
            height: Mm::new(2400),
            above: Vec::new(),
            below: Vec::new(),
        };
        plan.levels.insert(level, drawn);
        for (id, left) in [(2, 0), (3, 4000)] {
            let corner = |x: i64, y: i64| Point2::new(left + x, y);
            let outline = vec![corner(0, 0), corner(4000, 0), corner(4000, 4000), corner(0, 4000)];
            let name = format!("room {id}");
            plan.rooms.insert(RoomId(id), Room { level, name, usage: RoomUse::Kitchen, outline });
        }
        let mut ids = Vec::new();
        for (number, (kind, x, y)) in (10..).zip(points) {
            let place = Some(Place::Floor(OnLevel { level, at: Point2::new(*x, *y) }));
            plan.points.insert(PointId(number), Point { place, ..Point::new(*kind) });
            ids.push(PointId(number));
        }
        (plan, ids)
    }

    fn told(points: &[(PointKind, i64, i64)]) -> Vec<(u32, u32)> {
        let (plan, ids) = plan(points);
        isolations(&plan, &ids).iter().map(|one| (one.by.0, one.load.0)).collect()
    }

    use PointKind::{Cooktop, Dishwasher, ExhaustFan, Isolator, Oven, Socket};

    #[test]
    fn one_switch_cuts_off_all_of_its_room_and_nothing_next_door() {
        let found = told(&[
            (Cooktop, 1000, 1000),
            (Isolator, 1500, 1000),
            (Oven, 3000, 3000),
            (Dishwasher, 4500, 1000),
            (Socket, 1600, 1000),
        ]);
        assert_eq!(found, [(11, 10), (11, 12)], "not the dishwasher in the other room");
    }

    #[test]
    fn every_switch_gets_one_first_nearest_pairs_first() {
        // The hob is nearest to both switches; the oven goes with the other.
        let found = told(&[
            (Isolator, 1000, 1000),
            (Isolator, 1800, 1000),
            (Cooktop, 1100, 1000),
            (Oven, 500, 1000),
        ]);
        assert_eq!(found, [(10, 12), (11, 13)], "one each, although 10 is nearer to the oven");
    }

    #[test]
    fn a_switch_alone_in_its_room_belongs_to_what_is_nearest_elsewhere() {
        let found = told(&[(Isolator, 3900, 1000), (Oven, 7000, 1000), (Cooktop, 5000, 1000)]);
        assert_eq!(found, [(10, 12), (10, 11)], "both in the next room, the nearest first");
        assert_eq!(told(&[(Oven, 1, 1), (Cooktop, 2, 2)]), [], "no switch");
    }

    #[test]
    fn a_fan_that_a_light_switch_works_is_left_out() {
        let (mut plan, ids) = plan(&[(Isolator, 1000, 1000), (ExhaustFan, 1500, 1000)]);
        assert_eq!(isolations(&plan, &ids).len(), 1, "a fan by itself");
        let control = Control { lights: vec![ids[1]], switches: Vec::new(), in_order: false };
        plan.controls.insert(ControlId(50), control);
        assert_eq!(isolations(&plan, &ids), [], "wired with the lights");
    }
}
