//! Balance across phases.
//!
//! **Looks at** the design currents of the circuits on each phase of a
//! three-phase board. **Matters** because the heaviest phase decides the
//! supply. **Example:** both oven and heater on phase 1. **Remedy:** move a
//! circuit. **Source:** table `balance`; common practice.

use super::super::context::{Case, House};
use super::super::result::Checked;
use super::super::words;
use super::not_in_plan;
use crate::plan::{BoardId, End, Finding, Severity, Subject};
use crate::rules::words::BalanceOf;

const CODE: &str = "phase-balance";

pub(super) fn judge(house: &House<'_>, cases: &[Case<'_>], checked: &mut Checked) {
    let row = house.tables().balance.row(BalanceOf::HeaviestOverMean);
    for (id, board) in &house.plan.boards {
        if board.supply.phases != Some(3) {
            continue;
        }
        let (sums, undecided) = sums(*id, cases, checked);
        let name = house.label(End::Board(*id));
        if !undecided.is_empty() {
            checked.findings.push(not_in_plan(
                CODE,
                Subject::Board(*id),
                &format!("{name}: balance across phases"),
                &format!("circuits {} have no phase", undecided.join(", ")),
                "give each a phase",
            ));
        }
        let mean = sums.iter().sum::<f64>() / 3.0;
        let heaviest = sums.iter().copied().fold(0.0, f64::max);
        if mean > 0.0 && undecided.is_empty() && heaviest > row.factor * mean {
            let phase = 1 + sums.iter().position(|sum| *sum >= heaviest).unwrap_or(0);
            let message = format!("phase {phase} of {name} carries far more than the others");
            let remedy = format!("move about {} to another phase", words::amps(heaviest - mean));
            checked.findings.push(
                Finding::new(CODE, Severity::Warning, Subject::Board(*id), message, remedy)
                    .against(
                        format!(
                            "{} against a mean of {}",
                            words::amps(heaviest),
                            words::amps(mean)
                        ),
                        format!("{} times the mean", row.factor),
                        row.credit(),
                    ),
            );
        }
        checked.boards.entry(*id).or_default().phases = sums.to_vec();
    }
}

/// The design currents by phase, and the circuits that have none.
fn sums(board: BoardId, cases: &[Case<'_>], checked: &Checked) -> ([f64; 3], Vec<String>) {
    let mut sums = [0.0; 3];
    let mut undecided = Vec::new();
    for case in cases.iter().filter(|case| case.circuit.board == Some(board)) {
        let current = checked.circuits.get(&case.id).and_then(|f| f.design_current.as_ref());
        let Some(current) = current.map(|current| current.value.0) else { continue };
        match case.circuit.phase {
            Some(phase @ 1..=3) => sums[usize::from(phase) - 1] += current,
            _ if case.circuit.cable.is_some_and(|cable| case.three_phase(cable)) => {
                sums.iter_mut().for_each(|sum| *sum += current);
            }
            _ => undecided.push(case.circuit.number.to_string()),
        }
    }
    (sums, undecided)
}
