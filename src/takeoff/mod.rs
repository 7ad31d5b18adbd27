//! Cut plans from drums and off-cuts, materials, labour and price.
//!
//! The front door is [`take_off()`]; [`cutting`] plans cuts by itself, for any
//! lengths. Every count says which points and segments it came from, every sum
//! is the sum of its lines. This room knows no papers.

mod choices;
mod client;
mod compare;
mod cut_order;
mod cut_plan;
mod cut_plans;
mod cut_source;
pub mod cutting;
mod labour;
mod materials;
mod origin;
mod practice;
mod price;
mod quote;
mod result;
mod shared;
mod take_off;
mod to_buy;
mod total;

pub use choices::{CHOICES_MAX, Choice, Choices, choices, without_points};
pub use client::{ClientChoices, ClientQuote, ClientSums};
pub use compare::{
    Bill, BuiltLeg, CableChange, Change, CircuitChange, ClientBill, ClientVariation, Counted,
    LineChange, Revision, RoomCount, Section, ThingChange, Variation, changes, compare,
};
pub use cut_order::Slice;
pub use cut_plan::CutPlan;
pub use cut_plans::cuts_left;
pub use cut_source::{Cut, CutSource, Piece, SourceKind};
pub use labour::Task;
pub use materials::{Item, ItemGroup};
pub use origin::{Origin, Part, Quantity};
pub use quote::{LineGroup, Quote, QuoteLine};
pub use result::TakeOff;
pub use take_off::take_off;
pub use to_buy::{ByTheMetre, Drums, ToBuy};
pub use total::{Lacks, Sums, Total};
