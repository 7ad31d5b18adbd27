//! Walls.

use super::super::{Finding, Severity, Subject};
use super::Drawing;
use crate::units::Mm;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    for (id, wall) in &drawing.plan.walls {
        let floor = drawing.plan.levels.get(&wall.level).map_or(Mm::ZERO, |level| level.floor);
        if wall.a == wall.b {
            findings.push(
                Finding::new(
                    "wall-without-length",
                    Severity::Fault,
                    Subject::Wall(*id),
                    format!("wall {id} has no length"),
                    "move one of its ends, or remove it",
                )
                .at(wall.a.at_height(floor)),
            );
        }
        if wall.thickness <= Mm::ZERO {
            findings.push(
                Finding::new(
                    "wall-without-thickness",
                    Severity::Fault,
                    Subject::Wall(*id),
                    format!("wall {id} has no thickness"),
                    "say how thick it is with its linings",
                )
                .at(wall.a.at_height(floor))
                .against(wall.thickness.to_string(), "more than 0 mm", ""),
            );
        }
    }
}
