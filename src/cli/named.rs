//! Circuits and legs as they are named on the command line.

use wirewend::plan::{Circuit, CircuitId, Labels, Plan, labels};
use wirewend::runs::Leg;

use super::job::Job;

/// A circuit by its number, `3`; with the mark of its board, `DB2/3`, where
/// several boards feed one of that number.
pub(super) fn circuit_of(plan: &Plan, asked: &str) -> Result<CircuitId, String> {
    let marks = labels(plan);
    let names = plan.circuits.iter().map(|(id, circuit)| {
        let number = circuit.number.to_string();
        (*id, with_board(&marks, circuit, &number), number)
    });
    let names: Vec<(CircuitId, String, String)> = names.collect();
    let found: Vec<_> = names.iter().filter(|one| one.1 == asked || one.2 == asked).collect();
    match found[..] {
        [(id, ..)] => Ok(*id),
        [] => Err(format!("no circuit {asked} in this plan; it has {}", listed(names.iter()))),
        _ => Err(format!("which circuit {asked}? One of {}", listed(found.into_iter()))),
    }
}

/// A leg by its number on drawings, `3.2`, with the mark of its board,
/// `DB2/3.2`, where several boards feed one of that number; or by the marks of
/// its ends, `S1/S2`.
pub(super) fn leg_of<'j>(job: &'j Job, asked: &str) -> Result<&'j Leg, String> {
    let marks = labels(&job.plan);
    let legs = || job.runs.circuits.values().flat_map(|run| &run.legs);
    let names = legs().filter_map(|leg| {
        let circuit = job.plan.circuits.get(&leg.circuit)?;
        let number = format!("{}.{}", circuit.number, leg.number);
        Some((leg, with_board(&marks, circuit, &number), number))
    });
    let found: Vec<_> = names.filter(|one| one.1 == asked || one.2 == asked).collect();
    let has_ends = |leg: &&Leg| {
        let (from, to) = (marks.end(leg.from), marks.end(leg.to));
        format!("{from}/{to}") == asked || format!("{to}/{from}") == asked
    };
    match found[..] {
        [(leg, ..)] => Ok(leg),
        [] => legs().find(has_ends).ok_or_else(|| {
            format!("no leg \"{asked}\" in this plan; wirewend runs lists them with their numbers")
        }),
        _ => Err(format!("which leg {asked}? One of {}", listed(found.iter()))),
    }
}

/// `DB2/3`; without a board, the number alone.
fn with_board(marks: &Labels, circuit: &Circuit, number: &str) -> String {
    circuit.board.map_or(number.to_owned(), |id| format!("{}/{number}", marks.board(id)))
}

/// Full names, or numbers where each stands for one alone.
fn listed<'n, T: 'n>(names: impl Iterator<Item = &'n (T, String, String)> + Clone) -> String {
    let numbers: std::collections::BTreeSet<&str> = names.clone().map(|one| &*one.2).collect();
    let is_plain = numbers.len() == names.clone().count();
    let shown = names.map(|(_, full, number)| if is_plain { &**number } else { &**full });
    shown.collect::<Vec<&str>>().join(", ")
}
