//! From a leg to the length to cut. The front doors are [`measure()`] and, while
//! a plan is being changed, [`measure_again()`].

mod basis;
mod measure;
mod memory;
mod planned;
mod result;

pub use measure::{measure, measure_again};
pub use memory::Memory;
pub use planned::planned_legs;
pub use result::{CableLength, LegLength, LegLengths, Lengths};
