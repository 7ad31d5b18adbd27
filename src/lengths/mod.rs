//! From a leg to the length to cut. The front door is [`measure()`].

mod measure;
mod result;

pub use measure::measure;
pub use result::{CableLength, LegLength, Lengths};
