//! Legs and pins under the hand.

mod pins;
mod pins_held;
