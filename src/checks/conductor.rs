//! What a conductor opposes to current, by size and temperature.

use crate::plan::{Cable, Regime};
use crate::rules::words::{Strand, TemperatureOf};
use crate::rules::{Absent, RuleBook};
use crate::units::{Celsius, OhmsPerMetre};

/// The resistance of a conductor at another temperature.
///
/// r = r₂₀ · (β + T) / (β + 20)
///
/// - r₂₀: resistance at 20 °C, Ω/m
/// - T: temperature of the conductor, °C
/// - β: 234.5 for copper in IEC 60228, 230 in BS 7671; the temperature of no
///   resistance with its sign turned
///
/// Holds between 0 and 160 °C.
///
/// Source: IEC 60228; BS 7671 appendix 4.
///
/// ```
/// use wirewend::checks::resistance_at;
/// use wirewend::units::{Celsius, OhmsPerMetre};
/// // 2.5 mm² at 75 °C: 7.41 × 309.5 / 254.5 = 9.0114 Ω/km
/// let hot = resistance_at(OhmsPerMetre(0.00741), Celsius(75.0), Celsius(-234.5));
/// assert!((hot.0 - 0.009_011_4).abs() < 1e-7);
/// ```
#[must_use]
pub fn resistance_at(r20: OhmsPerMetre, hot: Celsius, zero: Celsius) -> OhmsPerMetre {
    OhmsPerMetre(r20.0 * (hot.0 - zero.0) / (20.0 - zero.0))
}

/// The resistance of a conductor by its area alone.
///
/// r = ρ / S
///
/// - ρ: resistivity at the temperature wanted, Ω·mm²/m: 0.0225 for warm copper
/// - S: cross-section, mm²
///
/// Source: IEC 60364-5-52 annex G; 2.5 mm²: 0.0225 / 2.5 = 9 Ω/km.
#[must_use]
pub fn resistance_by_area(resistivity: f64, mm2: f64) -> OhmsPerMetre {
    OhmsPerMetre(resistivity / mm2)
}

/// The conductors of a type of cable: what each opposes to current.
#[derive(Clone, Debug, PartialEq)]
pub struct Conductors {
    /// The cable.
    pub cable: Cable,
    /// A core at 20 °C.
    pub core: OhmsPerMetre,
    /// The protective conductor at 20 °C.
    pub earth: OhmsPerMetre,
    /// Its cross-section, mm².
    pub earth_mm2: f64,
    /// The reactance of one conductor.
    pub reactance: OhmsPerMetre,
    /// The temperature that a conductor may reach in use.
    pub rated: Celsius,
    /// Where the resistance line of copper meets zero.
    pub zero: Celsius,
    /// Where the resistance comes from.
    pub source: String,
}

impl Conductors {
    /// From the tables of a regime.
    ///
    /// # Errors
    /// [`Absent`] where the regime has no figure for the size.
    pub fn of(cable: Cable, rules: &RuleBook, regime: Regime) -> Result<Self, Absent> {
        let tables = rules.of(regime);
        let resistance = |size| tables.conductor_resistance.row((Strand::Fixed, size));
        let row = resistance(cable.size)?;
        let earth = tables.earth_conductor.row(cable.size)?.earth;
        let temperature = |what| tables.temperature.row(what).temperature;
        Ok(Self {
            cable,
            core: row.resistance.per_metre(),
            earth: resistance(earth)?.resistance.per_metre(),
            earth_mm2: earth.mm2(),
            reactance: tables.reactance.row(cable.size)?.reactance.per_metre(),
            rated: temperature(TemperatureOf::Conductor),
            zero: temperature(TemperatureOf::ZeroResistance),
            source: row.credit(),
        })
    }

    /// A core at a temperature.
    #[must_use]
    pub fn core_at(&self, hot: Celsius) -> OhmsPerMetre {
        resistance_at(self.core, hot, self.zero)
    }

    /// A core and the protective conductor in series, at a temperature.
    #[must_use]
    pub fn loop_at(&self, hot: Celsius) -> OhmsPerMetre {
        resistance_at(self.core + self.earth, hot, self.zero)
    }
}
