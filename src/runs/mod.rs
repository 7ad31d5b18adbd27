//! Legs, orders and bounds: how the points of each circuit are joined.
//!
//! The front door is `route`. This room knows no prices and no papers.

pub mod chain;
mod result;

pub use result::{
    Distance, Heading, Leg, LegRole, Order, OrderMethod, Route, Run, Runs, Segment, Surrounding,
};
