//! A fast network, and what is asked of it.

use crate::space::{FastNetwork, Floods, Row};

/// A fast network and all that is asked of it.
pub(super) struct Network<'a> {
    pub(super) fast: FastNetwork<'a>,
    pub(super) floods: Floods,
    pub(super) boards: Option<Row>,
}
