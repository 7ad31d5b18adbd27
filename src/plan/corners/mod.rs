//! Corners that do not meet: where they are, and how they are closed.

mod body;
mod close;
mod open;

pub use close::{CornerError, close_corner, close_corners};
pub use open::{OpenCorner, open_corners};
