//! Allowances, habits, stock and measurements.

use super::super::{CircuitId, End, Finding, Severity, Subject, is_day};
use super::Drawing;
use crate::units::Mm;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    negative(drawing, findings);
    empty_stock(drawing, findings);
    measured(drawing, findings);
}

/// Lengths that are added, or that steer, and so must not be below nothing.
fn negative(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let (allowances, habits) = (&drawing.plan.allowances, &drawing.plan.habits);
    for (what, length) in [
        ("tail at a box", allowances.tail_box),
        ("tail at a ceiling", allowances.tail_ceiling),
        ("tail at a fixed appliance", allowances.tail_fixed),
        ("tail at a board", allowances.tail_board),
        ("turn over a plate", allowances.turn_over),
        ("loop in a void", allowances.void_loop),
        ("drip loop", allowances.drip_loop),
        ("step of cut lengths", allowances.step),
        ("cost of a bend", habits.bend),
        ("cost of a plate", habits.plate),
        ("clearance of openings", habits.opening_clearance),
        ("cost of a corner", habits.corner),
        ("width of the zones in walls", habits.zones.strip),
        ("shortest off-cut worth keeping", drawing.plan.stock.usable),
    ] {
        if length < Mm::ZERO {
            findings.push(
                Finding::new(
                    "negative-allowance",
                    Severity::Fault,
                    Subject::Plan,
                    format!("the {what} is below 0 mm"),
                    "set it to 0 mm or more",
                )
                .against(length.to_string(), "at least 0 mm", ""),
            );
        }
    }
}

fn empty_stock(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let stock = &drawing.plan.stock;
    let drums = stock.drums.iter().map(|drum| ("drum", drum.cable, drum.length));
    let off_cuts = stock.off_cuts.iter().map(|piece| ("off-cut", piece.cable, piece.length));
    for (what, cable, length) in drums.chain(off_cuts).filter(|(_, _, length)| *length <= Mm::ZERO)
    {
        findings.push(
            Finding::new(
                "empty-stock",
                Severity::Warning,
                Subject::Plan,
                format!("a {what} of {cable} holds no cable"),
                "measure it, or take it out of the stock",
            )
            .against(length.to_string(), "more than 0 mm", ""),
        );
    }
}

/// Measurements and readings that cannot be of their circuit.
fn measured(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    let plan = drawing.plan;
    let belongs = |of: CircuitId, end: End| match end {
        // A circuit that comes from no board yet is told of elsewhere.
        End::Board(id) => plan
            .circuits
            .get(&of)
            .is_some_and(|circuit| circuit.board.is_none_or(|board| board == id)),
        End::Point(id) => plan.points.get(&id).is_some_and(|point| point.circuit == Some(of)),
    };
    for it in &plan.measured {
        let leg = format!(
            "the measured leg from {} to {} of {}",
            drawing.end(it.from),
            drawing.end(it.to),
            drawing.circuit(it.circuit)
        );
        let message =
            if !belongs(it.circuit, it.from) || !belongs(it.circuit, it.to) || it.from == it.to {
                format!("{leg} has an end that is not on the circuit")
            } else if it.length <= Mm::ZERO {
                format!("{leg} has no length")
            } else {
                continue;
            };
        let subject = Subject::Leg { circuit: it.circuit, from: it.from, to: it.to };
        let remedy = "measure it again, or remove the measurement";
        findings.push(Finding::new("odd-measurement", Severity::Warning, subject, message, remedy));
    }
    for it in &plan.readings {
        let reading = format!(
            "the reading of {} at {} on {}",
            it.reads.test().name(),
            drawing.end(it.at),
            drawing.circuit(it.circuit)
        );
        let message = if !belongs(it.circuit, it.at) {
            format!("{reading} was taken where the circuit has no end")
        } else if it.reads.value() < 0.0 {
            format!("{reading} is below nothing")
        } else if !it.on.is_empty() && !is_day(&it.on) {
            // Plans of before may have any text there, and stay readable.
            format!("{reading} was taken on \"{}\", which is no day such as 2026-11-25", it.on)
        } else {
            continue;
        };
        let subject = Subject::Circuit(it.circuit);
        let remedy = "read it again, or remove the reading";
        findings.push(Finding::new("odd-measurement", Severity::Warning, subject, message, remedy));
    }
}
