//! Legs, orders and bounds: how the points of each circuit are joined.
//!
//! The front doors are [`route()`] and, while a plan is being changed,
//! [`route_again()`]. This room knows no prices and no papers.

mod beside;
mod built;
pub mod chain;
mod circuit;
mod distances;
mod finder;
pub mod grouping;
mod house;
mod isolating;
mod issue;
mod marks;
mod memory;
mod nearby;
mod network;
mod numbers;
mod renumbered;
mod result;
mod route;
mod segments;
mod switching;
mod table;
mod unreached;

pub use built::{Built, built};
pub use distances::Distances;
pub use issue::issue;
pub use memory::Memory;
pub use nearby::Windows;
pub use numbers::numbered;
pub use renumbered::{Renumbered, renumbered};
pub use result::{
    Distance, Heading, Leg, LegRole, Order, OrderMethod, Route, Run, Runs, Segment, Surrounding,
};
pub use route::{route, route_again, route_in, route_watched};
