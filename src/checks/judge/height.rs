//! Heights of sockets, switches and boards.
//!
//! **Looks at** the height of each box above its floor. **Matters** because
//! people must reach it, and a plug must come out. **Example:** a switch at
//! 1400 mm. **Remedy:** move it. **Source:** table `height`; for a rewire
//! mostly guidance.

use super::super::context::House;
use crate::plan::{End, Family, Finding, Place, PointKind, Severity, Subject};
use crate::rules::Millimetres;
use crate::rules::words::HeightOf;
use crate::units::Mm;

const CODE: &str = "height";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    for (id, point) in &house.plan.points {
        if let (Some(Place::Wall(on)), Some(kind)) = (point.place, height_of(point.kind)) {
            findings.extend(judge_one(house, End::Point(*id), kind, on.height));
        }
    }
    for (id, board) in &house.plan.boards {
        if let Some(Place::Wall(on)) = board.place {
            findings.extend(judge_one(house, End::Board(*id), HeightOf::Board, on.height));
        }
    }
}

fn judge_one(house: &House<'_>, end: End, kind: HeightOf, height: Mm) -> Option<Finding> {
    let row = house.tables().height.row(kind).ok()?;
    let least = row.least.map_or(f64::NEG_INFINITY, Millimetres::exact);
    let most = row.most.map_or(f64::INFINITY, Millimetres::exact);
    let (how, bound) = match height.to_f64() {
        low if low < least => ("low", least),
        high if high > most => ("high", most),
        _ => return None,
    };
    let subject = match end {
        End::Board(id) => Subject::Board(id),
        End::Point(id) => Subject::Point(id),
    };
    let limit = match (least.is_finite(), most.is_finite()) {
        (true, true) => format!("{least} to {most} mm"),
        (true, false) => format!("at least {least} mm"),
        _ => format!("at most {most} mm"),
    };
    let message = format!("{} is set {how}", house.label(end));
    let remedy = format!("set it at {bound} mm, unless there is a reason");
    let mut finding = Finding::new(CODE, Severity::Warning, subject, message, remedy).against(
        height.to_string(),
        limit,
        row.credit(),
    );
    finding.place = house.place(end);
    Some(finding)
}

const fn height_of(kind: PointKind) -> Option<HeightOf> {
    match (kind.family(), kind) {
        (_, PointKind::PullCord) => None,
        (Family::Sockets, _) => Some(HeightOf::Socket),
        (Family::Switches, _) => Some(HeightOf::Switch),
        _ => None,
    }
}
