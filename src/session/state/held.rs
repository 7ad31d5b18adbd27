//! What the hand holds: points that are carried, a rubber band, what was copied.

use kurbo::Point;

use crate::plan::{self, End, Place};

/// Points or boards that are held and moved.
#[derive(Clone, Debug, PartialEq)]
pub struct Hold {
    /// The one that was taken.
    pub end: End,
    /// Those that go with it.
    pub others: Vec<End>,
    /// Where it was taken, mm of the plan.
    pub from: Point,
    /// Where each would go, the one that was taken first. Empty: not moved far
    /// enough to count.
    pub to: Vec<(End, Place)>,
}

/// A band between two places of the plan, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band {
    /// From where, mm of the plan.
    pub from: Point,
    /// To where.
    pub to: Point,
    /// Whether what was chosen before stays chosen.
    pub also: bool,
}

impl Band {
    /// A band that begins here.
    pub const fn at(from: Point, also: bool) -> Self {
        Self { from, to: from, also }
    }
}

/// Points that were copied.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Clip {
    /// The points with where they were, mm of the plan.
    pub points: Vec<(plan::Point, Point)>,
}
