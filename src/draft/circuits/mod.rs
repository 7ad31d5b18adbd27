//! Points shared out over circuits.
//!
//! Rules and rooms decide first, cable within them: lights, sockets, kitchens,
//! wet rooms, fixed appliances and alarms apart; storeys apart; lights over two
//! circuits at least. What was on a circuit already stays there.

mod board_ways;
mod by_dwelling;
mod capacity;
mod grouper;
mod left_out;
mod purpose;
mod share;
mod units;

use std::collections::{BTreeMap, BTreeSet};

use super::dwellings::Dwelling;
use super::kit::Kit;
use super::part::Parts;
use super::planned::Planned;
use super::{Reason, Wayfare, size};
use crate::plan::{BoardId, CircuitId, Plan, PointId, Subject};
use crate::rules::RuleBook;
use crate::space::Space;
use crate::units::Watch;
use board_ways::ways_of;
use by_dwelling::points_of;
use grouper::Grouper;
use left_out::{leave_out, no_board};

/// Groups the points of every dwelling; dwellings are worked on side by side.
pub(super) fn group(kit: &mut Kit<'_>, dwellings: &[Dwelling], watch: &Watch) {
    watch.begin(dwellings.len());
    let points = points_of(kit, dwellings);
    let (plan, rules, way) = (&kit.plan, kit.rules, kit.options.way);
    let parts = Parts::of(plan);
    let work = |index: usize| {
        if watch.is_stopped() {
            return None;
        }
        let dwelling = &dwellings[index];
        let whole = dwellings.len() == 1;
        let part = if whole { plan.clone() } else { parts.around(dwelling, &points[index]) };
        let shared = dwelling.board.map(|board| one(part, rules, way, board, &points[index]));
        watch.step();
        shared
    };
    let threads = std::thread::available_parallelism().map_or(1, std::num::NonZero::get);
    let threads = threads.min(dwellings.len()).max(1);
    let mut done: Vec<(usize, Option<Shared>)> = std::thread::scope(|scope| {
        let work = &work;
        let handles: Vec<_> = (0..threads)
            .map(|thread| {
                scope.spawn(move || {
                    let own = (thread..dwellings.len()).step_by(threads);
                    own.map(|index| (index, work(index))).collect::<Vec<_>>()
                })
            })
            .collect();
        handles.into_iter().flat_map(|handle| handle.join().unwrap_or_default()).collect()
    });
    if watch.is_stopped() {
        return;
    }
    done.sort_by_key(|(index, _)| *index);
    let mut made = Vec::new();
    let mut numbers: BTreeMap<Option<BoardId>, u16> = BTreeMap::new();
    let mut used: BTreeMap<Option<BoardId>, usize> = BTreeMap::new();
    // A number that issued papers give another circuit is not given again.
    for one in &kit.plan.kept.circuits {
        let last = numbers.entry(one.board).or_default();
        *last = one.number.max(*last);
    }
    for circuit in kit.plan.circuits.values() {
        let last = numbers.entry(circuit.board).or_default();
        *last = circuit.number.max(*last);
        *used.entry(circuit.board).or_default() += 1;
    }
    for (index, shared) in done {
        let Some(shared) = shared else {
            no_board(kit, &dwellings[index], &points[index]);
            continue;
        };
        for planned in shared.planned {
            *used.entry(planned.circuit.board).or_default() += 1;
            made.push(take_over(kit, &mut numbers, planned));
        }
        // Each looks at the whole plan.
        if !shared.lost.is_empty() {
            leave_out(kit, &shared.lost);
        }
        if let Some(board) = dwellings[index].board {
            ways_of(kit, board, used.get(&Some(board)).copied().unwrap_or(0));
        }
    }
    leave_out(kit, &[]);
    if dwellings.len() > 1 && kit.plan.points.len() <= TOGETHER_MAX {
        let lost = size::together(kit, &made);
        leave_out(kit, &lost);
    }
}

/// Beyond so many points, dwellings are sized on their own only.
const TOGETHER_MAX: usize = 400;

/// What came of a dwelling: its circuits, and points that no cable reaches.
struct Shared {
    planned: Vec<Planned>,
    lost: Vec<PointId>,
}

fn take_over(
    kit: &mut Kit<'_>,
    numbers: &mut BTreeMap<Option<BoardId>, u16>,
    mut planned: Planned,
) -> CircuitId {
    let id = CircuitId(kit.next_id());
    let last = numbers.entry(planned.circuit.board).or_default();
    *last = last.saturating_add(1);
    planned.circuit.number = *last;
    for point in &planned.points {
        if let Some(point) = kit.plan.points.get_mut(point) {
            point.circuit = Some(id);
        }
    }
    let chosen = format!(
        "{}: {} points on {}",
        planned.circuit.name,
        planned.points.len(),
        planned.circuit.cable.map_or_else(String::new, |cable| cable.to_string())
    );
    kit.plan.circuits.insert(id, planned.circuit);
    let because = planned.because;
    kit.reasons.push(Reason { subject: Subject::Circuit(id), chosen, because });
    id
}

/// A dwelling's circuits.
fn one(
    mut plan: Plan,
    rules: &RuleBook,
    way: Wayfare,
    board: BoardId,
    points: &BTreeSet<PointId>,
) -> Shared {
    let mut planned = Vec::new();
    let lost = {
        let space = Space::of(&plan);
        let mut grouper = Grouper::new(&plan, rules, &space, way, board, points);
        for ((purpose, _), units) in grouper.sort(points) {
            grouper.share(purpose, units, &mut planned);
        }
        grouper.lost()
    };
    number(&plan, &mut planned);
    size::fit(&mut plan, rules, &mut planned);
    Shared { planned, lost }
}

/// Tells circuits of the same name apart.
fn number(plan: &Plan, planned: &mut [Planned]) {
    let mut seen: BTreeMap<String, usize> = BTreeMap::new();
    for one in planned.iter() {
        *seen.entry(one.circuit.name.clone()).or_default() += 1;
    }
    let mut next: BTreeMap<String, usize> = BTreeMap::new();
    for one in planned.iter_mut() {
        if seen[&one.circuit.name] > 1 {
            let number = next.entry(one.circuit.name.clone()).or_default();
            *number += 1;
            one.circuit.name = format!("{} {number}", one.circuit.name);
        }
    }
    let taken = plan.circuits.values().map(|circuit| circuit.number).max().unwrap_or(0);
    for (one, number) in planned.iter_mut().zip(taken + 1..) {
        one.circuit.number = number;
    }
}
