//! The set of papers of a job: which there are, made in their order under a
//! watch, and the files that they go into.

mod files;
mod make;
mod paper;

pub use files::{NotWritten, Written, write};
pub use make::{PaperSet, Revision, make};
pub use paper::{Paper, Wanted};
