//! Tables of a regime, each value with its source: data and look-ups, no
//! judgement.
//!
//! The front door is [`RuleBook`]: the shipped tables, overridden row by row
//! by the user's own; [`RuleBook::of`] gives the [`Tables`] of a regime, one
//! typed table each. A regime is a folder of tables with a manifest
//! ([`Manifest`]); where it has no row, that of the regime it inherits holds.
//! What a table is called and what its columns hold is said once, in `spec`;
//! a table that differs from that is refused when it is read. This room knows
//! no circuits.

mod book;
mod cells;
mod cited;
mod column;
mod error;
mod folder;
mod grade;
mod key;
mod listed;
mod manifest;
mod measure;
mod read;
mod row;
mod shipped;
pub mod spec;
mod table;
mod tables;
pub mod words;

pub use book::RuleBook;
pub use cells::Cells;
pub use cited::Cited;
pub use column::Column;
pub use error::{Absent, RuleError};
pub use folder::Folder;
pub use grade::{Grade, Owner};
pub use key::{Every, Key};
pub use listed::{Listed, ListedRow};
pub use manifest::{MANIFEST, Manifest};
pub use measure::{
    AmpsSquaredSeconds, Count, Kiloamps, Method, Millimetres, MillivoltsPerAmpMetre, OhmsPerKm,
    Percent, SquareMetres,
};
pub use row::{Heading, Row, Spec, Trend};
pub use table::{Complete, Table};
pub use tables::{SPECS, Scope, Tables};
