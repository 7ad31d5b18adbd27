//! Distribution boards.

use std::collections::BTreeMap;

use super::super::{BoardId, CircuitId, End, Finding, Severity, Subject};
use super::Drawing;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    for (id, board) in &drawing.plan.boards {
        if board.place.is_none() {
            findings.push(Finding::new(
                "unplaced-board",
                Severity::Missing,
                Subject::Board(*id),
                format!("board {} is not placed", drawing.end(End::Board(*id))),
                "put it on a wall; no run can begin there before",
            ));
        }
        let circuits = circuits_of(drawing, *id);
        too_few_ways(drawing, *id, circuits.len(), findings);
        same_numbers(drawing, *id, &circuits, findings);
    }
}

fn circuits_of(drawing: &Drawing<'_>, board: BoardId) -> Vec<CircuitId> {
    let circuits = drawing.plan.circuits.iter();
    circuits.filter(|(_, circuit)| circuit.board == Some(board)).map(|(id, _)| *id).collect()
}

fn too_few_ways(drawing: &Drawing<'_>, id: BoardId, count: usize, findings: &mut Vec<Finding>) {
    let Some(ways) = drawing.plan.boards.get(&id).and_then(|board| board.ways) else { return };
    if usize::from(ways) < count {
        findings.push(
            Finding::new(
                "too-few-ways",
                Severity::Fault,
                Subject::Board(id),
                format!("board {} has fewer ways than circuits", drawing.end(End::Board(id))),
                "choose a larger board, or join circuits",
            )
            .against(format!("{count} circuits"), format!("{ways} ways"), ""),
        );
    }
}

/// Neutrals and earths are found by the circuit's number, so it must be one
/// circuit's alone.
fn same_numbers(
    drawing: &Drawing<'_>,
    board: BoardId,
    circuits: &[CircuitId],
    findings: &mut Vec<Finding>,
) {
    let mut first_with: BTreeMap<u16, CircuitId> = BTreeMap::new();
    for id in circuits {
        let number = drawing.plan.circuits[id].number;
        if let Some(first) = first_with.get(&number) {
            findings.push(Finding::new(
                "same-circuit-number",
                Severity::Fault,
                Subject::Circuit(*id),
                format!(
                    "{} has the same number as {} at board {}",
                    drawing.circuit(*id),
                    drawing.circuit(*first),
                    drawing.end(End::Board(board))
                ),
                "give one of them a number of its own",
            ));
            continue;
        }
        first_with.insert(number, *id);
        let circuit = &drawing.plan.circuits[id];
        if let Some(before) = drawing.plan.kept.numbered_before(*id, circuit) {
            let name = drawing.circuit(*id);
            let other = if drawing.plan.circuits.contains_key(&before) {
                drawing.circuit(before)
            } else {
                "a circuit that is gone".to_owned()
            };
            findings.push(Finding::new(
                "same-circuit-number",
                Severity::Warning,
                Subject::Circuit(*id),
                format!("{name} has the number that issued papers give {other}"),
                "give it a number of its own, or number all circuits anew and issue their papers",
            ));
        }
    }
}
