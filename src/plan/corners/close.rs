//! An open corner closed.

use std::collections::BTreeSet;

use super::{OpenCorner, open_corners};
use crate::plan::{
    Area, Board, Change, Edit, OnWall, Opening, Place, Plan, Plane, Point, Wall, WallId,
};
use crate::units::{Mm, Point2};

/// Why a corner cannot be closed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum CornerError {
    /// A wall of the corner is not in the plan any more.
    #[error("wall {0} is gone")]
    Gone(WallId),
}

/// The edit that closes a corner: both walls run on to where their centre lines
/// cross, or the one to the centre line of the other. What is on them stays
/// where it is in the house, whichever end its distance is counted from.
///
/// # Errors
/// [`CornerError`] where the plan has changed since the corner was found.
pub fn close_corner(plan: &Plan, corner: &OpenCorner) -> Result<Edit, CornerError> {
    let second = corner.other_end.map(|is_a| (corner.other, is_a));
    let mut edits = Vec::new();
    for (id, is_a) in std::iter::once(corner.wall).chain(second) {
        let wall = plan.walls.get(&id).ok_or(CornerError::Gone(id))?;
        lengthen(plan, id, wall, is_a, corner.meets, &mut edits);
    }
    Ok(Edit::Many(edits))
}

/// The edit that closes every corner with a gap of no more than `most`, and those
/// corners in the order in which they are closed. One that opens because another
/// closes is closed as well; one whose walls would not fit the plan stays open.
#[must_use]
pub fn close_corners(plan: &Plan, most: Mm) -> (Edit, Vec<OpenCorner>) {
    let (mut after, mut edits, mut closed) = (plan.clone(), Vec::new(), Vec::new());
    let mut tried: BTreeSet<(WallId, bool, WallId)> = BTreeSet::new();
    loop {
        // Those of other walls are where they were, so that they can be closed
        // before all are looked for again.
        let mut moved: BTreeSet<WallId> = BTreeSet::new();
        for corner in open_corners(&after).into_iter().filter(|corner| corner.gap <= most) {
            let (id, is_a) = corner.wall;
            if moved.contains(&id) || moved.contains(&corner.other) {
                continue;
            }
            if !tried.insert((id, is_a, corner.other)) {
                continue;
            }
            let edit = close_corner(&after, &corner);
            let edit = edit.ok().filter(|edit| after.apply(edit.clone()).is_ok());
            if let Some(edit) = edit {
                moved.extend([id, corner.other]);
                edits.push(edit);
                closed.push(corner);
            }
        }
        if moved.is_empty() {
            return (Edit::Many(edits), closed);
        }
    }
}

/// A wall with one end elsewhere on its line.
fn lengthen(plan: &Plan, id: WallId, wall: &Wall, is_a: bool, to: Point2, edits: &mut Vec<Edit>) {
    let new = if is_a { Wall { a: to, ..wall.clone() } } else { Wall { b: to, ..wall.clone() } };
    // Distances are counted from `a`: those from `b` stay.
    let by = Mm::from_f64(new.length() - wall.length()).unwrap_or(Mm::ZERO);
    edits.push(Change::Put(id, new).into());
    if is_a && by != Mm::ZERO {
        carry(plan, id, by, edits);
    }
}

/// Everything on a wall so much further along.
fn carry(plan: &Plan, id: WallId, by: Mm, edits: &mut Vec<Edit>) {
    for (opening, old) in plan.openings.iter().filter(|(_, old)| old.wall == id) {
        edits.push(Change::Put(*opening, Opening { from: old.from + by, ..old.clone() }).into());
    }
    let carried = |place: Option<Place>| match place {
        Some(Place::Wall(on)) if on.wall == id => {
            Some(Some(Place::Wall(OnWall { along: on.along + by, ..on })))
        }
        _ => None,
    };
    for (point, old) in &plan.points {
        if let Some(place) = carried(old.place) {
            edits.push(Change::Put(*point, Point { place, ..old.clone() }).into());
        }
    }
    for (board, old) in &plan.boards {
        if let Some(place) = carried(old.place) {
            edits.push(Change::Put(*board, Board { place, ..old.clone() }).into());
        }
    }
    for (area, old) in plan.areas.iter().filter(|(_, old)| old.on == Plane::Wall(id)) {
        let outline = old.outline.iter().map(|at| Point2 { x: at.x + by, y: at.y }).collect();
        edits.push(Change::Put(*area, Area { outline, ..old.clone() }).into());
    }
}
