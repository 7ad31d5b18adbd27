//! A circuit before the plan has it.

use crate::plan::{Circuit, PointId};

/// A circuit to be, its points, and why.
pub(super) struct Planned {
    pub(super) circuit: Circuit,
    pub(super) points: Vec<PointId>,
    pub(super) because: String,
}
