//! Tables of a regime, each value with its source: data and look-ups, no
//! judgement.
//!
//! The front door is [`RuleBook`]: the shipped tables, overridden row by row
//! by the user's own. Where a regime has no row, the international row holds.
//! This room knows no circuits.

mod book;
mod error;
mod grade;
mod row;
mod shipped;
mod spec;
mod table;

pub use book::{RuleBook, regime_folder};
pub use error::{Absent, RuleError};
pub use grade::{Grade, Owner};
pub use row::{Cell, Row};
pub use spec::{Kind, SPECS, Spec, Trend};
pub use table::Table;
