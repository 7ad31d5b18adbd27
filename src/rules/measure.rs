//! The units of tables that nothing else of the house has.

use crate::units::{Mm, OhmsPerMetre};

macro_rules! measures {
    ($($(#[$doc:meta])* $Type:ident)*) => {
        $(
            $(#[$doc])*
            #[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
            pub struct $Type(pub f64);
        )*
    };
}

measures! {
    /// Resistance or reactance of a conductor by its length, Ω/km.
    OhmsPerKm
    /// Fault current, kA.
    Kiloamps
    /// Let-through energy, A²s.
    AmpsSquaredSeconds
    /// Volt drop by current and length, mV/(A·m).
    MillivoltsPerAmpMetre
    /// Hundredths.
    Percent
    /// Floor area, m².
    SquareMetres
}

impl OhmsPerKm {
    /// By the metre.
    #[must_use]
    pub fn per_metre(self) -> OhmsPerMetre {
        OhmsPerMetre(self.0 / 1000.0)
    }
}

/// A length as a table gives it, which may have a fraction: a cable of
/// 10.5 mm.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Millimetres {
    pub(super) exact: f64,
    pub(super) whole: Mm,
}

impl Millimetres {
    /// With its fraction.
    #[must_use]
    pub const fn exact(self) -> f64 {
        self.exact
    }

    /// To the nearest millimetre.
    #[must_use]
    pub const fn whole(self) -> Mm {
        self.whole
    }
}

/// A number of things.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Count(pub u32);

impl Count {
    /// As a figure.
    #[must_use]
    pub fn figure(self) -> f64 {
        f64::from(self.0)
    }
}

/// An installation method, by the name that the regime's own tables give it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Method(pub(super) String);

impl Method {
    /// Its name.
    #[must_use]
    pub fn name(&self) -> &str {
        &self.0
    }
}
