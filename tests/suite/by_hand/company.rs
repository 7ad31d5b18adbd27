//! Who counts as company of a cable, and who does not warm it.
//!
//! Factors: IEC 60364-5-52 TB.52.17 item 2, a single layer: 0.85 for two
//! circuits together, 0.79 for three.

use wirewend::plan::{CircuitId, PointKind, Regime};
use wirewend::runs::{LegRole, Surrounding};

use super::{capacity, checked, one_leg, together};
use crate::wired::{BOARD, Wired};

const TWO: f64 = 0.85;
const THREE: f64 = 0.79;

fn roof(length: i64, beside: u32) -> [(Surrounding, i64, i64, u32); 1] {
    [(Surrounding::RoofSpace, length, 0, beside)]
}

/// What a cable of 6 mm² carries, A, beside another of so many watts that runs
/// along so much of its 9 m.
fn beside(watts: f64, length: i64) -> f64 {
    let mut wired = together(Regime::IEC);
    let (oven, other) = ((PointKind::Oven, 3000.0), (PointKind::DoorMotor, watts));
    let circuit = one_leg(&mut wired, oven, (6.0, 16.0), &roof(9000, 1));
    one_leg(&mut wired, other, (6.0, 16.0), &roof(length, 1));
    capacity(&checked(&wired), circuit)
}

fn is(amps: f64, factor: f64) -> bool {
    // IEC 60364-5-52 TB.52.2: 6 mm², method C, 46 A alone.
    (amps - 46.0 * factor).abs() < 1e-9
}

/// IEC 60364-5-52 B.52 leaves out cables that carry no more than 30 % of their
/// rating *as grouped* (from memory). How they are grouped is what is looked
/// for; half is the factor of nine in a bunch (TB.52.17 item 1), so that who
/// passes here passes in any company up to nine: 0.3 × 0.5 × 46 A = 6.9 A, at
/// 230 V 1587 W.
#[test]
fn a_cable_warms_no_one_up_to_thirty_percent_of_half_its_rating() {
    for (watts, factor) in [(1580.0, 1.0), (1595.0, TWO), (3000.0, TWO)] {
        let amps = beside(watts, 9000);
        assert!(is(amps, factor), "{watts} W: {amps} A, not 46 × {factor}");
    }
}

/// A lightly loaded cable takes the place of one that was counted beside
/// another only where it runs along more than a third of that: of 9 m, 3.
#[test]
fn light_company_counts_for_more_than_a_third_of_the_way() {
    for (length, factor) in [(9000, 1.0), (3001, 1.0), (3000, TWO), (1000, TWO)] {
        let amps = beside(100.0, length);
        assert!(is(amps, factor), "{length} mm of 9000: {amps} A, not 46 × {factor}");
    }
}

/// Adds a second leg from the board to a circuit, beside its first.
fn second_leg(wired: &mut Wired, circuit: CircuitId, beside: u32) {
    let point = wired.point(circuit, PointKind::JunctionBox, None);
    wired.leg(circuit, LegRole::Feed, BOARD, point, &roof(9000, beside));
}

/// Grouping factors go by circuits, not by cables of one (heading of IEC
/// 60364-5-52 TB.52.17, from memory): two legs of one circuit are one load.
#[test]
fn the_legs_of_one_circuit_are_no_company_to_each_other() {
    let mut wired = together(Regime::IEC);
    let circuit = one_leg(&mut wired, (PointKind::Oven, 3000.0), (6.0, 16.0), &roof(9000, 1));
    second_leg(&mut wired, circuit, 1);
    let alone = capacity(&checked(&wired), circuit);
    assert!(is(alone, 1.0), "side by side with itself: {alone} A");

    let mut wired = together(Regime::IEC);
    let circuit = one_leg(&mut wired, (PointKind::Oven, 3000.0), (6.0, 16.0), &roof(9000, 2));
    second_leg(&mut wired, circuit, 2);
    let other = one_leg(&mut wired, (PointKind::Heater, 3000.0), (6.0, 16.0), &roof(9000, 2));
    let checked = checked(&wired);
    let (own, others) = (capacity(&checked, circuit), capacity(&checked, other));
    assert!(is(own, TWO), "itself and one other: {own} A");
    assert!(is(others, THREE), "both legs of another are company: {others} A");
}
