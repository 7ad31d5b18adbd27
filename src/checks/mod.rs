//! Findings and workings about the electrics.
//!
//! The front door is [`check()`]; [`everything()`] joins what it finds with what
//! the drawing and its routes say, [`suggest()`] sizes a circuit,
//! [`expected_tests()`] says what a meter should read, [`explain()`] gives the
//! page of a code. Every figure carries its working, every finding its limit,
//! source and remedy; a check that could not be made is a finding too.
//!
//! Nothing here certifies anything.

mod against;
mod ambient;
mod between_rows;
mod bunching;
mod capacity;
mod check;
mod conductor;
mod context;
mod demand;
mod design_current;
mod electrics;
mod everything;
mod expected_tests;
mod feeder;
mod judge;
mod let_through;
mod loop_impedance;
mod network;
mod options;
mod pages;
mod phasor;
mod rating;
mod readings;
mod result;
mod suggest;
mod volt_drop;
mod words;

pub use against::{Against, Bound};
pub use ambient::{ambient_factor, temperature_factor};
pub use capacity::corrected_rating;
pub use check::{check, check_with};
pub use conductor::{Conductors, resistance_at, resistance_by_area};
pub use demand::{DemandRule, cooker_demand};
pub use everything::{everything, faults};
pub use expected_tests::{
    CircuitTests, ExpectedTests, PointTests, RingTests, expected_tests, loop_resistance,
    ring_cross_reading,
};
pub use feeder::{Feeder, Load, Span};
pub use let_through::{
    heat_constant, least_section, least_section_by_energy, longest_by_short_circuit,
};
pub use loop_impedance::{
    device_limit, longest_by_loop, longest_conventional, loop_impedance, loop_limit,
};
pub use options::{ConductorTemperature, LoadPattern, Options};
pub use pages::{CODES, Page, explain};
pub use phasor::Phasor;
pub use rating::{Rating, Stretch, rate};
pub use readings::{JudgedReading, Verdict, judge_readings};
pub use result::{
    BoardFigures, CAUTIONS, Checked, CircuitFigures, GoverningStretch, LegFigures, PointFigures,
};
pub use suggest::{Rejected, Suggested, Suggestion, suggest, suggest_each};
pub use volt_drop::volt_drop;
