//! From a leg to the length to cut. The front doors are [`measure()`] and, while
//! a plan is being changed, [`measure_again()`].

mod basis;
mod measure;
mod memory;
mod result;

pub use measure::{measure, measure_again};
pub use memory::Memory;
pub use result::{CableLength, LegLength, LegLengths, Lengths};
