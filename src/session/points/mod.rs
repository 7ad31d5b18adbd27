//! Points and boards under the hand.

mod chosen;
mod clip;
mod dropped;
mod hold;
mod lit;
