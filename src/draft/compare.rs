//! A plan wired in other ways, side by side: metres, price, volt drop, chases.

use serde::Serialize;

use crate::checks::check;
use crate::lengths::{LegLength, measure};
use crate::plan::{CircuitId, CircuitUse, End, Plan, PointId, Way, Wiring};
use crate::rules::RuleBook;
use crate::runs::chain::Effort;
use crate::runs::{Runs, Surrounding, route};
use crate::space::Space;
use crate::takeoff::{Total, take_off};
use crate::units::{Cents, Csa, Mm};

/// What a way of wiring comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Compared {
    /// What was asked.
    pub question: &'static str,
    /// The answer tried.
    pub option: &'static str,
    /// Circuits.
    pub circuits: usize,
    /// Cable to cut, mm.
    pub cut: Mm,
    /// In chases in masonry or concrete, mm.
    pub chase: Mm,
    /// What it costs by the plan's price book, margin and tax included, where
    /// that is known.
    pub price: Total<Cents>,
    /// The greatest volt drop, percent; None where none could be worked out.
    pub volt_drop_percent: Option<f64>,
    /// The number of the circuit with that drop.
    pub volt_drop_circuit: Option<u16>,
    /// Legs that cannot be made this way.
    pub no_way: usize,
    /// Faults that the checks find, those legs left aside.
    pub faults: usize,
}

/// Wires a plan in several ways: overhead, underfloor or mixed; as drawn, in
/// larger cable or with more circuits; radial or ring. The plan itself is not
/// changed. One row for each, for tables and quotes alike.
#[must_use]
pub fn compare(plan: &Plan, rules: &RuleBook) -> Vec<Compared> {
    let base = routed(plan);
    let ways = "where cables run";
    let loads = "larger cable or more circuits, for sockets";
    let rings = "ring or radial, for sockets";
    let tries: [(&str, &str, Plan); 8] = [
        (ways, "overhead", with_ways(plan, Some(&[Way::Overhead, Way::InWall]))),
        (
            ways,
            "underfloor, lights overhead",
            with_ways(plan, Some(&[Way::Underfloor, Way::InWall])),
        ),
        (ways, "mixed", with_ways(plan, None)),
        (loads, "as drawn", plan.clone()),
        (loads, "next larger cable", larger(plan)),
        (loads, "twice the circuits", halved(plan, &base)),
        (rings, "radial", wired(plan, Wiring::Chain)),
        (rings, "ring", wired(plan, Wiring::Ring)),
    ];
    tries
        .into_iter()
        .map(|(question, option, plan)| figures(question, option, &plan, rules))
        .collect()
}

fn routed(plan: &Plan) -> Runs {
    route(plan, &Space::of(plan), &Effort::default())
}

fn figures(
    question: &'static str,
    option: &'static str,
    plan: &Plan,
    rules: &RuleBook,
) -> Compared {
    let runs = routed(plan);
    let lengths = measure(plan, &runs);
    let checked = check(plan, &runs, &lengths, rules);
    let segments =
        runs.circuits.values().flat_map(|run| &run.legs).flat_map(|leg| &leg.route.segments);
    let chase = segments.filter(|segment| segment.through == Surrounding::Chase);
    let worst = crate::plan::Severity::Fault;
    let no_way = runs.findings.iter().filter(|finding| finding.severity == worst).count();
    let routing = ["no-way", "point-not-joined"];
    let faults = checked
        .findings
        .iter()
        .filter(|finding| finding.severity == worst && !routing.contains(&finding.code));
    let drops = checked
        .circuits
        .iter()
        .filter_map(|(id, figures)| Some((figures.volt_drop_percent?, plan.circuits.get(id)?)));
    let worst_drop = drops.max_by(|a, b| a.0.total_cmp(&b.0));
    let quote = take_off(plan, &runs, &lengths, rules).quote;
    Compared {
        question,
        option,
        circuits: plan.circuits.len(),
        cut: lengths.circuits.values().flatten().map(LegLength::cut_or_measured).sum(),
        chase: chase.map(|segment| segment.length).sum(),
        price: quote.total.map(|sums| sums.sum.value),
        volt_drop_percent: worst_drop.map(|(drop, _)| drop),
        volt_drop_circuit: worst_drop.map(|(_, circuit)| circuit.number),
        no_way,
        faults: faults.count(),
    }
}

fn with_ways(plan: &Plan, ways: Option<&[Way]>) -> Plan {
    let mut plan = plan.clone();
    for circuit in plan.circuits.values_mut() {
        let overhead = matches!(circuit.usage, CircuitUse::Lighting | CircuitUse::Alarms);
        circuit.ways = match ways {
            Some(ways) if overhead && ways.contains(&Way::Underfloor) => {
                Some(vec![Way::Overhead, Way::InWall])
            }
            other => other.map(<[Way]>::to_vec),
        };
    }
    plan
}

/// Sizes as cables are made, hundredths of a mm².
const SIZES: [u32; 9] = [100, 150, 250, 400, 600, 1000, 1600, 2500, 3500];

fn larger(plan: &Plan) -> Plan {
    let mut plan = plan.clone();
    let sockets = plan.circuits.values_mut().filter(|c| c.usage == CircuitUse::Sockets);
    for cable in sockets.filter_map(|circuit| circuit.cable.as_mut()) {
        let next = SIZES.into_iter().map(Csa::from_hundredths).find(|size| *size > cable.size);
        cable.size = next.unwrap_or(cable.size);
    }
    plan
}

/// Every socket circuit of four points or more cut in two along its feed.
fn halved(plan: &Plan, runs: &Runs) -> Plan {
    let mut plan = plan.clone();
    let ids: Vec<CircuitId> = plan.circuits.keys().copied().collect();
    for id in ids {
        let circuit = plan.circuits[&id].clone();
        let Some(run) = runs.circuits.get(&id).filter(|_| circuit.usage == CircuitUse::Sockets)
        else {
            continue;
        };
        let points: Vec<PointId> = run
            .order
            .ends
            .iter()
            .filter_map(|end| match end {
                End::Point(id) => Some(*id),
                End::Board(_) => None,
            })
            .collect();
        let bound =
            !circuit.order.is_empty() || !circuit.spurs.is_empty() || !circuit.pins.is_empty();
        if points.len() < 4 || bound {
            continue;
        }
        let new = CircuitId(plan.next_id);
        plan.next_id += 1;
        let number = plan.circuits.values().map(|circuit| circuit.number).max().unwrap_or(0) + 1;
        for point in &points[points.len().div_ceil(2)..] {
            plan.points[point].circuit = Some(new);
        }
        plan.circuits.insert(new, crate::plan::Circuit { number, ..circuit });
    }
    for board in plan.boards.values_mut() {
        board.ways = None;
    }
    plan
}

fn wired(plan: &Plan, wiring: Wiring) -> Plan {
    let mut plan = plan.clone();
    for circuit in plan.circuits.values_mut().filter(|c| c.usage == CircuitUse::Sockets) {
        circuit.wiring = wiring;
    }
    plan
}
