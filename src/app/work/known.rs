//! What was computed before, so that while something is dragged little is computed anew.

use wirewend::space::Shell;
use wirewend::{lengths, runs};

/// What is known from the last time.
#[derive(Debug, Default)]
pub(in crate::app) struct Known {
    pub(super) shell: Shell,
    pub(super) runs: runs::Memory,
    pub(super) lengths: lengths::Memory,
}
