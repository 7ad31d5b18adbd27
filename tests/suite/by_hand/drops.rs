//! Volt drop beside the figures that a standard prints: never below either
//! what is printed or what resistance makes of it.
//!
//! Reactance turns the voltage by so little that it shows below a millivolt.

use wirewend::checks::{ConductorTemperature, Options, check_with};
use wirewend::plan::{PointKind, Regime};
use wirewend::rules::RuleBook;
use wirewend::runs::Surrounding;

use super::{capacity, one_leg};
use crate::wired::{Wired, cable};

/// 20 A over 45 m of 2.5 mm² by British rules: the drop, V, and what the cable
/// can carry, A.
fn heater(rules: &RuleBook, temperature: ConductorTemperature) -> (f64, f64) {
    let mut wired = Wired::new(Regime::BS);
    let way = [(Surrounding::Surface, 45_000, 0, 0)];
    let circuit = one_leg(&mut wired, (PointKind::Heater, 4600.0), (2.5, 20.0), &way);
    let options = Options { temperature, ..Options::default() };
    let checked = check_with(&wired.plan, &wired.runs, &wired.lengths, rules, options);
    let drop = checked.circuits[&circuit].volt_drop.as_ref().unwrap().value.0;
    (drop, capacity(&checked, circuit))
}

fn is(volts: f64, by_hand: f64) -> bool {
    (volts - by_hand).abs() < 1e-3
}

#[test]
fn a_drop_is_never_below_what_the_standard_prints() {
    // BS 7671 T4D5: 2.5 mm², 18 mV/A/m: 20 × 45 × 0.018 = 16.2 V. Resistance
    // alone gives 2 × 7.41 × (230 + 70)/(230 + 20) = 17.784 mV/A/m, 16.006 V.
    let (volts, _) = heater(&RuleBook::shipped(), ConductorTemperature::Rated);
    assert!(is(volts, 16.2), "{volts} V");
}

#[test]
fn a_printed_drop_below_what_resistance_gives_lowers_nothing() {
    // IEC 60228: 7.41 Ω/km at 20 °C; BS 7671 appendix 4: (230 + 70)/250.
    // 20 A × 45 m × 17.784 mV = 16.0056 V, whatever a table says below it.
    let own = "phases,size_mm2,drop_mv_per_a_m,source\n1,2.5,15,invented\n";
    let rules = RuleBook::with_overrides([(Regime::BS, "volt_drop", own)]).unwrap();
    let (volts, _) = heater(&rules, ConductorTemperature::Rated);
    assert!(is(volts, 16.0056), "{volts} V");
}

#[test]
fn a_conductor_that_runs_cooler_is_not_held_to_the_figure_for_a_hot_one() {
    let (volts, capacity) = heater(&RuleBook::shipped(), ConductorTemperature::Running);
    // BS 7671 appendix 4, 6.1 (from memory): heat goes with the square of the
    // current, T = 30 + 40 × (I/Iz)² up to 70 °C.
    let hot = 30.0 + 40.0 * (20.0 / capacity) * (20.0 / capacity);
    let by_hand = 20.0 * 45.0 * 2.0 * 0.00741 * (230.0 + hot) / 250.0;
    assert!(hot < 69.0 && is(volts, by_hand), "{volts} V, by hand {by_hand} V at {hot} °C");
}

#[test]
fn a_printed_drop_between_lines_is_brought_to_one_conductor() {
    // BS 7671 T4D2B: 1 mm², three phases, 38 mV/A/m between lines. To neutral
    // 10 A × 20 m × 38/√3 mV = 4.3879 V; resistance alone gives
    // 18.1 × 300/250 = 21.72 mV/A/m, 4.344 V.
    let mut wired = Wired::new(Regime::BS);
    wired.supply().phases = Some(3);
    let way = [(Surrounding::Surface, 20_000, 0, 0)];
    let circuit = one_leg(&mut wired, (PointKind::AirConditioner, 6900.0), (1.0, 10.0), &way);
    wired.change(circuit).cable = Some(cable(1.0).with_cores(4));
    let checked = super::checked(&wired);
    let volts = checked.circuits[&circuit].volt_drop.as_ref().unwrap().value.0;
    assert!(is(volts, 4.3879), "{volts} V");
}
