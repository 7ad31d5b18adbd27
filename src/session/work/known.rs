//! What was computed before, so that while something is dragged little is computed anew.

use crate::space::Shell;
use crate::{lengths, runs};

/// What is known from the last time.
#[derive(Debug, Default)]
pub struct Known {
    /// The walls and voids as they were.
    pub shell: Shell,
    /// The routes.
    pub runs: runs::Memory,
    /// The lengths.
    pub lengths: lengths::Memory,
}
