//! Cutting lengths from off-cuts and drums, in whole millimetres.
//!
//! The front door is [`solve()`]. It knows lengths and prices only. There is
//! no clock in it: how long it looks is a number of steps, an [`Effort`].

mod best_fit;
mod bound;
mod cover;
mod few;
mod fill;
mod goals;
mod improve;
mod job;
mod reach;
mod search;
mod solve;

pub use goals::{Goal, Goals};
pub use job::{DrumType, Filling, Job, Plan};
pub use solve::{Effort, solve};
