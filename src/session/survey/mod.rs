//! The building under the hand.

pub mod building;
mod in_place;
mod levels;
pub mod outlines;
mod pictures;
mod rectangle;
pub(crate) mod reshape;
mod sketch_building;
pub mod wall_areas;

pub use in_place::in_place;
