//! What cables carry by the number of their loaded conductors and by the
//! insulation around them.

use wirewend::plan::{PointKind, Regime};
use wirewend::runs::Surrounding;

use super::{capacity, checked, one_leg};
use crate::wired::{Wired, cable};

/// 6 mm² on the surface, by phases of the supply, cores of the cable and the
/// phase that the circuit is on; and whether the figure is said to be an estimate.
fn on_the_surface(phases: u8, cores: u8, phase: Option<u8>) -> (f64, bool) {
    let mut wired = Wired::new(Regime::IEC);
    wired.supply().phases = Some(phases);
    let way = [(Surrounding::Surface, 5000, 0, 0)];
    let heater = (PointKind::AirConditioner, 3000.0);
    let circuit = one_leg(&mut wired, heater, (6.0, 20.0), &way);
    wired.change(circuit).phase = phase;
    wired.change(circuit).cable = Some(cable(6.0).with_cores(cores));
    let checked = checked(&wired);
    (capacity(&checked, circuit), checked.circuits[&circuit].estimated)
}

#[test]
fn three_loaded_conductors_carry_what_heats_as_two_do() {
    // IEC 60364-5-52 TB.52.2, two loaded conductors: 6 mm², method C, 46 A.
    let (two, estimated) = on_the_surface(1, 2, None);
    assert!((two - 46.0).abs() < 1e-9 && !estimated, "{two} A");
    // Joule: 3·r·I₃² = 2·r·I₂², so I₃ = 46 × √(2/3) = 46 × 0.81650 = 37.559 A.
    let (three, estimated) = on_the_surface(3, 4, None);
    assert!((three - 37.559).abs() < 0.001 && estimated, "{three} A, estimated: {estimated}");
    // IEC 60364-5-52 TB.52.4, three loaded conductors (from memory): 41 A.
    assert!(three < 41.0, "never above the table: {three} A");
}

#[test]
fn four_cores_carry_as_two_where_one_phase_alone_loads_them() {
    for (phases, phase) in [(1, None), (3, Some(2))] {
        let (amps, _) = on_the_surface(phases, 4, phase);
        // IEC 60364-5-52 TB.52.2, as above.
        assert!((amps - 46.0).abs() < 1e-9, "{phases} phases, on {phase:?}: {amps} A");
    }
    let (amps, _) = on_the_surface(3, 3, None);
    assert!((amps - 46.0).abs() < 1e-9, "three cores hold no three phases and neutral: {amps} A");
}

#[test]
fn a_hundred_millimetres_of_insulation_are_not_yet_more_than_a_hundred() {
    // BS 7671 T4D5, 1.5 mm²: clipped direct 20 A; above a ceiling under
    // insulation of up to 100 mm (method 100) 16 A, of more (method 101) 13 A.
    for (insulation, amps) in [(0, 20.0), (1, 16.0), (100, 16.0), (101, 13.0)] {
        let mut wired = Wired::new(Regime::BS);
        let way = [(Surrounding::RoofSpace, 5000, insulation, 0)];
        let circuit = one_leg(&mut wired, (PointKind::Heater, 1000.0), (1.5, 10.0), &way);
        let got = capacity(&checked(&wired), circuit);
        assert!((got - amps).abs() < 1e-9, "{insulation} mm: {got} A, not {amps} A");
    }
}
