//! What the pen holds on to, and how that is shown.

use kurbo::Point;

use crate::session::ground::places::rounded;
use crate::units::Point2;

/// What kind of place the pen holds on to; each has a mark of its own.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Nothing: an even step.
    Free,
    /// An end of a wall.
    End,
    /// Where walls cross.
    Crossing,
    /// Half-way along a wall.
    Half,
    /// Somewhere on a wall.
    OnWall,
    /// Level or upright on the page.
    Level,
    /// Square to a wall.
    Square,
    /// Level with an end, or upright from it.
    InLine,
    /// On the line of a wall, beyond its end.
    Continued,
    /// What was typed.
    Typed,
}

impl Kind {
    /// A word for it.
    pub const fn word(self) -> &'static str {
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
pub struct Snap {
    /// Where.
    pub at: Point2,
    /// Of which kind it is.
    pub kind: Kind,
    /// Lines that show it, mm of the plan.
    pub guides: Vec<(Point, Point)>,
}

impl Snap {
    /// Nothing to hold on to.
    pub fn free(at: Point) -> Self {
        Self::at(at, Kind::Free)
    }

    /// A place of a kind.
    pub fn at(at: Point, kind: Kind) -> Self {
        Self { at: rounded(at), kind, guides: Vec::new() }
    }

    /// A place of a kind, with the line that leads to it.
    pub fn guided(at: Point, kind: Kind, from: Point) -> Self {
        Self { at: rounded(at), kind, guides: vec![(from, at)] }
    }
}
