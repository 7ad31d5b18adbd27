//! Readings that were taken, held against what was expected.

use serde::{Deserialize, Serialize};

use super::expected_tests::{CircuitTests, ExpectedTests};
use super::words;
use crate::plan::{CircuitId, End, Finding, Plan, Severity, Subject, labels};

/// A reading on site.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reading {
    /// The circuit.
    pub circuit: CircuitId,
    /// Where it was taken.
    pub end: End,
    /// What was measured.
    pub quantity: Quantity,
    /// How much: Ω, MΩ for insulation, ms for trip times.
    pub value: f64,
}

/// What can be measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Quantity {
    /// Phase and protective conductor joined at the board.
    R1R2,
    /// Earth-fault loop.
    Loop,
    /// Insulation.
    Insulation,
    /// Time in which a residual-current device trips at its rated current.
    ResidualTrip,
}

const CODE: &str = "odd-reading";
/// What a meter's leads and a length measured on paper may account for: the
/// larger of these, Ω and a share.
const SLACK_OHMS: f64 = 0.05;
const SLACK_SHARE: f64 = 0.1;

/// Explains every reading that is not as expected.
///
/// Where the end before an odd one was read too, the step between them is put
/// down to the leg that joins them; a step that was there already is not told
/// again.
#[must_use]
pub fn compare(plan: &Plan, expected: &ExpectedTests, readings: &[Reading]) -> Vec<Finding> {
    let labels = labels(plan);
    readings
        .iter()
        .filter_map(|reading| {
            let tests = expected.circuits.get(&reading.circuit)?;
            judge(reading, readings, tests, labels.end(reading.end))
        })
        .collect()
}

fn judge(
    reading: &Reading,
    readings: &[Reading],
    tests: &CircuitTests,
    label: &str,
) -> Option<Finding> {
    match reading.quantity {
        Quantity::R1R2 => resistance(reading, readings, tests, label),
        Quantity::Loop => match tests.loop_limit_cold {
            Some(limit) if reading.value > limit.0 => Some(finding(
                reading,
                Severity::Fault,
                format!("the loop at {label} reads too high for its device"),
                words::ohms(reading.value),
                words::ohms(limit.0),
                "find the high joint, or give it a larger cable or another device",
            )),
            _ => resistance(reading, readings, tests, label),
        },
        Quantity::Insulation => {
            let (_, least) = tests.insulation?;
            (reading.value < least).then(|| {
                finding(
                    reading,
                    Severity::Fault,
                    format!("insulation at {label} is too low: do not energise"),
                    format!("{} MΩ", reading.value),
                    format!("{least} MΩ"),
                    "take everything off the circuit and test leg by leg: a nail, damp or a lamp left in",
                )
            })
        }
        Quantity::ResidualTrip => {
            let (_, most) = *tests.residual_ms.iter().find(|(times, _)| *times <= 1.0)?;
            (reading.value > most).then(|| {
                finding(
                    reading,
                    Severity::Fault,
                    format!("the residual-current device of {label} trips too late"),
                    format!("{} ms", reading.value),
                    format!("{most} ms"),
                    "replace it, and test again",
                )
            })
        }
    }
}

/// What is expected at an end, Ω.
fn expected_at(tests: &CircuitTests, end: End, quantity: Quantity) -> Option<f64> {
    let point = tests.points.iter().find(|point| point.end == end)?;
    match quantity {
        Quantity::R1R2 => Some(point.r1_r2.0),
        _ => point.loop_impedance.map(|ohms| ohms.0),
    }
}

fn resistance(
    reading: &Reading,
    readings: &[Reading],
    tests: &CircuitTests,
    label: &str,
) -> Option<Finding> {
    let expected = expected_at(tests, reading.end, reading.quantity)?;
    let over = reading.value - expected;
    let slack = SLACK_OHMS.max(expected * SLACK_SHARE);
    if over.abs() <= slack {
        return None;
    }
    let point = tests.points.iter().find(|point| point.end == reading.end)?;
    let before = readings
        .iter()
        .find(|other| {
            (other.circuit, other.end, other.quantity)
                == (reading.circuit, point.before, reading.quantity)
        })
        .and_then(|other| Some(other.value - expected_at(tests, point.before, reading.quantity)?));
    let step = over - before.unwrap_or(0.0);
    if before.is_some() && step.abs() <= slack {
        return None;
    }
    let metres = step.abs() / tests.loop_per_metre.0;
    let what = match (before, point.before) {
        (Some(_), _) | (None, End::Board(_)) => format!("leg {}", point.leg),
        _ => "its way from the board".to_owned(),
    };
    let (message, remedy) = if step > 0.0 {
        (
            format!("{label} reads as if {what} were {metres:.0} m longer, or a joint were loose"),
            "tighten and test the points on the way one by one; the step shows the joint",
        )
    } else {
        (
            format!(
                "{label} reads as if {what} were {metres:.0} m shorter, or joined by another way"
            ),
            "see whether another circuit's earth or a second way is joined in",
        )
    };
    let measured = words::ohms(reading.value);
    Some(finding(reading, Severity::Warning, message, measured, words::ohms(expected), remedy))
}

fn finding(
    reading: &Reading,
    severity: Severity,
    message: String,
    measured: String,
    limit: String,
    remedy: &str,
) -> Finding {
    let subject = match reading.end {
        End::Board(id) => Subject::Board(id),
        End::Point(id) => Subject::Point(id),
    };
    Finding::new(CODE, severity, subject, message, remedy).against(
        measured,
        limit,
        "expected from lengths and conductor tables",
    )
}
