//! Parts of the building that are held.

use kurbo::Point;

use super::legs::PinKey;
use crate::plan::{Edit, LevelId, OpeningId, Subject, WallId};
use crate::session::ground::snap::Snap;
use crate::units::Point2;

/// What of the building is in the hand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Part {
    /// A wall, with those that are one line with it.
    Wall(WallId),
    /// The corner at one end of a wall, with all that meet there.
    Corner(WallId, Point2),
    /// A door or a window.
    Opening(OpeningId),
    /// An edge of an opening: whether it is the one nearer to the wall's `a`.
    Edge(OpeningId, bool),
    /// A corner of an area or of a void's outline, by its place in the list.
    Outline(Subject, usize),
    /// A whole area.
    Area(crate::plan::AreaId),
    /// The picture under a level.
    Picture(LevelId),
    /// A pin of a leg.
    Pin(PinKey),
}

/// A part of the building that is held.
#[derive(Clone, Debug, PartialEq)]
pub struct Reshape {
    /// Which.
    pub part: Part,
    /// Where it was taken, mm of the plan.
    pub from: Point,
    /// What would be done. None: not moved far enough to count.
    pub edit: Option<Edit>,
    /// What would be done, in words beside the pointer.
    pub says: String,
    /// What it holds on to.
    pub snap: Option<Snap>,
}
