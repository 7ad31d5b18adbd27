//! Earth-fault loop: whether a fault to earth is cut off in time.
//!
//! **Looks at** the impedance from the supply through the phase conductor to
//! every point and back by the earth, at working temperature, against what
//! the device needs to trip at once. **Matters** because until it trips every
//! metal case on the circuit is live. **Example:** 0.6 Ω outside and 10 m of
//! 1.5/1 mm²: 0.96 Ω. **Remedy:** a larger cable, a shorter way, a device
//! that trips at less. **Source:** IEC 60364-4-41; table `trip_multiple`.

use std::borrow::Cow;

use super::conductor::Conductors;
use super::context::Case;
use super::phasor::Phasor;
use super::words;
use crate::plan::{Device, Earthing, Regime};
use crate::rules::words::{EarthingSystem, VoltageFactorOf};
use crate::rules::{Absent, RuleBook};
use crate::units::{Amps, Celsius, Ohms, OhmsPerMetre, Term, Volts, Worked, Working};

/// The loop impedance at the end of a length of cable.
///
/// Zs = Ze + (r₁ + r₂) · ℓ · f
///
/// - Ze: outside the house, Ω
/// - r₁ + r₂: phase and protective conductor at 20 °C, Ω/m
/// - ℓ: length, m; f: from 20 °C to working temperature
///
/// Holds below 50 mm², where reactance is of no account; the sum of
/// magnitudes is never too low.
///
/// Source: IEC 60364-4-41 cl. 411.4.
///
/// ```
/// use wirewend::checks::loop_impedance;
/// use wirewend::units::{Ohms, OhmsPerMetre};
/// // 0.6 Ω + 10 m × 30.2 mΩ/m × 1.2 = 0.9624 Ω
/// let zs = loop_impedance(Ohms(0.6), OhmsPerMetre(0.0302), 10.0, 1.2);
/// assert!((zs.0 - 0.9624).abs() < 1e-9);
/// ```
#[must_use]
pub fn loop_impedance(outside: Ohms, loop_20: OhmsPerMetre, metres: f64, hot: f64) -> Ohms {
    Ohms(outside.0 + loop_20.0 * metres * hot)
}

/// The most that the loop may have for a breaker to trip at once.
///
/// Zs ≤ c · U₀ / (m · In)
///
/// - c: least voltage over nominal; U₀: phase to earth, V
/// - m: multiple of its rating at which the breaker is counted on to trip
/// - In: its rating, A
///
/// Source: BS 7671 T41.3 (c = 0.95, m = 5/10/20); AS/NZS 3000 T8.1 (c = 1,
/// m = 4/7.5/12.5).
///
/// ```
/// use wirewend::checks::loop_limit;
/// use wirewend::units::{Amps, Volts};
/// // B 32: 0.95 × 230 / (5 × 32) = 1.366 Ω; the table prints 1.37
/// let limit = loop_limit(0.95, Volts(230.0), 5.0, Amps(32.0));
/// assert!((limit.0 - 1.3656).abs() < 1e-4);
/// ```
#[must_use]
pub fn loop_limit(least_voltage: f64, voltage: Volts, multiple: f64, rating: Amps) -> Ohms {
    Ohms(least_voltage * voltage.0 / (multiple * rating.0))
}

/// The longest cable that keeps the loop within a limit, m.
///
/// ℓ = (Zs − Ze) / ((r₁ + r₂) · f)
///
/// Source: [`loop_impedance`] turned round.
#[must_use]
pub fn longest_by_loop(limit: Ohms, outside: Ohms, loop_20: OhmsPerMetre, hot: f64) -> f64 {
    ((limit.0 - outside.0) / (loop_20.0 * hot)).max(0.0)
}

/// The longest cable by the conventional method, where nothing is known of
/// the supply, m.
///
/// ℓ = 0.8 · U₀ · S / (ρ · (1 + m) · Ia)
///
/// - S: phase conductor, mm²; m: S over the protective conductor
/// - ρ: resistivity during the fault, Ω·mm²/m: 0.0225 to 0.023
/// - Ia: current at which the device trips, A
/// - 0.8: share of the voltage left at the board during the fault
///
/// Source: conventional method of IEC 60364 guides; AS/NZS 3000 appendix B.
///
/// ```
/// use wirewend::checks::longest_conventional;
/// use wirewend::units::{Amps, Volts};
/// // 2.5/2.5 mm², C16 at 7.5 times: 0.8 × 230 × 2.5 / (0.0225 × 2 × 120) = 85.2 m
/// let longest = longest_conventional(Volts(230.0), 2.5, 1.0, 0.0225, Amps(120.0));
/// assert!((longest - 85.185).abs() < 0.001);
/// ```
#[must_use]
pub fn longest_conventional(
    voltage: Volts,
    mm2: f64,
    ratio: f64,
    resistivity: f64,
    trips_at: Amps,
) -> f64 {
    0.8 * voltage.0 * mm2 / (resistivity * (1.0 + ratio) * trips_at.0)
}

/// The most that the loop of a device may have in a regime.
#[must_use]
pub fn device_limit(
    device: Device,
    voltage: Volts,
    rules: &RuleBook,
    regime: Regime,
) -> Worked<Ohms> {
    let trip = rules.of(regime).trip_multiple.row(device.curve);
    let least = rules.of(regime).voltage_factor.row(VoltageFactorOf::Fault);
    let multiple = trip.disconnection;
    let value = loop_limit(least.factor, voltage, multiple, device.rating);
    let terms = vec![
        Term::new("voltage to earth", format!("{} V", voltage.0), "supply"),
        Term::new("least voltage", format!("{}", least.factor), least.credit()),
        Term::new("trips at, times its rating", format!("{multiple}"), trip.credit()),
        Term::new("rating", words::amps(device.rating.0), "plan"),
    ];
    Worked { value, working: Working { formula: "Zs ≤ c·U₀/(m·In)".into(), terms } }
}

/// The most that the loop may have where a residual-current device cuts off.
///
/// # Errors
/// [`Absent`] where no touch voltage is tabled.
pub(super) fn residual_limit(
    residual: Amps,
    rules: &RuleBook,
    regime: Regime,
) -> Result<Worked<Ohms>, Absent> {
    let touch = rules.of(regime).touch_voltage.row(EarthingSystem::Tt)?;
    let terms = vec![
        Term::new("touch voltage", format!("{} V", touch.voltage.0), touch.credit()),
        Term::new("residual current", format!("{} A", residual.0), "plan"),
    ];
    let value = Ohms(touch.voltage.0 / residual.0);
    Ok(Worked { value, working: Working { formula: "RA ≤ U/IΔn".into(), terms } })
}

/// The loops of a circuit.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Loops {
    /// Phase and protective conductor to every node at 20 °C, Ω.
    pub cold: Vec<f64>,
    /// The factor from 20 °C to working temperature.
    pub hot: f64,
    /// The node with most.
    pub worst: usize,
    /// Metres of cable to every node, the shortest way along the tree.
    pub metres: Vec<f64>,
}

impl Loops {
    /// Of a circuit wired in a cable. None where its legs are not known.
    #[must_use]
    pub(super) fn of(case: &Case<'_>, conductors: &Conductors) -> Option<Self> {
        let network = case.network.as_ref()?;
        let cold = resistances(case, conductors, |of| of.loop_at(Celsius(20.0)).0)?;
        let mut metres = vec![0.0; cold.len()];
        for branch in &network.branches {
            metres[branch.to] = metres[branch.from] + case.length(branch.leg).metres();
        }
        let zero = conductors.zero.0;
        let hot = (conductors.rated.0 - zero) / (20.0 - zero);
        let worst = (0..cold.len()).max_by(|a, b| cold[*a].total_cmp(&cold[*b])).unwrap_or(0);
        Some(Self { cold, hot, worst, metres })
    }

    /// The loop at a node at working temperature, supply included.
    #[must_use]
    pub(super) fn at(&self, node: usize, outside: Ohms) -> Ohms {
        Ohms(outside.0 + self.cold[node] * self.hot)
    }

    /// The figure with its working.
    #[must_use]
    pub(super) fn worked(
        &self,
        case: &Case<'_>,
        node: usize,
        outside: Ohms,
        conductors: &Conductors,
    ) -> Worked<Ohms> {
        let end = case.network.as_ref().map_or("", |network| case.house.label(network.ends[node]));
        let terms = vec![
            Term::new("outside the house, Ze", words::ohms(outside.0), "plan: supply"),
            Term::new(
                format!("R1 + R2 to {end} at 20 °C"),
                words::ohms(self.cold[node]),
                format!(
                    "{} and {} mm² earth; {}",
                    conductors.cable, conductors.earth_mm2, conductors.source
                ),
            ),
            Term::new(
                format!("to {:.0} °C", conductors.rated.0),
                format!("× {:.3}", self.hot),
                "(β + T)/(β + 20)",
            ),
        ];
        let formula = "Zs = Ze + (R1 + R2) · f".to_owned();
        Worked { value: self.at(node, outside), working: Working { formula, terms } }
    }
}

/// Ohms from the board to every node, by what a metre of a leg has. None where
/// the legs are not known.
pub(super) fn resistances(
    case: &Case<'_>,
    conductors: &Conductors,
    per_metre: fn(&Conductors) -> f64,
) -> Option<Vec<f64>> {
    let of_leg = |leg| per_metre(&conductors_of_leg(case, leg, conductors));
    let metres = |leg| case.length(leg).metres();
    let feeder = case.network.as_ref()?.feeder(|leg| Phasor::new(of_leg(leg) * metres(leg), 0.0));
    Some(feeder.resistances())
}

/// The conductors of a leg: the circuit's, unless it has a size of its own.
fn conductors_of_leg<'c>(
    case: &Case<'_>,
    leg: usize,
    conductors: &'c Conductors,
) -> Cow<'c, Conductors> {
    let cable = case.cable_of(leg, conductors.cable);
    if cable.size == conductors.cable.size {
        return Cow::Borrowed(conductors);
    }
    Conductors::of(cable, case.house.rules, case.house.regime)
        .map_or(Cow::Borrowed(conductors), Cow::Owned)
}

/// How the house is earthed, as the tables tell it apart.
pub(super) fn earthing_system(earthing: Option<Earthing>) -> EarthingSystem {
    if own_electrode(earthing) { EarthingSystem::Tt } else { EarthingSystem::Tn }
}

/// Whether the house has an earth electrode of its own.
pub(super) fn own_electrode(earthing: Option<Earthing>) -> bool {
    earthing == Some(Earthing::Tt)
}
