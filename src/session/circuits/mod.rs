//! Circuits under the hand.

mod by_hand;
pub mod mend;
mod renumber;

pub use by_hand::standing;
