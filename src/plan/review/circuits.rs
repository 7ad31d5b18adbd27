//! Circuits: what is not decided yet, and what names the wrong points.

use std::collections::{BTreeMap, BTreeSet};

use super::super::{Circuit, CircuitId, End, Finding, PointId, Severity, Subject};
use super::Drawing;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let mut counts: BTreeMap<CircuitId, usize> = BTreeMap::new();
    for circuit in drawing.plan.points.values().filter_map(|point| point.circuit) {
        *counts.entry(circuit).or_default() += 1;
    }
    for (id, circuit) in &drawing.plan.circuits {
        undecided(drawing, *id, circuit, counts.contains_key(id), findings);
        phase(drawing, *id, circuit, findings);
        order(drawing, *id, circuit, findings);
        spurs(drawing, *id, circuit, findings);
        pins(drawing, *id, circuit, findings);
    }
}

fn undecided(
    drawing: &Drawing<'_>,
    id: CircuitId,
    circuit: &Circuit,
    has_points: bool,
    findings: &mut Vec<Finding>,
) {
    for (is_there, code, what, remedy) in [
        (
            circuit.board.is_some(),
            "circuit-without-board",
            "board",
            "say which board it comes from",
        ),
        (circuit.cable.is_some(), "circuit-without-cable", "cable", "choose its cable"),
        (
            circuit.device.is_some(),
            "circuit-without-device",
            "protective device",
            "choose what protects it",
        ),
        (has_points, "circuit-without-points", "points", "put points on it, or remove it"),
    ] {
        if !is_there {
            let message = format!("{} has no {what}", drawing.circuit(id));
            findings.push(Finding::new(
                code,
                Severity::Missing,
                Subject::Circuit(id),
                message,
                remedy,
            ));
        }
    }
}

fn phase(drawing: &Drawing<'_>, id: CircuitId, circuit: &Circuit, findings: &mut Vec<Finding>) {
    let board = circuit.board.and_then(|board| Some((board, drawing.plan.boards.get(&board)?)));
    let (Some(phase), Some((board_id, board))) = (circuit.phase, board) else { return };
    let phases = board.supply.phases.unwrap_or(3);
    if phase == 0 || phase > phases {
        findings.push(
            Finding::new(
                "phase-not-at-board",
                Severity::Fault,
                Subject::Circuit(id),
                format!(
                    "{} is on a phase that board {} does not have",
                    drawing.circuit(id),
                    drawing.end(End::Board(board_id))
                ),
                "put it on another phase, or mend the board's supply",
            )
            .against(format!("phase {phase}"), format!("1 to {phases}"), ""),
        );
    }
}

/// Why an end cannot be one of a circuit's: nothing where it can.
fn stranger(drawing: &Drawing<'_>, id: CircuitId, circuit: &Circuit, end: End) -> Option<String> {
    let belongs = match end {
        End::Board(board) => circuit.board == Some(board),
        End::Point(point) => drawing.plan.points.get(&point)?.circuit == Some(id),
    };
    let mark = drawing.end(end);
    (!belongs).then(|| match end {
        End::Board(_) => format!("board {mark}, which does not feed it"),
        End::Point(_) => format!("{mark}, which is not on it"),
    })
}

fn order(drawing: &Drawing<'_>, id: CircuitId, circuit: &Circuit, findings: &mut Vec<Finding>) {
    let mut seen: BTreeSet<PointId> = BTreeSet::new();
    for point in &circuit.order {
        let wrong = stranger(drawing, id, circuit, End::Point(*point)).or_else(|| {
            (!seen.insert(*point)).then(|| format!("{} twice", drawing.end(End::Point(*point))))
        });
        findings.extend(wrong.map(|what| {
            Finding::new(
                "order-names-stranger",
                Severity::Fault,
                Subject::Circuit(id),
                format!("the fixed order of {} names {what}", drawing.circuit(id)),
                "take the point out of the order, or put it on the circuit",
            )
        }));
    }
}

fn spurs(drawing: &Drawing<'_>, id: CircuitId, circuit: &Circuit, findings: &mut Vec<Finding>) {
    let mut seen: BTreeSet<PointId> = BTreeSet::new();
    for spur in &circuit.spurs {
        let ends = [End::Point(spur.point), spur.from];
        let mark = drawing.end(ends[0]);
        let wrong = ends
            .into_iter()
            .find_map(|end| stranger(drawing, id, circuit, end))
            .or_else(|| (ends[0] == ends[1]).then(|| format!("{mark} as hanging off itself")))
            .or_else(|| (!seen.insert(spur.point)).then(|| format!("{mark} twice")));
        findings.extend(wrong.map(|what| {
            Finding::new(
                "spur-names-stranger",
                Severity::Fault,
                Subject::Circuit(id),
                format!("a spur of {} names {what}", drawing.circuit(id)),
                "remove the spur, or put both its ends on the circuit",
            )
        }));
    }
}

fn pins(drawing: &Drawing<'_>, id: CircuitId, circuit: &Circuit, findings: &mut Vec<Finding>) {
    for pin in &circuit.pins {
        let wrong = [pin.from, pin.to]
            .into_iter()
            .find_map(|end| stranger(drawing, id, circuit, end))
            .or_else(|| {
                (pin.from == pin.to).then(|| format!("{} as both ends", drawing.end(pin.to)))
            })
            .or_else(|| pin.through.is_empty().then(|| "no place to pass through".to_owned()));
        findings.extend(wrong.map(|what| {
            Finding::new(
                "pin-names-stranger",
                Severity::Fault,
                Subject::Circuit(id),
                format!("a pinned leg of {} names {what}", drawing.circuit(id)),
                "remove the pins, or put both ends of the leg on the circuit",
            )
        }));
    }
}
