//! What the pen holds on to, and how that is shown.

use kurbo::Point;
use wirewend::units::Point2;

use crate::app::camera::rounded;

/// What kind of place the pen holds on to; each has a mark of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::app) enum Kind {
    /// Nothing: an even step.
    Free,
    End,
    Crossing,
    Half,
    OnWall,
    /// Level or upright on the page.
    Level,
    /// Square to a wall.
    Square,
    /// Level with an end, or upright from it.
    InLine,
    /// On the line of a wall, beyond its end.
    Continued,
    Typed,
}

impl Kind {
    /// A word for it.
    pub(in crate::app) const fn word(self) -> &'static str {
        match self {
            Self::Free => "",
            Self::End => "at an end",
            Self::Crossing => "where walls cross",
            Self::Half => "half-way",
            Self::OnWall => "on a wall",
            Self::Level => "level or upright",
            Self::Square => "right angle",
            Self::InLine => "in line",
            Self::Continued => "line continued",
            Self::Typed => "as typed",
        }
    }
}

/// What the pen held on to.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::app) struct Snap {
    /// Where.
    pub(in crate::app) at: Point2,
    pub(in crate::app) kind: Kind,
    /// Lines that show it, mm of the plan.
    pub(in crate::app) guides: Vec<(Point, Point)>,
}

impl Snap {
    /// Nothing to hold on to.
    pub(in crate::app) fn free(at: Point) -> Self {
        Self::at(at, Kind::Free)
    }

    pub(super) fn at(at: Point, kind: Kind) -> Self {
        Self { at: rounded(at), kind, guides: Vec::new() }
    }

    pub(super) fn guided(at: Point, kind: Kind, from: Point) -> Self {
        Self { at: rounded(at), kind, guides: vec![(from, at)] }
    }
}
