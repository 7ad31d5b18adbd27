//! The place of a point in its circuit.

/// Where a point stands in its circuit, and the legs on both sides of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Link {
    /// Its circuit, or [`super::circuits::NOWHERE`].
    pub(super) group: u32,
    /// What stands before it; 0 for the board.
    pub(super) before: u32,
    /// What stands after it, or the end.
    pub(super) after: u32,
    /// The leg from what stands before it.
    pub(super) leg_before: i32,
    /// The leg to what stands after it, or back to the board.
    pub(super) leg_after: i32,
}
