//! A place for a label.

use kurbo::{Point, Rect};

/// Clear space around lettering, mm.
pub(super) const CLEAR: f64 = 0.6;

/// A place for a label.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub(super) at: Rect,
    /// What it costs by itself, before neighbours count.
    pub(super) cost: f64,
    pub(super) leader: Option<(Point, Point)>,
    /// The box around its clear space and its leader: what does not touch it
    /// costs nothing.
    pub(super) reach: Rect,
}

impl Spot {
    pub(super) fn new(at: Rect, cost: f64, leader: Option<(Point, Point)>) -> Self {
        let clear = at.inflate(CLEAR, CLEAR);
        let reach = leader.map_or(clear, |(from, to)| clear.union(Rect::from_points(from, to)));
        Self { at, cost, leader, reach }
    }
}
