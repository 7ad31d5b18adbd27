//! Corners that do not meet.

use super::super::{Finding, OpenCorner, Severity, Subject, open_corners};
use super::Drawing;
use crate::units::Mm;

pub(super) fn review(drawing: &Drawing<'_>, findings: &mut Vec<Finding>) {
    findings.extend(open_corners(drawing.plan).iter().map(|corner| finding(drawing, corner)));
}

fn finding(drawing: &Drawing<'_>, corner: &OpenCorner) -> Finding {
    let (wall, other) = (corner.wall.0, corner.other);
    let (message, remedy) = match corner.other_end {
        Some(_) => (
            format!("walls {wall} and {other} do not meet: their corner is open by {}", corner.gap),
            format!("close it: {wall} and {other} run on to where their middles cross"),
        ),
        None => (
            format!("wall {wall} ends {} before wall {other}", corner.gap),
            format!("close it: {wall} runs on to the middle of {other}"),
        ),
    };
    let floor = drawing.plan.levels.get(&corner.level).map_or(Mm::ZERO, |level| level.floor);
    Finding::new("open-corner", Severity::Warning, Subject::Wall(wall), message, remedy)
        .at(corner.middle.at_height(floor))
        .against(corner.gap.to_string(), "0 mm", "")
}
