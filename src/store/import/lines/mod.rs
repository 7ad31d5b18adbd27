//! From lines on a drawing to walls with thickness, openings and rooms.

mod bands;
mod line;
mod rooms;
mod walls;

pub(super) use bands::{BANDS_MAX, Band, LOOKS_MAX, Limits, TooMuch, bands};
pub(super) use line::{Line, area, edges, extent, simplified};
pub(super) use rooms::rooms;
pub(super) use walls::{Fill, Hole, Mark, Signs, Stretch, Swing, walls};
