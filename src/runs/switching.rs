//! Which legs join switches to their lights.

use super::LegRole;
use super::finder::Finder;
use crate::plan::{Circuit, Control, ControlId, End, LoopAt, Plan, PointId};
use crate::units::Cost;

/// The legs behind the feed of a lighting circuit.
#[derive(Default)]
pub(super) struct Switching {
    /// Points that the feed does not visit.
    pub(super) behind: Vec<PointId>,
    /// What each leg is for, and its ends.
    pub(super) legs: Vec<(LegRole, PointId, PointId)>,
    /// Controls without lights or switches that can be reached.
    pub(super) incomplete: Vec<ControlId>,
}

/// The switch legs of a circuit. Looped at the light, the feed visits one
/// light of each control and a cable goes down to its switches; looped at the
/// switch, the feed visits the first switch and a cable goes from the last up
/// to a light. Strappers join the switches, links the other lights.
pub(super) fn plan_of(
    plan: &Plan,
    circuit: &Circuit,
    reached: &[PointId],
    finder: &Finder<'_>,
) -> Switching {
    let mut switching = Switching::default();
    let mut fed: Vec<PointId> = Vec::new();
    for (id, control) in &plan.controls {
        let keep = |ids: &[PointId]| -> Vec<PointId> {
            ids.iter().copied().filter(|id| reached.contains(id)).collect()
        };
        let (lights, switches) = (keep(&control.lights), keep(&control.switches));
        if lights.is_empty() && switches.is_empty() {
            continue;
        }
        let at_switch = circuit.loop_at == Some(LoopAt::Switch);
        if lights.is_empty() || switches.is_empty() {
            // What the feed would not visit anyway waits for its partners.
            switching.behind.extend(if at_switch { &lights } else { &switches });
            switching.incomplete.push(*id);
            continue;
        }
        let row = switch_row(finder, control, switches, &lights);
        wire(&mut switching, &mut fed, finder, &row, lights, at_switch);
    }
    switching.behind.retain(|id| !fed.contains(id));
    switching
}

fn wire(
    switching: &mut Switching,
    fed: &mut Vec<PointId>,
    finder: &Finder<'_>,
    row: &[PointId],
    mut lights: Vec<PointId>,
    at_switch: bool,
) {
    // The row of switches ends where its last switch is nearest to a light.
    let Some(last) = row.last().copied() else { return };
    let Some(lead) = nearest(finder, last, &lights) else { return };
    switching.behind.extend(lights.iter().chain(row));
    fed.push(if at_switch { row[0] } else { lead });
    let leg = (LegRole::SwitchLeg, lead, last);
    switching.legs.push(if at_switch { (leg.0, last, lead) } else { leg });
    for pair in row.windows(2).rev() {
        switching.legs.push((LegRole::Strappers, pair[1], pair[0]));
    }
    let mut from = lead;
    lights.retain(|light| *light != lead);
    while let Some(next) = nearest(finder, from, &lights) {
        switching.legs.push((LegRole::LightLink, from, next));
        lights.retain(|light| *light != next);
        from = next;
    }
}

fn cost(finder: &Finder<'_>, from: PointId, to: PointId) -> Option<Cost> {
    finder.distance(End::Point(from), End::Point(to)).map(|distance| distance.cost)
}

fn nearest(finder: &Finder<'_>, from: PointId, among: &[PointId]) -> Option<PointId> {
    among
        .iter()
        .copied()
        .filter_map(|to| cost(finder, from, to).map(|cost| (cost, to)))
        .min()
        .map(|(_, to)| to)
}

/// The switches in the order of their strappers: as listed where that is
/// asked for, else the cheapest of all orders up to six switches, and from
/// nearest to nearest beyond.
fn switch_row(
    finder: &Finder<'_>,
    control: &Control,
    switches: Vec<PointId>,
    lights: &[PointId],
) -> Vec<PointId> {
    if control.in_order || switches.len() < 2 {
        return switches;
    }
    if switches.len() > 6 {
        let mut left = switches;
        let mut row = vec![left.remove(0)];
        while let Some(next) = nearest(finder, row[row.len() - 1], &left) {
            left.retain(|other| *other != next);
            row.push(next);
        }
        return row;
    }
    let mut best: Option<(Cost, Vec<PointId>)> = None;
    permute(&mut switches.clone(), 0, &mut |row| {
        let joints = row.windows(2).map(|pair| cost(finder, pair[0], pair[1]));
        let light = nearest(finder, row[row.len() - 1], lights);
        let up = light.and_then(|light| cost(finder, row[row.len() - 1], light));
        let total: Option<Vec<Cost>> = joints.chain(std::iter::once(up)).collect();
        if let Some(total) = total {
            let candidate = (total.into_iter().sum(), row.to_vec());
            if best.as_ref().is_none_or(|best| candidate < *best) {
                best = Some(candidate);
            }
        }
    });
    best.map_or(switches, |best| best.1)
}

fn permute(row: &mut [PointId], from: usize, visit: &mut impl FnMut(&[PointId])) {
    if from + 1 >= row.len() {
        visit(row);
        return;
    }
    for index in from..row.len() {
        row.swap(from, index);
        permute(row, from + 1, visit);
        row.swap(from, index);
    }
}
