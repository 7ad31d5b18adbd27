//! Let-through energy: whether a fault burns the cable before it is cut off.
//!
//! **Looks at** the heat that a fault puts into the phase and the protective
//! conductor: at the board, where the current is greatest and the breaker
//! limits it, and at the far end, where it lasts longest. **Matters** because
//! a burnt earth leaves the next fault without a way back. **Example:** 200 A
//! for 0.4 s needs 1.1 mm². **Remedy:** a larger earth, a breaker of lower
//! let-through. **Source:** IEC 60364-5-54 cl. 543.1.2; EN 60898-1.

use super::conductor::Conductors;
use super::context::Case;
use crate::plan::Device;
use crate::rules::words::{EarthingSystem, Fault, TemperatureOf, TripTime};
use crate::rules::{Absent, Column, Tables};
use crate::units::{Amps, Celsius, Seconds};

/// How much heat a conductor stands, in A·√s per mm².
///
/// k = 226 · √(ln((234.5 + Tf) / (234.5 + Ti)))
///
/// - Ti: before the fault, °C; Tf: what its insulation stands, °C
///
/// For copper, faults up to 5 s, no heat lost.
///
/// Source: IEC 60364-5-54 annex A.
///
/// ```
/// use wirewend::checks::heat_constant;
/// use wirewend::units::Celsius;
/// // PVC, 70 to 160 °C: 115
/// assert!((heat_constant(Celsius(70.0), Celsius(160.0)) - 115.0).abs() < 0.1);
/// ```
#[must_use]
pub fn heat_constant(before: Celsius, after: Celsius) -> f64 {
    226.0 * libm::log((234.5 + after.0) / (234.5 + before.0)).sqrt()
}

/// The least conductor that stands a fault, mm².
///
/// S = I · √t / k
///
/// - I: fault current, A; t: until it is cut off, s
/// - k: [`heat_constant`]
///
/// Holds from 0.1 to 5 s; below that use the device's let-through with
/// [`least_section_by_energy`].
///
/// Source: IEC 60364-5-54 cl. 543.1.2.
///
/// ```
/// use wirewend::checks::least_section;
/// use wirewend::units::{Amps, Seconds};
/// // 200 A for 0.4 s in PVC: 200 × 0.632 / 115 = 1.1 mm²
/// assert!((least_section(Amps(200.0), Seconds(0.4), 115.0) - 1.1).abs() < 0.001);
/// ```
#[must_use]
pub fn least_section(current: Amps, time: Seconds, k: f64) -> f64 {
    current.0 * time.0.sqrt() / k
}

/// The least conductor that stands an energy, mm².
///
/// S = √(I²t) / k
///
/// Source: IEC 60364-4-43 cl. 434.5.2.
#[must_use]
pub fn least_section_by_energy(energy_a2s: f64, k: f64) -> f64 {
    energy_a2s.sqrt() / k
}

/// The longest cable whose far end still trips the breaker on a short circuit
/// between its conductors, by the conventional method, m.
///
/// ℓ = 0.8 · U · S / (2 · ρ · Im)
///
/// - U: voltage, V; S: conductor, mm²
/// - Im: current at which the breaker is sure to trip, its tolerance included
/// - ρ: 0.023 Ω·mm²/m
///
/// Source: conventional method of IEC 60364 guides.
///
/// ```
/// use wirewend::checks::longest_by_short_circuit;
/// use wirewend::units::{Amps, Volts};
/// // 1.5 mm², 100 A and 20 %: 0.8 × 230 × 1.5 / (2 × 0.023 × 120) = 50 m
/// let longest = longest_by_short_circuit(Volts(230.0), 1.5, 0.023, Amps(120.0));
/// assert!((longest - 50.0).abs() < 0.001);
/// ```
#[must_use]
pub fn longest_by_short_circuit(
    voltage: crate::units::Volts,
    mm2: f64,
    resistivity: f64,
    trips_at: Amps,
) -> f64 {
    0.8 * voltage.0 * mm2 / (2.0 * resistivity * trips_at.0)
}

/// What a breaker lets through at the board, A²s, and where that comes from.
///
/// The lesser of its class's limit and half a cycle of the whole current.
///
/// # Errors
/// [`Absent`] where no table knows a breaker of that curve and rating at that
/// current.
pub(super) fn energy_at_board(
    device: Device,
    fault: Amps,
    case: &Case<'_>,
) -> Result<(f64, String), Absent> {
    let tables = case.house.tables();
    let half_wave = tables.trip_duration.row(TripTime::HalfWave);
    let whole = fault.0 * fault.0 * half_wave.time.0;
    let class = class_limit(device, fault, tables);
    match class {
        Some((energy, source)) if energy < whole => Ok((energy, source)),
        Some(_) => Ok((whole, half_wave.credit())),
        None if fault.0 <= 3000.0 => Ok((whole, half_wave.credit())),
        None => Err(tables.let_through.lacks(format!(
            "{}, {} A, {} A",
            device.curve.text(),
            device.rating.0,
            fault.0
        ))),
    }
}

fn class_limit(device: Device, fault: Amps, tables: &Tables) -> Option<(f64, String)> {
    tables
        .let_through
        .rows()
        .filter(|row| row.curve == device.curve && row.rating >= device.rating)
        .filter(|row| row.fault.0 * 1000.0 >= fault.0)
        .min_by(|a, b| a.energy.0.total_cmp(&b.energy.0))
        .map(|row| (row.energy.0, row.credit()))
}

/// How long a fault at the far end lasts, s: at once where its current is
/// enough, otherwise as long as the regime allows.
#[must_use]
pub(super) fn duration(
    device: Device,
    fault: Amps,
    earthing: EarthingSystem,
    tables: &Tables,
) -> Seconds {
    let at_most = tables.trip_multiple.row(device.curve).at_most;
    if fault.0 >= at_most * device.rating.0 {
        tables.trip_duration.row(TripTime::Instantaneous).time
    } else {
        tables.disconnection_time.row((earthing, Fault::Final)).time
    }
}

/// What a circuit's conductors must stand, mm².
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Sections {
    /// Least section for a fault at the board.
    pub at_board: f64,
    /// Least section for a fault at the far end.
    pub at_end: f64,
    /// The current at the far end, A.
    pub end_current: f64,
    /// How long it lasts there, s.
    pub end_time: f64,
    /// The energy at the board, A²s.
    pub energy: f64,
    /// Where that comes from.
    pub energy_source: String,
    /// What the conductors stand.
    pub k: f64,
}

impl Sections {
    /// For a device, a fault current at the board and a loop at the far end.
    ///
    /// # Errors
    /// [`Absent`] where a table has no row.
    pub(super) fn of(
        case: &Case<'_>,
        conductors: &Conductors,
        device: Device,
        board: Amps,
        end: Amps,
        earthing: EarthingSystem,
    ) -> Result<Self, Absent> {
        let tables = case.house.tables();
        let after = tables.temperature.row(TemperatureOf::FaultEnd).temperature;
        let k = heat_constant(conductors.rated, after);
        let (energy, energy_source) = energy_at_board(device, board, case)?;
        let time = duration(device, end, earthing, tables);
        Ok(Self {
            at_board: least_section_by_energy(energy, k),
            at_end: least_section(end, time, k),
            end_current: end.0,
            end_time: time.0,
            energy,
            energy_source,
            k,
        })
    }

    /// The larger of the two.
    #[must_use]
    pub(super) fn least(&self) -> f64 {
        self.at_board.max(self.at_end)
    }
}
