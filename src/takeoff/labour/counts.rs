//! How much there is of each task.

use super::Share;
use crate::plan::{Access, Family, Plan, Plane, PointKind, WallBuild};
use crate::runs::{Heading, Runs, Segment, Surrounding};
use crate::takeoff::practice::{BOARD_EVERY, BOARD_LENGTH, RATES, Rate, access_permille};
use crate::takeoff::shared::Shared;
use crate::takeoff::{Origin, Part, Quantity};
use crate::units::Mm;

/// Shares by task, in the order of the tasks.
struct Counts {
    tasks: Vec<(&'static Rate, Vec<Share>)>,
}

impl Counts {
    fn add(&mut self, code: &str, of: Origin, quantity: Quantity, access_permille: u16) {
        if quantity.each() == 0 && quantity.length() == Mm::ZERO {
            return;
        }
        if let Some((_, shares)) = self.tasks.iter_mut().find(|(rate, _)| rate.code == code) {
            shares.push(Share { part: Part { of, quantity }, access_permille });
        }
    }
}

pub(super) fn count(plan: &Plan, runs: &Runs) -> Vec<(&'static Rate, Vec<Share>)> {
    let mut counts = Counts { tasks: RATES.iter().map(|rate| (rate, Vec::new())).collect() };
    points(plan, &mut counts);
    boards(plan, &mut counts);
    ways(plan, runs, &mut counts);
    counts.tasks
}

fn points(plan: &Plan, counts: &mut Counts) {
    for (id, point) in &plan.points {
        let of = Origin::Point(*id);
        let one = Quantity::Each(1);
        counts.add("point_first_fix", of, one, 0);
        let is_fixed =
            point.kind.family() == Family::Fixed && !matches!(point.kind, PointKind::Isolator);
        counts.add(if is_fixed { "appliance" } else { "point_second_fix" }, of, one, 0);
        counts.add("test_point", of, one, 0);
    }
}

fn boards(plan: &Plan, counts: &mut Counts) {
    for id in plan.boards.keys() {
        counts.add("fit_board", Origin::Board(*id), Quantity::Each(1), 0);
    }
    for id in plan.circuits.keys() {
        counts.add("way", Origin::Circuit(*id), Quantity::Each(1), 0);
        counts.add("test_circuit", Origin::Circuit(*id), Quantity::Each(1), 0);
    }
}

fn ways(plan: &Plan, runs: &Runs, counts: &mut Counts) {
    let mut shared = Shared::default();
    for (circuit, run) in &runs.circuits {
        for leg in &run.legs {
            for (at, segment) in leg.route.segments.iter().enumerate() {
                let of = Origin::Segment { circuit: *circuit, leg: leg.number, segment: at };
                stretch(plan, segment, of, &mut shared, counts);
            }
            for at in leg.route.plate_passages() {
                let of = Origin::Segment { circuit: *circuit, leg: leg.number, segment: at };
                counts.add("hole_plate", of, Quantity::Each(1), 0);
            }
        }
    }
}

fn stretch(plan: &Plan, segment: &Segment, of: Origin, shared: &mut Shared, counts: &mut Counts) {
    let void = match segment.plane {
        Some(Plane::Void(id)) => plan.voids.get(&id),
        _ => None,
    };
    let access = void.map_or(Access::WalkIn, |void| void.access);
    let permille = match segment.through {
        // A trench is dug open: nobody crawls in it.
        Surrounding::Ground => 0,
        _ => access_permille(access, &plan.prices.labour),
    };
    counts.add("pull", of, Quantity::Length(segment.length), permille);
    let dug = match segment.through {
        Surrounding::Chase => {
            Some(if is_concrete(plan, segment) { "chase_concrete" } else { "chase_masonry" })
        }
        Surrounding::Surface => Some("surface"),
        Surrounding::Ground if !is_upright(segment) => Some("trench"),
        _ => None,
    };
    if let Some(code) = dug {
        counts.add(code, of, Quantity::Length(shared.first_use(segment)), 0);
    }
    let Some(void) = void else { return };
    if segment.heading == Heading::AcrossJoists
        && matches!(segment.through, Surrounding::BetweenFloors | Surrounding::Subfloor)
        && let Some(joists) = void.joists
        && joists.spacing > Mm::ZERO
    {
        let holes = segment.length.get().div_euclid(joists.spacing.get());
        counts.add("hole_joist", of, each(holes), 0);
    }
    if segment.through == Surrounding::BetweenFloors && void.access == Access::Closed {
        let every =
            if segment.heading == Heading::AlongJoists { BOARD_EVERY } else { BOARD_LENGTH };
        let new = shared.first_use(segment);
        let boards = new.round_up_to(every).get().div_euclid(every.get());
        counts.add("lift_board", of, each(boards), 0);
    }
}

fn each(count: i64) -> Quantity {
    Quantity::Each(u32::try_from(count).unwrap_or(0))
}

const fn is_upright(segment: &Segment) -> bool {
    matches!(segment.heading, Heading::Up | Heading::Down)
}

fn is_concrete(plan: &Plan, segment: &Segment) -> bool {
    let Some(Plane::Wall(id)) = segment.plane else { return false };
    plan.walls.get(&id).is_some_and(|wall| wall.build == WallBuild::Concrete)
}
