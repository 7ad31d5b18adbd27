//! The network solver against a general power-flow library: recorded by
//! `fixtures/power_flow/make.py`, which says how.

use serde::Deserialize;
use wirewend::checks::{Feeder, Load, Phasor, Span};
use wirewend::units::Volts;

#[derive(Deserialize)]
struct Recorded {
    source: String,
    circuits: Vec<Circuit>,
}

#[derive(Deserialize)]
struct Circuit {
    kind: String,
    spans: Vec<(usize, usize, f64, f64)>,
    closing: Option<(usize, usize, f64, f64)>,
    loads_a: Vec<f64>,
    power_factors: Vec<f64>,
    voltage_v: f64,
    expected_v: Vec<f64>,
}

#[test]
fn every_recorded_circuit_agrees_to_one_part_in_a_hundred_thousand() {
    let text = include_str!("../../fixtures/power_flow/circuits.json");
    let recorded: Recorded = serde_json::from_str(text).unwrap();
    assert!(recorded.circuits.len() >= 50, "enough circuits by {}", recorded.source);
    for kind in ["chain", "ring", "spurs", "ring_with_spurs", "three_phase", "three_phase_spurs"] {
        let count = recorded.circuits.iter().filter(|circuit| circuit.kind == kind).count();
        assert!(count >= 5, "{kind}: {count}");
    }
    let mut worst: f64 = 0.0;
    for (number, circuit) in recorded.circuits.iter().enumerate() {
        for (node, (drop, expected)) in drops(circuit).into_iter().enumerate() {
            if expected < 1e-3 {
                continue;
            }
            let error = (drop / expected - 1.0).abs();
            worst = worst.max(error);
            assert!(
                error < 1e-5,
                "circuit {number} ({}), node {node}: {drop} V, {expected} V recorded",
                circuit.kind
            );
        }
    }
    eprintln!("{} circuits, worst relative error of a drop {worst:.1e}", recorded.circuits.len());
}

fn drops(circuit: &Circuit) -> Vec<(f64, f64)> {
    let span = |(from, to, r, x): &(usize, usize, f64, f64)| Span {
        from: *from,
        to: *to,
        impedance: Phasor::new(*r, *x),
    };
    let feeder = Feeder {
        spans: circuit.spans.iter().map(span).collect(),
        closing: circuit.closing.as_ref().map(span),
    };
    let loads: Vec<Load> = circuit
        .loads_a
        .iter()
        .zip(&circuit.power_factors)
        .map(|(current, power_factor)| Load { current: *current, power_factor: *power_factor })
        .collect();
    let voltages = feeder.voltages(Volts(circuit.voltage_v), &loads);
    voltages
        .iter()
        .zip(&circuit.expected_v)
        .map(|(voltage, expected)| {
            (circuit.voltage_v - voltage.magnitude(), circuit.voltage_v - expected)
        })
        .collect()
}
