//! Taking things away, with what cannot be without them.

use std::collections::BTreeSet;

use crate::plan::{
    Area, AreaId, Board, BoardId, Change, Circuit, CircuitId, Control, ControlId, Edit, End,
    Opening, OpeningId, Place, Plan, Plane, Point, PointId, Subject, Wall, WallId,
};

/// Removes everything chosen. What stood on a wall that goes is without a
/// place then; openings and areas of the wall go with it.
pub fn all(plan: &Plan, chosen: &BTreeSet<Subject>) -> Vec<Edit> {
    let gone = Gone::of(plan, chosen);
    let mut edits: Vec<Edit> = Vec::new();
    edits.extend(controls(plan, &gone));
    edits.extend(circuits(plan, &gone));
    let cut = |end: &End| matches!(end, End::Point(id) if gone.points.contains(id));
    if plan.measured.iter().any(|one| cut(&one.from) || cut(&one.to)) {
        let kept = plan.measured.iter().filter(|one| !cut(&one.from) && !cut(&one.to));
        edits.push(Edit::Measured(kept.cloned().collect()));
    }
    if plan.readings.iter().any(|one| cut(&one.at)) {
        let kept = plan.readings.iter().filter(|one| !cut(&one.at));
        edits.push(Edit::Readings(kept.cloned().collect()));
    }
    for id in &gone.points {
        edits.push(Change::<PointId, Point>::Remove(*id).into());
    }
    let on_gone = |place: &Option<Place>| matches!(place, Some(Place::Wall(on)) if gone.walls.contains(&on.wall));
    for (id, point) in &plan.points {
        if on_gone(&point.place) && !gone.points.contains(id) {
            edits.push(Change::Put(*id, Point { place: None, ..point.clone() }).into());
        }
    }
    for (id, board) in &plan.boards {
        if gone.boards.contains(id) {
            edits.push(Change::<BoardId, Board>::Remove(*id).into());
        } else if on_gone(&board.place) {
            edits.push(Change::Put(*id, Board { place: None, ..board.clone() }).into());
        }
    }
    for (id, area) in &plan.areas {
        if matches!(area.on, Plane::Wall(wall) if gone.walls.contains(&wall)) {
            edits.push(Change::<AreaId, Area>::Remove(*id).into());
        }
    }
    for (id, opening) in &plan.openings {
        if gone.openings.contains(id) || gone.walls.contains(&opening.wall) {
            edits.push(Change::<OpeningId, Opening>::Remove(*id).into());
        }
    }
    for id in &gone.walls {
        edits.push(Change::<WallId, Wall>::Remove(*id).into());
    }
    edits
}

/// Puts points on another circuit; the old ones forget what they knew of them.
pub fn rewired(plan: &Plan, points: &[PointId], to: CircuitId) -> Vec<Edit> {
    let moving: BTreeSet<PointId> = points
        .iter()
        .copied()
        .filter(|id| plan.points.get(id).is_some_and(|point| point.circuit != Some(to)))
        .collect();
    let gone = Gone { points: moving, ..Gone::default() };
    let mut edits = circuits(plan, &gone);
    for id in &gone.points {
        if let Some(point) = plan.points.get(id) {
            edits.push(Change::Put(*id, Point { circuit: Some(to), ..point.clone() }).into());
        }
    }
    edits
}

#[derive(Default)]
struct Gone {
    points: BTreeSet<PointId>,
    boards: BTreeSet<BoardId>,
    walls: BTreeSet<WallId>,
    openings: BTreeSet<OpeningId>,
}

impl Gone {
    fn of(plan: &Plan, chosen: &BTreeSet<Subject>) -> Self {
        let mut gone = Self::default();
        for subject in chosen {
            match subject {
                Subject::Point(id) if plan.points.contains_key(id) => {
                    gone.points.insert(*id);
                }
                Subject::Board(id) if plan.boards.contains_key(id) => {
                    gone.boards.insert(*id);
                }
                Subject::Wall(id) if plan.walls.contains_key(id) => {
                    gone.walls.insert(*id);
                }
                Subject::Opening(id) if plan.openings.contains_key(id) => {
                    gone.openings.insert(*id);
                }
                _ => {}
            }
        }
        gone
    }

    fn holds(&self, end: &End) -> bool {
        match end {
            End::Point(id) => self.points.contains(id),
            End::Board(id) => self.boards.contains(id),
        }
    }
}

fn controls(plan: &Plan, gone: &Gone) -> Vec<Edit> {
    let mut edits = Vec::new();
    for (id, control) in &plan.controls {
        let kept = |of: &[PointId]| -> Vec<PointId> {
            of.iter().copied().filter(|point| !gone.points.contains(point)).collect()
        };
        let with = Control {
            lights: kept(&control.lights),
            switches: kept(&control.switches),
            in_order: control.in_order,
        };
        if with.lights.is_empty() || with.switches.is_empty() {
            if with != *control {
                edits.push(Change::<ControlId, Control>::Remove(*id).into());
            }
        } else if with != *control {
            edits.push(Change::Put(*id, with).into());
        }
    }
    edits
}

/// Circuits without what goes; those that are left without a point go too.
fn circuits(plan: &Plan, gone: &Gone) -> Vec<Edit> {
    let mut edits = Vec::new();
    for (id, circuit) in &plan.circuits {
        let mut with = circuit.clone();
        with.order.retain(|point| !gone.points.contains(point));
        with.spurs.retain(|spur| !gone.points.contains(&spur.point) && !gone.holds(&spur.from));
        with.pins.retain(|pin| !gone.holds(&pin.from) && !gone.holds(&pin.to));
        with.board = with.board.filter(|board| !gone.boards.contains(board));
        if with != *circuit {
            edits.push(Change::<CircuitId, Circuit>::Put(*id, with).into());
        }
    }
    edits
}
