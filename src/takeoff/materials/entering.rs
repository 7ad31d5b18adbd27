//! The cables that end at a point.

/// The cables that end at a point.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Entering {
    /// How many.
    pub(super) all: u32,
    /// Those with armour: they bring glands of their own.
    pub(super) armoured: u32,
}
