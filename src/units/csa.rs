//! Conductor sizes.

use std::fmt;

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::UnitError;

/// The cross-section of a conductor, held in hundredths of a square
/// millimetre and written as a plain number: `2.5`.
#[derive(
    Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize, JsonSchema,
)]
#[serde(try_from = "f64", into = "f64")]
#[schemars(with = "f64")]
pub struct Csa(u32);

impl Csa {
    /// So many hundredths of a square millimetre.
    #[must_use]
    pub const fn from_hundredths(hundredths: u32) -> Self {
        Self(hundredths)
    }

    /// In square millimetres.
    #[must_use]
    pub fn mm2(self) -> f64 {
        f64::from(self.0) / 100.0
    }
}

impl TryFrom<f64> for Csa {
    type Error = UnitError;
    fn try_from(mm2: f64) -> Result<Self, UnitError> {
        if mm2.is_finite() && mm2 > 0.0 && mm2 <= 1000.0 {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "bounded on the line above"
            )]
            Ok(Self(libm::round(mm2 * 100.0) as u32))
        } else {
            Err(UnitError::OutOfRange)
        }
    }
}

impl From<Csa> for f64 {
    fn from(size: Csa) -> Self {
        size.mm2()
    }
}

impl fmt::Display for Csa {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} mm²", self.mm2())
    }
}
