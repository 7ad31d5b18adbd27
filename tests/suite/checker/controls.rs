//! Every switch is joined to the wiring of its lights, every light to its
//! switches, and the switches of a control to each other.

use wirewend::plan::{Control, ControlId, End, LoopAt, PointId};
use wirewend::runs::{Leg, LegRole};

use super::complaint::{Code, Complaints};
use super::walk::Case;

pub(crate) fn judge(case: &Case, book: &mut Complaints) {
    let controls: Vec<(ControlId, Control)> = controls(case);
    for (id, control) in &controls {
        judge_joined(case, (*id, control), &controls, book);
        judge_strappers(case, *id, control, book);
    }
    judge_strapper_count(case, &controls, book);
    judge_legs(case, &controls, book);
}

/// The controls of the circuit, without what is not placed or not reached for
/// a reason, and without what another circuit feeds.
fn controls(case: &Case) -> Vec<(ControlId, Control)> {
    let circuit_of = |point: &PointId| case.plan.points.get(point).and_then(|one| one.circuit);
    let own = |point: &PointId| {
        let circuit = circuit_of(point);
        (circuit.is_none() || circuit == Some(case.id))
            && case.placed(*point)
            && (case.reaches(End::Point(*point)) || !case.excused(*point))
    };
    let here = |control: &Control| {
        let members = control.lights.iter().chain(&control.switches);
        members.filter_map(circuit_of).next() == Some(case.id)
    };
    let kept = |points: &[PointId]| points.iter().copied().filter(own).collect();
    case.plan
        .controls
        .iter()
        .filter(|(_, control)| here(control))
        .map(|(id, control)| {
            let lights: Vec<PointId> = kept(&control.lights);
            // Without a light there is nothing to wire; a finding says so.
            let said = control.switches.iter().all(|switch| case.excused(*switch));
            let wired = !(lights.is_empty() && said);
            let switches = if wired { kept(&control.switches) } else { Vec::new() };
            (*id, Control { lights, switches, in_order: control.in_order })
        })
        .collect()
}

/// The pairs of a control's points that legs of a role join.
fn pairs(case: &Case, role: LegRole, among: &[PointId]) -> Vec<(PointId, PointId)> {
    case.legs(role)
        .filter_map(|leg| match (leg.from, leg.to) {
            (End::Point(one), End::Point(other)) => Some((one, other)),
            _ => None,
        })
        .filter(|(one, other)| among.contains(one) && among.contains(other))
        .collect()
}

/// Whether pairs join all the points into one.
fn all_joined(points: &[PointId], pairs: &[(PointId, PointId)]) -> bool {
    let Some(first) = points.first() else { return true };
    let mut reached = vec![*first];
    let mut next = 0;
    while next < reached.len() {
        let at = reached[next];
        for (one, other) in pairs {
            for (from, to) in [(one, other), (other, one)] {
                if *from == at && !reached.contains(to) {
                    reached.push(*to);
                }
            }
        }
        next += 1;
    }
    points.iter().all(|point| reached.contains(point))
}

/// Lights and switches hang together, without a leg too many, and the feed
/// comes to one of them.
fn judge_joined(
    case: &Case,
    (id, control): (ControlId, &Control),
    controls: &[(ControlId, Control)],
    book: &mut Complaints,
) {
    let members = [&control.lights[..], &control.switches[..]].concat();
    if control.switches.is_empty() || control.lights.is_empty() {
        return;
    }
    let mut strappers = pairs(case, LegRole::Strappers, &control.switches);
    // Where two controls share their switches, both their strappers lie there.
    for pair in &mut strappers {
        *pair = (pair.0.min(pair.1), pair.0.max(pair.1));
    }
    strappers.sort();
    strappers.dedup();
    let legs = pairs(case, LegRole::SwitchLeg, &members);
    let links = pairs(case, LegRole::LightLink, &control.lights);
    let joins = [legs, links, strappers].concat();
    if !all_joined(&members, &joins) {
        book.circuit(Code::Control, case.id, format!("the points of {id} do not hang together"));
    } else if joins.len() + 1 > members.len() && !shares_switches(id, control, controls) {
        book.circuit(Code::Control, case.id, format!("a leg too many in {id}"));
    }
    let at = match case.circuit.loop_at {
        Some(LoopAt::Light) => &control.lights,
        Some(LoopAt::Switch) => &control.switches,
        None => &members,
    };
    if !at.iter().any(|point| case.feeds(*point)) {
        book.circuit(Code::Control, case.id, format!("the feed comes to none of {at:?} of {id}"));
    }
}

/// Whether another control has two of its switches too, so that a strapper
/// between them may be the other's.
fn shares_switches(id: ControlId, control: &Control, controls: &[(ControlId, Control)]) -> bool {
    let common = |other: &Control| {
        other.switches.iter().filter(|switch| control.switches.contains(switch)).count()
    };
    controls.iter().any(|(other, one)| *other != id && common(one) > 1)
}

/// The switches of a control are joined by strappers, in order where asked.
fn judge_strappers(case: &Case, id: ControlId, control: &Control, book: &mut Complaints) {
    let strappers = pairs(case, LegRole::Strappers, &control.switches);
    let follows = |pair: &[PointId]| {
        strappers.contains(&(pair[0], pair[1])) || strappers.contains(&(pair[1], pair[0]))
    };
    if !all_joined(&control.switches, &strappers) {
        let text = format!("the switches of {id} are not joined by strappers");
        book.circuit(Code::Strappers, case.id, text);
    } else if control.in_order && !control.switches.windows(2).all(follows) {
        let text = format!("the strappers of {id} do not follow its order");
        book.circuit(Code::Strappers, case.id, text);
    }
}

/// One strapper fewer than switches in every control, and no others; along
/// them no switch has more than two for each control that it is in.
fn judge_strapper_count(case: &Case, controls: &[(ControlId, Control)], book: &mut Complaints) {
    let wanted: usize =
        controls.iter().map(|(_, control)| control.switches.len().saturating_sub(1)).sum();
    let made = case.legs(LegRole::Strappers).count();
    if made > wanted {
        book.circuit(Code::Strappers, case.id, format!("{made} strappers instead of {wanted}"));
    } else if made < wanted && controls.len() > 1 {
        // One control with too few is not joined, and said so above.
        let all = controls.iter().all(|(_, control)| {
            all_joined(&control.switches, &pairs(case, LegRole::Strappers, &control.switches))
        });
        if all {
            let text = format!("{made} strappers instead of {wanted}");
            book.circuit(Code::Strappers, case.id, text);
        }
    }
    let switches = controls.iter().flat_map(|(_, control)| control.switches.clone());
    for switch in switches.collect::<std::collections::BTreeSet<_>>() {
        let end = End::Point(switch);
        let here = case.legs(LegRole::Strappers);
        let joined = here.filter(|leg| leg.from == end || leg.to == end).count();
        let shares = controls.iter().filter(|(_, one)| one.switches.contains(&switch)).count();
        if joined > 2 * shares {
            let text = format!("{joined} strappers at {switch}");
            book.circuit(Code::Strappers, case.id, text);
        }
    }
}

/// A leg behind a switch joins the right things of one control.
fn judge_legs(case: &Case, controls: &[(ControlId, Control)], book: &mut Complaints) {
    for leg in &case.run.legs {
        let fits = match leg.role {
            LegRole::SwitchLeg => controls.iter().any(|(_, control)| {
                joins(leg, &control.lights, &control.switches)
                    || joins(leg, &control.switches, &control.lights)
            }),
            LegRole::LightLink => {
                controls.iter().any(|(_, one)| joins(leg, &one.lights, &one.lights))
            }
            LegRole::Strappers => {
                controls.iter().any(|(_, one)| joins(leg, &one.switches, &one.switches))
            }
            _ => true,
        };
        if !fits {
            let text = format!("a {:?} from {} to {}", leg.role, leg.from, leg.to);
            book.leg(Code::Control, leg, text);
        }
    }
}

fn joins(leg: &Leg, from: &[PointId], to: &[PointId]) -> bool {
    let among = |end: End, points: &[PointId]| match end {
        End::Point(point) => points.contains(&point),
        End::Board(_) => false,
    };
    among(leg.from, from) && among(leg.to, to)
}
