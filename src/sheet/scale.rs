//! Drawing scales.

use std::fmt;

/// A reduction scale, 1 to so many.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Scale(u32);

impl Scale {
    /// The steps in use for buildings, largest first: ISO 5455 and, for very
    /// large sites, its next decade.
    pub const STEPS: [Self; 7] =
        [Self(20), Self(50), Self(100), Self(200), Self(500), Self(1000), Self(2000)];

    /// 1 to `reduction`, if that is one of [`Scale::STEPS`].
    #[must_use]
    pub fn one_to(reduction: u32) -> Option<Self> {
        Self::STEPS.into_iter().find(|step| step.0 == reduction)
    }

    /// How many millimetres of building one millimetre of paper stands for.
    #[must_use]
    pub const fn reduction(self) -> u32 {
        self.0
    }

    /// Millimetres on paper for each millimetre of building.
    #[must_use]
    pub fn paper_per_plan(self) -> f64 {
        1.0 / f64::from(self.0)
    }
}

impl fmt::Display for Scale {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "1:{}", self.0)
    }
}
