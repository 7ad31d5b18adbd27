//! The steps through the job, and what the hand holds.

use crate::plan::{OpeningKind, PointKind};

/// The steps through the job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Step {
    /// Walls, doors, windows.
    Survey,
    /// Board, sockets, lights, switches.
    Points,
    /// Who is on what.
    Circuits,
    /// Legs and their lengths.
    Runs,
    /// What leaves the tool.
    Papers,
}

impl Step {
    /// All of them, in their order.
    pub const ALL: [Self; 5] =
        [Self::Survey, Self::Points, Self::Circuits, Self::Runs, Self::Papers];

    /// What it is called.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Survey => "Survey",
            Self::Points => "Points",
            Self::Circuits => "Circuits",
            Self::Runs => "Runs",
            Self::Papers => "Papers",
        }
    }
}

/// What the hand holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tool {
    /// Nothing: it picks up what it points at.
    Hand,
    /// A pen for walls.
    Wall,
    /// A door or a window.
    Opening(OpeningKind),
    /// A point of the kit.
    Point(PointKind),
    /// A board.
    Board,
    /// A pin for a leg.
    Pin,
    /// A pen for an area of a void.
    Area(AreaKind),
    /// A pen for what a void covers.
    Outline,
    /// Two ends of a length that is known on the picture.
    Ruler,
}

/// What an area is drawn for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AreaKind {
    /// No cable inside.
    KeepOut,
    /// Cable is dear here.
    Dear,
    /// Cable is cheap here.
    Cheap,
    /// It costs to get across.
    Barrier,
}

/// What can be typed of a thing that is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Amount {
    /// How far it is from the edge that it is set out from; an opening from the
    /// end where its wall begins.
    Along,
    /// How high it is; of an opening its lower edge.
    Height,
    /// How high an opening's upper edge is.
    Head,
    /// How wide an opening is, how long a wall.
    Width,
    /// How thick a wall is, or the insulation of a void.
    Thick,
    /// How far the joists of a void are apart.
    Spacing,
    /// Where the joists of a void run to, degrees.
    Direction,
    /// What cable costs in an area.
    Percent,
    /// What it is called.
    Name,
    /// Floor to ceiling of the level.
    Ceiling,
    /// The floor of the level above the lowest.
    Floor,
}
