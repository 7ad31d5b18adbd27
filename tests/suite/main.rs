//! The tests that see the library from outside, in one binary.

mod fixtures;
mod furnish;
mod generate;
mod layouts;
mod sound;
