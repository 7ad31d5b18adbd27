//! Tests of the whole library, one binary.

mod power_flow;
mod rules;
mod wired;
mod worked_examples;
