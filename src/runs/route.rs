//! From a plan to its runs: the front door of this room.

use std::collections::BTreeMap;

use super::chain::Effort;
use super::circuit::route_circuit;
use super::house::{House, Wanted};
use super::marks::Marks;
use super::memory::{Memory, Needs};
use super::nearby::{Windows, route_nearby};
use super::{Runs, beside, numbers};
use crate::plan::{CircuitId, Finding, Plan, Severity, Subject};
use crate::space::{Planes, Space};
use crate::units::Watch;

/// Routes every circuit of a plan. The same plan gives the same runs, on every
/// machine; what cannot be routed becomes a finding that says why.
#[must_use]
pub fn route(plan: &Plan, space: &Space, effort: &Effort) -> Runs {
    route_in(plan, space, effort, &Windows::default())
}

/// The same with windows of another size, which changes nothing but the time.
#[must_use]
pub fn route_in(plan: &Plan, space: &Space, effort: &Effort, windows: &Windows) -> Runs {
    let watch = Watch::default();
    route_with(plan, space, effort, windows, None, &watch).unwrap_or_default()
}

/// The same, and much sooner where little has changed since the last time.
#[must_use]
pub fn route_again(plan: &Plan, space: &Space, effort: &Effort, memory: &mut Memory) -> Runs {
    route_watched(plan, space, effort, memory, &Watch::default()).unwrap_or_default()
}

/// The same under a watch that counts circuits. None where it was stopped:
/// between two circuits, or between their steps.
#[must_use]
pub fn route_watched(
    plan: &Plan,
    space: &Space,
    effort: &Effort,
    memory: &mut Memory,
    watch: &Watch,
) -> Option<Runs> {
    memory.look_at(space, effort);
    route_with(plan, space, effort, &Windows::default(), Some(memory), watch)
}

fn route_with(
    plan: &Plan,
    space: &Space,
    effort: &Effort,
    windows: &Windows,
    mut memory: Option<&mut Memory>,
    watch: &Watch,
) -> Option<Runs> {
    watch.begin(plan.circuits.len());
    let marks = Marks::of(plan);
    let mut house = House::of(plan, space);
    let mut runs = Runs::default();
    for (id, point) in &plan.points {
        if point.circuit.is_none() {
            runs.findings.push(Finding::new(
                "point-without-circuit",
                Severity::Missing,
                Subject::Point(*id),
                format!("{} is on no circuit, so no cable leads to it", marks.point(*id)),
                "put it on a circuit",
            ));
        }
    }
    let mut needs: BTreeMap<CircuitId, Needs<'_>> = BTreeMap::new();
    let mut wanted: Vec<Wanted> = Vec::new();
    for id in plan.circuits.keys() {
        let Some(memory) = memory.as_deref() else {
            wanted.push(Wanted { id: *id, before: None });
            continue;
        };
        let now =
            Needs::of((plan, space), *id, house.points_on(*id), |end| house.terminal(end).cloned());
        if memory.recall(*id, &now).is_none() {
            wanted.push(Wanted { id: *id, before: memory.before(*id, &now) });
        }
        needs.insert(*id, now);
    }
    let ids: Vec<CircuitId> = wanted.iter().map(|one| one.id).collect();
    if watch.is_stopped() {
        return None;
    }
    let mut nearby = route_nearby(plan, &house, &marks, &ids, effort, windows, watch);
    wanted.retain(|one| !nearby.contains_key(&one.id));
    if !wanted.is_empty() && !watch.is_stopped() {
        let planes = memory.as_deref_mut().map_or_else(|| Planes::of(space), |m| m.planes(space));
        house.prepare(plan, &planes, wanted);
    }
    for id in plan.circuits.keys() {
        if watch.is_stopped() {
            return None;
        }
        if !nearby.contains_key(id) {
            watch.step();
        }
        let needs = needs.remove(id);
        if let (Some(memory), Some(needs)) = (memory.as_deref(), &needs)
            && let Some(run) = memory.recall(*id, needs)
        {
            runs.circuits.insert(*id, run.clone());
            continue;
        }
        let routed = nearby
            .remove(id)
            .unwrap_or_else(|| route_circuit(plan, &mut house, &marks, *id, effort));
        if let (Some(memory), Some(needs)) = (memory.as_deref_mut(), needs) {
            // What the plain network found, or could not, depends on all walls.
            let keys = routed.keys.filter(|_| routed.findings.is_empty());
            memory.keep(*id, needs, keys.map(|keys| (&routed.run, keys)));
        }
        runs.circuits.insert(*id, routed.run);
        runs.findings.extend(routed.findings);
    }
    beside::count(&mut runs);
    // After all else: what is taken over from before may be kept since.
    numbers::give(plan, &mut runs);
    Some(runs)
}
