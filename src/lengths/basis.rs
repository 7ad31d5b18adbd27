//! What the lengths of a leg come from.

use std::borrow::Cow;

use crate::plan::{End, Labels, Place, Plan, Plane};
use crate::runs::Leg;
use crate::units::Mm;

/// All that the lengths of a leg depend on, the allowances of the plan aside.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Basis<'a> {
    /// Its straight parts added up.
    pub(super) geometry: Mm,
    /// How many plates it passes.
    pub(super) plates: i64,
    /// Whether it crosses a void.
    pub(super) in_void: bool,
    /// Both its ends, that nearer to the board first.
    pub(super) ends: [Tail<'a>; 2],
    /// What was measured when it was pulled.
    pub(super) measured: Option<Mm>,
}

/// What is left at an end of a leg.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Tail<'a> {
    pub(super) mark: Cow<'a, str>,
    pub(super) length: Mm,
    /// Whether rain can reach the face that it is on.
    pub(super) is_wet: bool,
}

impl<'a> Basis<'a> {
    pub(super) fn of(plan: &Plan, marks: &'a Labels, leg: &Leg) -> Self {
        let plates = leg.route.plate_passages().len();
        let mut planes = leg.route.segments.iter().map(|segment| &segment.plane);
        Self {
            geometry: leg.route.length,
            plates: i64::try_from(plates).unwrap_or(0),
            in_void: planes.any(|plane| matches!(plane, Some(Plane::Void(_)))),
            ends: [leg.from, leg.to].map(|end| Tail::of(plan, marks, end)),
            measured: measured(plan, leg),
        }
    }

    pub(super) fn into_owned(self) -> Basis<'static> {
        Basis { ends: self.ends.map(Tail::into_owned), ..self }
    }
}

impl<'a> Tail<'a> {
    fn of(plan: &Plan, marks: &'a Labels, end: End) -> Self {
        let length = match end {
            End::Board(_) => plan.allowances.tail_board,
            End::Point(id) => plan.points.get(&id).map_or(Mm::ZERO, |point| {
                point.tail.unwrap_or_else(|| plan.allowances.tail(point.kind))
            }),
        };
        let wall = match plan.place_of(end) {
            Some(Place::Wall(on)) => plan.walls.get(&on.wall).map(|wall| (wall.wet, on.face)),
            _ => None,
        };
        let is_wet = wall.is_some_and(|(wet, face)| wet == Some(face));
        Self { mark: Cow::Borrowed(marks.end(end)), length, is_wet }
    }

    fn into_owned(self) -> Tail<'static> {
        Tail { mark: Cow::Owned(self.mark.into_owned()), ..self }
    }
}

fn measured(plan: &Plan, leg: &Leg) -> Option<Mm> {
    let same = |from, to| (from, to) == (leg.from, leg.to) || (to, from) == (leg.from, leg.to);
    plan.measured
        .iter()
        .find(|entry| entry.circuit == leg.circuit && same(entry.from, entry.to))
        .map(|entry| entry.length)
}
