//! Places on a plan, and what can be put there; nothing here knows of a hand.

pub mod blank;
pub mod corners;
pub mod kit;
pub mod length;
pub mod near;
pub mod places;
pub mod remove;
pub mod rooms;
pub mod snap;
pub mod storeys;
pub mod wire;
