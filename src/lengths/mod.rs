//! From a leg to the length to cut.

mod result;

pub use result::{CableLength, LegLength, Lengths};
