//! What a meter should read when the work is done.

use indexmap::IndexMap;
use serde::Serialize;

use super::conductor::{Conductors, resistance_at};
use super::context::{Case, House};
use super::loop_impedance::{Loops, device_limit, own_electrode, residual_limit, resistances};
use super::options::Options;
use crate::lengths::Lengths;
use crate::plan::{CircuitId, End, Plan, Wiring};
use crate::rules::RuleBook;
use crate::rules::words::{TemperatureOf, TripType, VoltageFactorOf};
use crate::runs::Runs;
use crate::units::{Amps, Celsius, Ohms, OhmsPerMetre};

/// The readings to expect, circuit by circuit.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ExpectedTests {
    /// For every circuit that has a cable and legs.
    pub circuits: IndexMap<CircuitId, CircuitTests>,
    /// The temperature of the conductors that the readings are for, °C.
    pub temperature: f64,
}

/// The readings to expect of a circuit.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct CircuitTests {
    /// The board it comes from.
    pub board: End,
    /// Earth-fault loop of the supply at the board, where it is known.
    pub outside: Option<Ohms>,
    /// Prospective fault current at the board, where it is known.
    pub fault_current: Option<Amps>,
    /// At every end, nearer ones first.
    pub points: Vec<PointTests>,
    /// End to end and cross-connected, for a ring.
    pub ring: Option<RingTests>,
    /// Insulation: voltage of the test, V, and least resistance, MΩ.
    pub insulation: Option<(f64, f64)>,
    /// The longest trip times of the residual-current device: times its
    /// rating, ms.
    pub residual_ms: Vec<(f64, f64)>,
    /// The most that the loop may read cold, Ω: a share of the limit, so that
    /// it still trips hot.
    pub loop_limit_cold: Option<Ohms>,
    /// Where that limit comes from.
    pub loop_limit_from: String,
    /// Whether a residual-current device cuts off where the breaker does not.
    pub residual_cuts_off: bool,
    /// Phase and protective conductor, Ω/m at the test temperature: what a
    /// reading too high is worth in metres.
    pub loop_per_metre: OhmsPerMetre,
    /// The protective conductor alone, Ω/m at the test temperature.
    pub earth_per_metre: OhmsPerMetre,
}

/// The readings to expect at an end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PointTests {
    /// Which end.
    pub end: End,
    /// The end before it on the way from the board.
    pub before: End,
    /// The number of the leg between them.
    pub leg: u32,
    /// Phase and protective conductor joined at the board, Ω.
    pub r1_r2: Ohms,
    /// Protective conductor alone from the board, Ω.
    pub r2: Ohms,
    /// Earth-fault loop, cold; None where the supply's is not known.
    pub loop_impedance: Option<Ohms>,
}

/// The readings to expect of a ring at the board.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct RingTests {
    /// Phase conductor, end to end.
    pub phase: Ohms,
    /// Neutral, end to end.
    pub neutral: Ohms,
    /// Protective conductor, end to end.
    pub earth: Ohms,
    /// Phase and neutral cross-connected, at every socket of the ring.
    pub phase_neutral: Ohms,
    /// Phase and earth cross-connected, at every socket of the ring.
    pub phase_earth: Ohms,
}

/// Phase and protective conductor of a length of cable in series.
///
/// R1 + R2 = (r₁ + r₂) · ℓ
///
/// - r₁, r₂: at the test temperature, Ω/m; ℓ: length, m
///
/// Source: IEC 60364-6 cl. 6.4.3.2.
///
/// ```
/// use wirewend::checks::loop_resistance;
/// use wirewend::units::OhmsPerMetre;
/// // 22 m of 2.5/1.5 mm²: 22 × (7.41 + 12.1) mΩ = 0.429 Ω
/// let r = loop_resistance(OhmsPerMetre(0.00741), OhmsPerMetre(0.0121), 22.0);
/// assert!((r.0 - 0.429_22).abs() < 1e-9);
/// ```
#[must_use]
pub fn loop_resistance(phase: OhmsPerMetre, earth: OhmsPerMetre, metres: f64) -> Ohms {
    Ohms((phase.0 + earth.0) * metres)
}

/// What every socket of a ring reads when its ends are cross-connected at the
/// board.
///
/// R = (r₁ + r₂) / 4
///
/// - r₁, r₂: end to end, Ω
///
/// Source: common practice of testing rings. With conductors of one size the
/// reading is the same all round.
#[must_use]
pub fn ring_cross_reading(first: Ohms, second: Ohms) -> Ohms {
    Ohms((first.0 + second.0) / 4.0)
}

/// What a meter should read at every point of every circuit.
#[must_use]
pub fn expected_tests(
    plan: &Plan,
    runs: &Runs,
    lengths: &Lengths,
    rules: &RuleBook,
) -> ExpectedTests {
    let house = House::new(plan, runs, lengths, rules, Options::default());
    of_cases(&house, &house.cases())
}

/// The same from what is worked out already.
pub(super) fn of_cases(house: &House<'_>, cases: &[Case<'_>]) -> ExpectedTests {
    let temperature = house.tables().temperature.row(TemperatureOf::Test).temperature;
    let circuits = cases
        .iter()
        .filter_map(|case| Some((case.id, circuit_tests(case, temperature)?)))
        .collect();
    ExpectedTests { circuits, temperature: temperature.0 }
}

fn circuit_tests(case: &Case<'_>, at: Celsius) -> Option<CircuitTests> {
    let (rules, regime) = (case.house.rules, case.house.regime);
    let conductors = Conductors::of(case.circuit.cable?, rules, regime).ok()?;
    let network = case.network.as_ref()?;
    let loops = Loops::of(case, &conductors)?;
    let earth = resistances(case, &conductors, |of| of.earth.0)?;
    let factor = (at.0 - conductors.zero.0) / (20.0 - conductors.zero.0);
    let supply = case.board.map(|(_, board)| board.supply).unwrap_or_default();
    let points = network
        .branches
        .iter()
        .map(|branch| (branch, Ohms(loops.cold[branch.to] * factor)))
        .map(|(branch, r1_r2)| PointTests {
            end: network.ends[branch.to],
            before: network.ends[branch.from],
            leg: case.legs()[branch.leg].number,
            r1_r2,
            r2: Ohms(earth[branch.to] * factor),
            loop_impedance: supply.loop_impedance.map(|outside| outside + r1_r2),
        })
        .collect();
    let insulation = case.house.tables().insulation_test.row(());
    let limit = loop_limit(case);
    let has_residual = case.circuit.device.is_some_and(|device| device.residual.is_some());
    Some(CircuitTests {
        board: *network.ends.first()?,
        outside: supply.loop_impedance,
        fault_current: supply.fault_current,
        points,
        ring: ring_tests(case, &conductors, at),
        insulation: Some((insulation.voltage.0, insulation.resistance.0)),
        residual_ms: residual_ms(case),
        loop_limit_cold: limit.as_ref().map(|(limit, _)| *limit),
        loop_limit_from: limit.map_or_else(String::new, |(_, from)| from),
        residual_cuts_off: has_residual || !case.circuit.rcd_group.is_empty(),
        loop_per_metre: conductors.loop_at(at),
        earth_per_metre: resistance_at(conductors.earth, at, conductors.zero),
    })
}

/// The most that the loop may read cold, and by what: the breaker, or the
/// residual current where the house has an electrode of its own.
fn loop_limit(case: &Case<'_>) -> Option<(Ohms, String)> {
    let (rules, regime) = (case.house.rules, case.house.regime);
    let supply = case.board?.1.supply;
    let device = case.circuit.device?;
    if let Some(residual) = device.residual.filter(|_| own_electrode(supply.earthing)) {
        let limit = residual_limit(residual, rules, regime).ok()?;
        return Some((limit.value, "touch voltage over residual current".to_owned()));
    }
    let limit = device_limit(device, supply.voltage?, rules, regime).value;
    let row = case.house.tables().voltage_factor.row(VoltageFactorOf::MeasuredCold);
    let from = format!("{} of what trips the breaker at once; {}", row.factor, row.credit());
    Some((limit * row.factor, from))
}

/// The legs of the ring itself, spurs left out.
fn ring_tests(case: &Case<'_>, conductors: &Conductors, at: Celsius) -> Option<RingTests> {
    // Strappers close loops of their own: only a ring is tested as one.
    if case.circuit.wiring != Wiring::Ring {
        return None;
    }
    let network = case.network.as_ref()?;
    let closing = network.closing?;
    let way = |end| network.way_back(end).filter(|node| *node != 0).collect::<Vec<_>>();
    let (one, other) = (way(closing.from), way(closing.to));
    let on_ring = one.iter().filter(|node| !other.contains(node));
    let on_ring = on_ring.chain(other.iter().filter(|node| !one.contains(node)));
    let metres: f64 = on_ring
        .filter_map(|node| network.branch_to(*node))
        .map(|branch| case.length(branch.leg).metres())
        .sum::<f64>()
        + case.length(closing.leg).metres();
    let phase = Ohms(conductors.core_at(at).0 * metres);
    let earth = Ohms(resistance_at(conductors.earth, at, conductors.zero).0 * metres);
    Some(RingTests {
        phase,
        neutral: phase,
        earth,
        phase_neutral: ring_cross_reading(phase, phase),
        phase_earth: ring_cross_reading(phase, earth),
    })
}

fn residual_ms(case: &Case<'_>) -> Vec<(f64, f64)> {
    let has = case.circuit.device.is_some_and(|device| device.residual.is_some())
        || !case.circuit.rcd_group.is_empty();
    if !has {
        return Vec::new();
    }
    case.house
        .tables()
        .residual_trip_time
        .rows()
        .filter(|row| row.trips == TripType::General)
        .map(|row| (row.multiple, row.time.0))
        .collect()
}
