//! A straight piece of cable in a wall.

use kurbo::Point;

use crate::plan::WallId;
use crate::sheet::house::Cut;
use crate::units::Point2;

/// A straight piece of cable in a wall.
#[derive(Debug)]
pub(super) struct Straight<'a> {
    pub(super) cut: Cut<'a>,
    pub(super) wall: WallId,
    /// From the wall's end `a`, mm, and up from the floor.
    pub(super) from: Point,
    pub(super) to: Point,
    /// Where one end of it is on the page.
    pub(super) at: Point2,
}

impl Straight<'_> {
    pub(super) fn is_upright(&self) -> bool {
        (self.from.x - self.to.x).abs() < 2.0
    }
}
