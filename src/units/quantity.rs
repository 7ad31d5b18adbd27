//! Electrical and thermal quantities in SI units, with only the operators that
//! physics has.

use std::ops::{Add, Div, Mul, Sub};

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::Mm;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $symbol:literal) => {
        $(#[$doc])*
        #[derive(
            Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize, JsonSchema,
        )]
        #[serde(transparent)]
        pub struct $name(pub f64);

        impl Add for $name {
            type Output = Self;
            fn add(self, other: Self) -> Self {
                Self(self.0 + other.0)
            }
        }

        impl Sub for $name {
            type Output = Self;
            fn sub(self, other: Self) -> Self {
                Self(self.0 - other.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = Self;
            fn mul(self, factor: f64) -> Self {
                Self(self.0 * factor)
            }
        }

        impl Div for $name {
            type Output = f64;
            fn div(self, other: Self) -> f64 {
                self.0 / other.0
            }
        }

        impl $name {
            /// The unit's symbol, as it follows a number.
            pub const SYMBOL: &'static str = $symbol;
        }
    };
}

quantity!(/// Potential difference, V.
    Volts, "V");
quantity!(/// Current, A.
    Amps, "A");
quantity!(/// Resistance or impedance, Ω.
    Ohms, "Ω");
quantity!(/// Resistance of insulation, MΩ.
    Megohms, "MΩ");
quantity!(/// Resistance or reactance of a conductor by its length, Ω/m.
    OhmsPerMetre, "Ω/m");
quantity!(/// Power, W.
    Watts, "W");
quantity!(/// Time, s.
    Seconds, "s");
quantity!(/// Time in which a device trips, ms.
    Milliseconds, "ms");
quantity!(/// Temperature, °C.
    Celsius, "°C");
quantity!(/// Thermal resistivity of soil, K·m/W.
    KelvinMetresPerWatt, "K·m/W");

impl Mul<Ohms> for Amps {
    type Output = Volts;
    fn mul(self, resistance: Ohms) -> Volts {
        Volts(self.0 * resistance.0)
    }
}

impl Mul<Mm> for OhmsPerMetre {
    type Output = Ohms;
    fn mul(self, length: Mm) -> Ohms {
        Ohms(self.0 * length.metres())
    }
}

impl Mul<Amps> for Volts {
    type Output = Watts;
    fn mul(self, current: Amps) -> Watts {
        Watts(self.0 * current.0)
    }
}

impl Div<Volts> for Watts {
    type Output = Amps;
    fn div(self, voltage: Volts) -> Amps {
        Amps(self.0 / voltage.0)
    }
}

impl Div<Ohms> for Volts {
    type Output = Amps;
    fn div(self, impedance: Ohms) -> Amps {
        Amps(self.0 / impedance.0)
    }
}
