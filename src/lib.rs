//! Wirewend plans a house rewire: routed cables, cut lengths, checks, take-off
//! and papers from one drawing.
//!
//! The rooms in order of flow; each may use those above it and none below:
//! [`units`], [`wording`], [`plan`], [`rules`], [`store`], [`space`], [`runs`], [`lengths`], [`checks`],
//! [`takeoff`], [`draft`], [`sheet`], [`session`].
//!
//! It helps to plan and certifies nothing. Work on mains wiring kills: isolate,
//! prove dead, lock off; the local code and licensed people decide.

pub mod checks;
pub mod draft;
pub mod lengths;
pub mod plan;
pub mod rules;
pub mod runs;
pub mod session;
pub mod sheet;
pub mod space;
pub mod store;
pub mod takeoff;
pub mod units;
pub mod wording;
