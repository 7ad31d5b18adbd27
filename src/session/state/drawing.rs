//! What the hand keeps while it draws the building.

use kurbo::Point;

use super::reshape::Reshape;
use crate::plan::WallBuild;
use crate::units::Point2;

/// What is under way of the building.
#[derive(Clone, Debug, Default)]
pub(crate) struct Drawing {
    /// A wall, an opening, a corner that is held and moved.
    pub(crate) reshape: Option<Reshape>,
    /// The corners of an outline that is drawn.
    pub(crate) outline: Vec<Point2>,
    /// Whether the button is still down on its first corner: a rectangle.
    pub(crate) stretching: bool,
    /// The ends of a length that is known on the picture.
    pub(crate) ruler: Vec<Point>,
    /// What new walls are made of, where it is not studs.
    pub(crate) build: Option<WallBuild>,
}

/// What was let go of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Dropped {
    /// A part that was held: what is shown of it is not so.
    pub(crate) held: bool,
    /// Corners or ends that were drawn.
    pub(crate) drew: bool,
}

impl Drawing {
    /// Lets go of everything that is under way.
    pub(crate) fn drop_all(&mut self) -> Dropped {
        let held = self.reshape.take().is_some();
        let drew = !self.outline.is_empty() || !self.ruler.is_empty();
        self.outline.clear();
        self.ruler.clear();
        self.stretching = false;
        Dropped { held, drew }
    }
}
