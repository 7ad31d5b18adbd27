//! What is computed from a plan, away from the hand that draws: runs, lengths,
//! checks and the marks of the sheet.

mod figure;
mod job;
mod known;
mod marks;
mod order;
mod picture;
mod price;

pub use figure::{Figure, Shown, total};
pub use job::{Job, VOID};
pub use known::Known;
pub use marks::{Moves, Thing};
pub use order::Order;
pub use picture::{Drawn, Letters, Picture, View};
pub use price::Price;
