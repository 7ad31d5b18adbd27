//! Lengths in whole millimetres, money in whole cents, and the electrical
//! quantities, as types that have only the operators physics has.
//!
//! What is stored or counted is an integer; what is only shape or physics
//! floats. This room knows nothing of houses.

mod angle;
mod cost;
mod csa;
mod length;
mod money;
mod position;
mod quantity;
mod watch;
mod worked;

pub use angle::Angle;
pub use cost::Cost;
pub use csa::Csa;
pub use length::{Mm, UnitError};
pub use money::Cents;
pub use position::{Point2, Point3};
pub use quantity::{
    Amps, Celsius, KelvinMetresPerWatt, Megohms, Milliseconds, Ohms, OhmsPerMetre, Seconds, Volts,
    Watts,
};
pub use watch::Watch;
pub use worked::{Term, Worked, Working};
