//! Directions on the page.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Mm, Point2};

/// A direction in thousandths of a degree, anticlockwise from `x`: whole, so
/// that it can be stored and compared, and fine enough that 10 m of wall end
/// within 0.1 mm of where they should.
#[derive(
    Clone,
    Copy,
    Debug,
    Default,
    PartialEq,
    Eq,
    PartialOrd,
    Ord,
    Hash,
    Serialize,
    Deserialize,
    JsonSchema,
)]
#[serde(transparent)]
pub struct Angle(i32);

impl Angle {
    /// Along `x`.
    pub const ZERO: Self = Self(0);

    /// So many thousandths of a degree.
    #[must_use]
    pub const fn from_millidegrees(millidegrees: i32) -> Self {
        Self(millidegrees)
    }

    /// The number of thousandths of a degree.
    #[must_use]
    pub const fn millidegrees(self) -> i32 {
        self.0
    }

    /// The direction from one place to another; along `x` where they are one.
    #[must_use]
    pub fn between(from: Point2, to: Point2) -> Self {
        let step = to - from;
        let radians = libm::atan2(step.y.to_f64(), step.x.to_f64());
        #[expect(clippy::cast_possible_truncation, reason = "within ±180 000")]
        Self(libm::round(radians.to_degrees() * 1000.0) as i32)
    }

    /// (cosine, sine), exact for whole quarter turns.
    #[must_use]
    pub fn cos_sin(self) -> (f64, f64) {
        match self.0.rem_euclid(360_000) {
            0 => (1.0, 0.0),
            90_000 => (0.0, 1.0),
            180_000 => (-1.0, 0.0),
            270_000 => (0.0, -1.0),
            turn => {
                let radians = (f64::from(turn) / 1000.0).to_radians();
                (libm::cos(radians), libm::sin(radians))
            }
        }
    }

    /// A place turned about the origin by this angle, to the nearest
    /// millimetre.
    #[must_use]
    pub fn turn(self, point: Point2) -> Point2 {
        let (cos, sin) = self.cos_sin();
        let (x, y) = (point.x.to_f64(), point.y.to_f64());
        let round = |value: f64| Mm::from_f64(value).unwrap_or(Mm::ZERO);
        Point2 { x: round(x * cos - y * sin), y: round(x * sin + y * cos) }
    }

    /// The opposite turn.
    #[must_use]
    pub const fn inverse(self) -> Self {
        Self(-self.0)
    }
}
