//! Volt drop: how far the voltage falls on the way to every point.
//!
//! **Looks at** the voltage at every point of a circuit, for the load pattern
//! chosen, with the conductors as warm as they may get. **Matters** because a
//! motor starved of volts runs hot, lamps dim, and a high drop tells of a loop
//! that a breaker will be slow to clear. **Example:** 20 A over 30 m of
//! 2.5 mm² drops 10.8 V, 4.7 %. **Remedy:** a larger cable, a shorter way, a
//! circuit split in two. **Source:** Kirchhoff's laws; the limit from table
//! `volt_drop_limit`.

use super::conductor::Conductors;
use super::context::Case;
use super::design_current::Design;
use super::feeder::Feeder;
use super::options::{ConductorTemperature, LoadPattern};
use super::phasor::Phasor;
use crate::plan::{CircuitUse, LoopAt};
use crate::rules::words::{Phases, TemperatureOf};
use crate::units::{Celsius, OhmsPerMetre, Term, Volts, Worked, Working};

/// Volt drop along a length of cable.
///
/// ΔU = n · (r·cos φ + x·sin φ) · ℓ · I
///
/// - n: 2 where the current returns by the cable, 1 from phase to neutral and
///   √3 from line to line where three phases balance
/// - r, x: resistance and reactance of one conductor, Ω/m
/// - ℓ: length, m; I: current, A
/// - φ: angle by which the current lags
///
/// Holds for drops of a few percent, where the angle hardly turns; the checks
/// themselves add up phasors with [`Feeder`].
///
/// Source: IEC 60364-5-52 annex G.
///
/// ```
/// use wirewend::checks::volt_drop;
/// use wirewend::units::{OhmsPerMetre, Volts};
/// // 18 mV/A/m of loop, 20 A, 30 m: 10.8 V
/// let drop = volt_drop(2.0, OhmsPerMetre(0.009), OhmsPerMetre(0.0), 1.0, 30.0, 20.0);
/// assert!((drop.0 - 10.8).abs() < 1e-9);
/// ```
#[must_use]
pub fn volt_drop(
    conductors: f64,
    resistance: OhmsPerMetre,
    reactance: OhmsPerMetre,
    power_factor: f64,
    metres: f64,
    current: f64,
) -> Volts {
    let sine = (1.0 - power_factor * power_factor).max(0.0).sqrt();
    let per_metre = resistance.0 * power_factor + reactance.0 * sine;
    Volts(conductors * per_metre * metres * current)
}

/// The drops of a circuit.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct Drops {
    /// At every node of the network, V.
    pub nodes: Vec<f64>,
    /// The node where most is lost.
    pub worst: usize,
    /// The load pattern they hold for.
    pub pattern: Option<LoadPattern>,
    /// The temperature of the conductors.
    pub hot: Celsius,
    /// The network they were found in.
    pub feeder: Feeder,
    /// What is taken at every node, A.
    pub loads: Vec<f64>,
}

impl Drops {
    /// Of a circuit wired in a cable. None where its legs are not known.
    #[must_use]
    pub(super) fn of(
        case: &Case<'_>,
        conductors: &Conductors,
        design: &Design,
        capacity: Option<f64>,
        voltage: Volts,
    ) -> Option<Self> {
        let network = case.network.as_ref()?;
        let hot = temperature(case, conductors, design, capacity);
        let out_and_back = if case.three_phase(conductors.cable) { 1.0 } else { 2.0 };
        let sizes = Sizes::of(case, conductors, hot, out_and_back);
        let feeder = network.feeder(|leg| sizes.impedance(case, leg));
        let pattern = pattern(case);
        let loads = design.loads(case, pattern, &feeder.resistances());
        let voltages = feeder.voltages(voltage, &loads);
        let mut nodes: Vec<f64> =
            voltages.iter().map(|phasor| voltage.0 - phasor.magnitude()).collect();
        add_switch_legs(case, &feeder, &loads, &mut nodes);
        let worst = (0..nodes.len()).max_by(|a, b| nodes[*a].total_cmp(&nodes[*b])).unwrap_or(0);
        let loads = loads.iter().map(|load| load.current).collect();
        Some(Self { nodes, worst, pattern: Some(pattern), hot, feeder, loads })
    }

    /// The drop at a node with its working: every leg on the way.
    #[must_use]
    pub(super) fn worked(
        &self,
        case: &Case<'_>,
        node: usize,
        conductors: &Conductors,
    ) -> Worked<Volts> {
        let mut terms = vec![
            Term::new("loads", pattern_name(self.pattern), "chosen, or by use of the circuit"),
            Term::new(
                format!("one core of {} at 20 °C", conductors.cable),
                format!("{:.3} Ω/km", conductors.core.0 * 1000.0),
                conductors.source.clone(),
            ),
            Term::new(
                format!("the same at {:.0} °C", self.hot.0),
                format!("{:.3} Ω/km", conductors.core_at(self.hot).0 * 1000.0),
                "(β + T)/(β + 20)",
            ),
        ];
        terms.extend(self.way(case, node));
        let formula = match self.feeder.closing {
            None => "ΔU = Σ z · I along the way",
            Some(_) => "ΔU = Σ z · I along the way, the ring sharing its current by impedance",
        };
        let formula = formula.to_owned();
        Worked { value: Volts(self.nodes[node]), working: Working { formula, terms } }
    }

    /// The legs on the way to a node, the longest first few of them.
    fn way(&self, case: &Case<'_>, node: usize) -> Vec<Term> {
        let Some(network) = &case.network else { return Vec::new() };
        let mut nodes: Vec<usize> = network.way_back(node).filter(|node| *node != 0).collect();
        nodes.reverse();
        let more = nodes.len().saturating_sub(LEGS_IN_WORKING);
        let mut terms: Vec<Term> = nodes
            .iter()
            .take(LEGS_IN_WORKING)
            .filter_map(|node| network.branch_to(*node))
            .map(|branch| {
                let (from, to) = (self.nodes[branch.from], self.nodes[branch.to]);
                let length = case.length(branch.leg).metres();
                let what = format!("{}, {length:.1} m", case.leg_name(branch.leg));
                Term::new(what, format!("{:.3} V", to - from), "length along the way")
            })
            .collect();
        if more > 0 {
            terms.push(Term::new("further legs", more, "the same"));
        }
        terms
    }
}

/// A working must stay readable on a chain of hundreds.
const LEGS_IN_WORKING: usize = 24;

/// The impedance per metre of each size that occurs in a circuit.
struct Sizes {
    known: Vec<(u32, Phasor)>,
}

impl Sizes {
    fn of(case: &Case<'_>, conductors: &Conductors, hot: Celsius, times: f64) -> Self {
        let mut sizes = Self { known: Vec::new() };
        for leg in 0..case.legs().len() {
            let cable = case.cable_of(leg, conductors.cable);
            let key = hundredths(cable.size.mm2());
            if sizes.known.iter().any(|(known, _)| *known == key) {
                continue;
            }
            let own = if cable.size == conductors.cable.size {
                conductors.clone()
            } else {
                Conductors::of(cable, case.house.rules, case.house.regime)
                    .unwrap_or_else(|_| conductors.clone())
            };
            sizes.known.push((key, per_metre(case, &own, hot, times)));
        }
        sizes
    }

    fn impedance(&self, case: &Case<'_>, leg: usize) -> Phasor {
        let size = case.legs()[leg].cable.map(|cable| hundredths(cable.size.mm2()));
        let per_metre = size
            .and_then(|size| self.known.iter().find(|(known, _)| *known == size))
            .or_else(|| self.known.first())
            .map_or(Phasor::ZERO, |(_, per_metre)| *per_metre);
        per_metre.times(case.length(leg).metres())
    }
}

#[expect(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "sizes are small")]
fn hundredths(mm2: f64) -> u32 {
    libm::round(mm2 * 100.0) as u32
}

/// Out and back, or one conductor; never below a figure that a standard
/// prints for the size.
fn per_metre(case: &Case<'_>, conductors: &Conductors, hot: Celsius, times: f64) -> Phasor {
    let computed = Phasor::new(conductors.core_at(hot).0, conductors.reactance.0).times(times);
    let phases = if times > 1.0 { Phases::One } else { Phases::Three };
    let printed = case.house.tables().volt_drop.row((phases, conductors.cable.size));
    let at_rated = hot.0 >= conductors.rated.0;
    match printed {
        Ok(row) if at_rated => {
            let between_lines = if times > 1.0 { 1.0 } else { 3.0f64.sqrt() };
            let printed = row.drop.0 / 1000.0 / between_lines;
            computed.times((printed / computed.re).max(1.0))
        }
        _ => computed,
    }
}

fn temperature(
    case: &Case<'_>,
    conductors: &Conductors,
    design: &Design,
    capacity: Option<f64>,
) -> Celsius {
    let rated = conductors.rated;
    match (case.house.options.temperature, capacity) {
        (ConductorTemperature::Running, Some(capacity)) if capacity > 0.0 => {
            let around = case.house.tables().temperature.row(TemperatureOf::ReferenceAir);
            let around = around.temperature;
            let share = (design.total.0 / capacity).min(1.0);
            Celsius(around.0 + (rated.0 - around.0) * share * share)
        }
        _ => rated,
    }
}

fn pattern(case: &Case<'_>) -> LoadPattern {
    let usual = match case.circuit.usage {
        CircuitUse::Sockets => LoadPattern::Spread,
        _ => LoadPattern::AsPlaced,
    };
    case.house.options.pattern.unwrap_or(usual)
}

const fn pattern_name(pattern: Option<LoadPattern>) -> &'static str {
    match pattern {
        Some(LoadPattern::AtFarEnd) => "all at the far end",
        Some(LoadPattern::Spread) => "spread in equal parts",
        Some(LoadPattern::AsPlaced) | None => "each point's own",
    }
}

/// Where the feed is looped at the light, the lamp's current also goes down to
/// the switch and back: out and back along every leg between them.
fn add_switch_legs(
    case: &Case<'_>,
    feeder: &Feeder,
    loads: &[super::feeder::Load],
    drops: &mut [f64],
) {
    let Some(network) = &case.network else { return };
    if case.circuit.usage != CircuitUse::Lighting || case.circuit.loop_at == Some(LoopAt::Switch) {
        return;
    }
    for control in case.house.plan.controls.values() {
        let node = |id: &crate::plan::PointId| network.node(crate::plan::End::Point(*id));
        let lights: Vec<usize> = control.lights.iter().filter_map(node).collect();
        let current: f64 = lights.iter().map(|light| loads[*light].current).sum();
        let extra = control
            .switches
            .iter()
            .filter_map(node)
            .filter_map(|switch| below_a_light(network, feeder, switch, &lights))
            .fold(0.0f64, f64::max);
        for light in lights {
            drops[light] += extra * current;
        }
    }
}

/// The resistance out and back between a switch and the light it hangs below.
fn below_a_light(
    network: &super::network::Network,
    feeder: &Feeder,
    switch: usize,
    lights: &[usize],
) -> Option<f64> {
    let mut sum = 0.0;
    for node in network.way_back(switch) {
        if lights.contains(&node) {
            return Some(sum);
        }
        sum += feeder.spans.get(node.checked_sub(1)?)?.impedance.re;
    }
    None
}
