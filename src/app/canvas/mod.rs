//! What is painted: the sheet in layers, what lies beneath it, what moves over it.

mod ground;
pub(in crate::app) mod layers;
pub(in crate::app) mod lettering;
pub(in crate::app) mod paint;
mod painted;
pub(in crate::app) mod panes;
pub(in crate::app) mod strip;
pub(in crate::app) mod surface;
pub(in crate::app) mod theme;
pub(in crate::app) mod under;
