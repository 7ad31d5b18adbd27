//! What is taken: by a circuit against its device, by a house at once.

use wirewend::plan::{CircuitUse, Curve, PointKind, Regime};
use wirewend::runs::{LegRole, Surrounding};

use super::checked;
use crate::wired::{BOARD, Wired};

/// A circuit of socket-outlets on 16 A and 4 mm² with stated loads: its design
/// current, and what is found of its device.
fn sockets_with(watts: &[f64]) -> (f64, Vec<(String, String)>) {
    let mut wired = Wired::new(Regime::IEC);
    let circuit = wired.circuit(CircuitUse::Sockets, 4.0, 16.0, Curve::B);
    let mut from = BOARD;
    for load in watts {
        let socket = wired.point(circuit, PointKind::Socket, Some(*load));
        let way = [(Surrounding::Surface, 3000, 0, 0)];
        wired.leg(circuit, LegRole::Feed, from, socket, &way);
        from = socket;
    }
    let checked = checked(&wired);
    let told = checked.findings.iter().filter(|finding| finding.code == "device-below-load");
    let told = told.map(|finding| (finding.measured.clone(), finding.limit.clone())).collect();
    (checked.circuits[&circuit].design_current.as_ref().unwrap().value.0, told)
}

/// IEC 60364-4-43 cl. 433.1: IB ≤ In. Ohm: I = P / U at 230 V.
#[test]
fn loads_stated_at_socket_outlets_above_their_device_are_told() {
    // 2300 W and 2300 W: 20 A on 16 A.
    let (amps, told) = sockets_with(&[2300.0, 2300.0]);
    assert!((amps - 20.0).abs() < 1e-9, "{amps} A");
    assert_eq!(told, [("20 A".to_owned(), "16 A".to_owned())]);
    // 2300 W and 1380 W: 16 A on 16 A, the device to the ampere.
    let (amps, told) = sockets_with(&[2300.0, 1380.0]);
    assert!((amps - 16.0).abs() < 1e-9, "{amps} A");
    assert_eq!(told, [], "a device as large as its load");
    // Less is designed for the device: anything may be plugged in (common
    // practice).
    let (amps, told) = sockets_with(&[460.0]);
    assert!((amps - 16.0).abs() < 1e-9, "{amps} A");
    assert_eq!(told, []);
}

/// IET on-site guide, household: the largest socket circuit in full and 40 %
/// of every other.
#[test]
fn british_socket_circuits_after_the_largest_count_for_two_fifths() {
    let demand = |regime, ratings: &[f64]| {
        let mut wired = Wired::new(regime);
        for rating in ratings {
            let circuit = wired.circuit(CircuitUse::Sockets, 4.0, *rating, Curve::B);
            wired.chain(circuit, PointKind::Socket, &[5000, 3000]);
        }
        checked(&wired).boards[0].demand.as_ref().unwrap().value.0
    };
    for (ratings, by_hand) in [
        (&[32.0][..], 32.0),
        // 32 + 0.4 × 20
        (&[32.0, 20.0], 40.0),
        // 32 + 0.4 × (20 + 16), wherever the largest stands
        (&[20.0, 32.0, 16.0], 46.4),
        // two alike: one of them in full
        (&[32.0, 32.0], 44.8),
    ] {
        let amps = demand(Regime::BS, ratings);
        assert!((amps - by_hand).abs() < 1e-9, "{ratings:?}: {amps} A, by hand {by_hand} A");
    }
}
