//! The floor sheets of a set: all circuits of a level, or each by itself.

use std::fmt::Write as _;

use super::drawing::Drawing;
use super::names::file_part;
use super::{Measured, Paper, Sheet};
use crate::plan::{CircuitId, LevelId, Plane};
use crate::sheet::FloorOptions;

/// Every level: with all its circuits, or `alone` with each that has something
/// there. What cannot be drawn is said, not skipped.
pub(super) fn floor_sheets(drawing: &mut Drawing<'_>, paper: Paper, alone: bool) -> Vec<Sheet> {
    let plan = drawing.job.plan;
    let mut sheets = Vec::new();
    for level in plan.levels.keys() {
        let circuits: Vec<Option<CircuitId>> =
            if alone { plan.circuits.keys().map(|id| Some(*id)).collect() } else { vec![None] };
        for circuit in circuits {
            if drawing.watch.is_stopped() {
                return sheets;
            }
            if circuit.is_none_or(|id| is_on(drawing.job, id, *level)) {
                sheets.extend(floor_sheet(drawing, paper, *level, circuit));
            }
        }
    }
    sheets
}

fn floor_sheet(
    drawing: &mut Drawing<'_>,
    paper: Paper,
    level: LevelId,
    circuit: Option<CircuitId>,
) -> Option<Sheet> {
    let options = FloorOptions { circuit, ..FloorOptions::of(level) };
    match drawing.floors.sheet(&options) {
        Ok(scene) => {
            let circuit = circuit.and_then(|id| drawing.job.plan.circuits.get(&id));
            let number = circuit.map_or_else(String::new, |circuit| {
                format!("-{}", file_part(&drawing.house.marks.circuit(circuit)))
            });
            Some(Sheet { paper, name: format!("floor-{level}{number}"), scene })
        }
        Err(error) => {
            let _ = writeln!(drawing.said, "not drawn: {error}");
            None
        }
    }
}

/// Whether anything of a circuit is on a level: a point, or cable in its walls
/// or above it.
fn is_on(job: Measured<'_>, circuit: CircuitId, level: LevelId) -> bool {
    let plan = job.plan;
    let points = plan.points.values().filter(|point| point.circuit == Some(circuit));
    let mut places = points.filter_map(|point| point.place);
    let above = plan.levels.get(&level).map_or(&[][..], |level| &level.above);
    let legs = job.runs.circuits.get(&circuit).into_iter().flat_map(|run| &run.legs);
    let mut planes = legs.flat_map(|leg| &leg.route.segments).filter_map(|one| one.plane);
    places.any(|place| plan.level_of(&place) == Some(level))
        || planes.any(|plane| match plane {
            Plane::Wall(id) => plan.walls.get(&id).is_some_and(|wall| wall.level == level),
            Plane::Void(id) => above.contains(&id),
        })
}
