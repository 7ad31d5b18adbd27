//! Tests of the whole library, one binary.

mod checks;
mod power_flow;
mod rules;
mod tables_and_physics;
mod wired;
mod worked_examples;
