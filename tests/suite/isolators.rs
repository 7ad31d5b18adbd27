//! Isolating switches and connection units come before what they cut off, in
//! every wiring, and what a person orders otherwise is kept and said.

use std::collections::BTreeSet;

use wirewend::plan::{
    CircuitId, CircuitUse, End, Plan, PointId, PointKind, Severity, Spur, Subject, Wiring,
};
use wirewend::runs::{self, LegRole, Memory, OrderMethod, Runs, chain::Effort};
use wirewend::space::Space;

use crate::checker::{self, Code};
use crate::cutting_jobs::Chance;
use crate::fixtures::house;
use crate::generate::generated_plan;
use crate::layouts::drafted;

const QUICK: Effort = Effort { exact_up_to: 7, kicks: 20, ascent_steps: 60, branch_trees: 0 };

fn routed(plan: &Plan) -> Runs {
    runs::route(plan, &Space::of(plan), &QUICK)
}

/// The circuit of the only point of a kind, and that point.
fn of_kind(plan: &Plan, kind: PointKind) -> (CircuitId, PointId) {
    let mut found = plan.points.iter().filter(|(_, point)| point.kind == kind);
    let (id, point) = found.next().expect("there is one");
    assert!(found.next().is_none(), "there is only one");
    (point.circuit.expect("on a circuit"), *id)
}

/// The kinds along the feed of a circuit, the board left out.
fn along(plan: &Plan, runs: &Runs, circuit: CircuitId) -> Vec<PointKind> {
    let ends = runs.circuits[&circuit].order.ends.iter();
    let kind = |end: &End| match end {
        End::Point(id) => Some(plan.points[id].kind),
        End::Board(_) => None,
    };
    ends.filter_map(kind).collect()
}

#[test]
fn the_shower_and_the_cooktops_of_the_houses_come_behind_their_switches() {
    use PointKind::{Cooktop, Isolator, Shower};
    for (name, kind) in
        [("townhouse", Shower), ("townhouse", Cooktop), ("flat", Cooktop), ("cottage", Cooktop)]
    {
        let plan = house(name);
        let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
        let (circuit, _) = of_kind(&plan, kind);
        assert_eq!(along(&plan, &runs, circuit), [Isolator, kind], "{name}");
        let order = &runs.circuits[&circuit].order;
        assert_eq!(order.bound, order.cost, "{name}: proven within that");
        assert_ne!(order.method, OrderMethod::Improved, "{name}");
    }
}

/// Turns some points of every socket circuit into switches and appliances.
fn with_isolators(seed: u64) -> Plan {
    let mut plan = generated_plan(seed);
    let mut chance = Chance::new(seed);
    let kinds = [PointKind::Oven, PointKind::Cooktop, PointKind::WaterHeater, PointKind::Shower];
    let circuits: Vec<CircuitId> = plan.circuits.keys().copied().collect();
    for circuit in circuits {
        if plan.circuits[&circuit].usage != CircuitUse::Sockets {
            continue;
        }
        let share = chance.between(0, 2);
        for point in plan.points.values_mut().filter(|point| point.circuit == Some(circuit)) {
            let drawn = chance.between(0, 5);
            point.kind = match (share, drawn) {
                (1, 0 | 1) | (2, 0..=2) => PointKind::Isolator,
                (1, 2 | 3) | (2, 3..=5) => kinds[usize::try_from(drawn).unwrap() % kinds.len()],
                _ => point.kind,
            };
        }
    }
    plan
}

#[test]
fn generated_plans_are_wired_behind_their_switches_in_every_wiring() {
    let (mut behind, mut wirings, mut said) = (0, BTreeSet::new(), 0);
    for seed in 0..1500 {
        let plan = with_isolators(seed);
        let space = Space::of(&plan);
        if space.voids.iter().any(|void| void.regions.len() > 60) {
            continue;
        }
        let runs = runs::route(&plan, &space, &QUICK);
        let complaints = checker::judge(&plan, &runs, None);
        let text: Vec<String> = complaints.iter().map(ToString::to_string).collect();
        assert!(text.is_empty(), "seed {seed}:\n{}", text.join("\n"));
        for (id, run) in &runs.circuits {
            let switch = |end: &End| matches!(end, End::Point(id) if plan.points[id].kind == PointKind::Isolator);
            let fed = run.legs.iter().filter(|leg| switch(&leg.from) && !switch(&leg.to));
            let spurs = fed.filter(|leg| leg.role == LegRole::Spur).count();
            behind += spurs;
            if spurs > 0 {
                wirings.insert(format!("{:?}", plan.circuits[id].wiring));
            }
        }
        said += runs.findings.iter().filter(|one| one.code == "not-behind-isolator").count();
    }
    assert_eq!(wirings.len(), 4, "every wiring: {wirings:?}");
    assert!(behind > 300 && said > 20, "{behind} hang behind a switch, {said} ordered otherwise");
}

#[test]
fn nothing_that_was_routed_before_is_taken_over_where_rooms_tell_switches_otherwise() {
    let mut different = 0;
    for seed in 0..300 {
        let plan = with_isolators(seed);
        let space = Space::of(&plan);
        if space.voids.iter().any(|void| void.regions.len() > 60) {
            continue;
        }
        let mut memory = Memory::default();
        let before = runs::route_again(&plan, &space, &QUICK, &mut memory);
        let mut open = plan.clone();
        open.rooms.clear();
        let space = Space::of(&open);
        let again = runs::route_again(&open, &space, &QUICK, &mut memory);
        assert_eq!(again, runs::route(&open, &space, &QUICK), "seed {seed}: as from scratch");
        different += usize::from(again.circuits != before.circuits);
    }
    assert!(different > 5, "only {different} plans change with their rooms");
}

#[test]
fn an_order_against_the_switch_is_kept_and_said() {
    let mut plan = house("townhouse");
    let (circuit, shower) = of_kind(&plan, PointKind::Shower);
    plan.circuits[&circuit].order = vec![shower];
    let runs = routed(&plan);
    let kinds = along(&plan, &runs, circuit);
    assert_eq!(kinds, [PointKind::Shower, PointKind::Isolator], "as ordered");
    let said: Vec<_> =
        runs.findings.iter().filter(|one| one.code == "not-behind-isolator").collect();
    assert_eq!(said.len(), 1, "{:?}", runs.findings);
    assert_eq!((said[0].subject, said[0].severity), (Subject::Point(shower), Severity::Warning));
    // In the right order by hand, nothing is said.
    let own = |id: &&PointId| plan.points[*id].circuit == Some(circuit) && **id != shower;
    let switch = *plan.points.keys().find(own).unwrap();
    plan.circuits[&circuit].order = vec![switch, shower];
    assert!(!routed(&plan).findings.iter().any(|one| one.code == "not-behind-isolator"), "right");
}

#[test]
fn in_a_ring_an_appliance_hangs_behind_its_connection_unit() {
    let mut plan = house("townhouse");
    let (circuit, shower) = of_kind(&plan, PointKind::Shower);
    let switch = *plan
        .points
        .iter()
        .find(|(_, point)| point.circuit == Some(circuit) && point.kind == PointKind::Isolator)
        .unwrap()
        .0;
    let ring = *plan.circuits.iter().find(|(_, one)| one.wiring == Wiring::Ring).unwrap().0;
    for id in [shower, switch] {
        plan.points[&id].circuit = Some(ring);
    }
    let runs = routed(&plan);
    let run = &runs.circuits[&ring];
    assert!(run.order.ends.contains(&End::Point(switch)), "the unit is in the ring");
    assert!(!run.order.ends.contains(&End::Point(shower)), "the shower is not");
    let leg = run.legs.iter().find(|leg| leg.to == End::Point(shower)).unwrap();
    assert_eq!((leg.role, leg.from), (LegRole::Spur, End::Point(switch)), "off the unit");
    // Ordered into the ring by hand it stays there, and that is said.
    plan.circuits[&ring].order = vec![switch, shower];
    let ordered = routed(&plan);
    assert!(ordered.circuits[&ring].order.ends.contains(&End::Point(shower)), "as ordered");
    let told = |one: &&wirewend::plan::Finding| one.code == "not-behind-isolator";
    assert_eq!(ordered.findings.iter().filter(told).count(), 1, "mains from both sides");
    // And so where it is hung off a socket.
    let socket = plan
        .points
        .iter()
        .find(|(_, point)| point.circuit == Some(ring) && point.kind == PointKind::Socket);
    let from = End::Point(*socket.unwrap().0);
    plan.circuits[&ring].order.clear();
    plan.circuits[&ring].spurs.push(Spur { point: shower, from });
    let hung = routed(&plan);
    assert_eq!(hung.findings.iter().filter(told).count(), 1, "not through the unit");
}

/// The houses with all circuits taken off, drafted again.
#[test]
fn a_draft_puts_switches_on_the_circuits_of_what_they_cut_off() {
    let mut seen = 0;
    for name in ["townhouse", "flat", "cottage"] {
        let mut plan = house(name);
        plan.circuits.clear();
        plan.measured.clear();
        plan.readings.clear();
        for point in plan.points.values_mut() {
            point.circuit = None;
        }
        let plan = drafted(plan);
        let runs = routed(&plan);
        let complaints = checker::judge(&plan, &runs, None);
        let said: Vec<String> = complaints
            .iter()
            .filter(|one| one.code == Code::Isolator)
            .map(ToString::to_string)
            .collect();
        assert!(said.is_empty(), "{name}:\n{}", said.join("\n"));
        for (id, point) in &plan.points {
            if point.kind != PointKind::Isolator || point.circuit.is_none() {
                continue;
            }
            let run = &runs.circuits[&point.circuit.unwrap()];
            let fed = run.legs.iter().find(|leg| leg.from == End::Point(*id));
            let fed = fed.unwrap_or_else(|| panic!("{name}: {id} feeds nothing"));
            let End::Point(load) = fed.to else { panic!("{name}: {id} feeds a board") };
            assert_ne!(plan.points[&load].kind, PointKind::Isolator, "{name}: {id}");
            seen += 1;
        }
    }
    assert!(seen >= 4, "only {seen} switches");
}
