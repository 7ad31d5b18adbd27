//! The openings of a layout, kept within their walls.

use super::form::{FormLevel, FormOpening};
use super::{LayoutReport, NoteKind, next_id};
use crate::plan::{Face, Hinge, Opening, OpeningId, OpeningKind, Plan, WallId};
use crate::units::{Mm, Point2};

/// What is left of an opening after clipping is dropped below this, mm.
const SIZE_MIN: Mm = Mm::new(50);

/// Adds the openings of a level into the walls that its wall numbers became.
pub(super) fn add(
    plan: &mut Plan,
    walls: &[Option<WallId>],
    level: &FormLevel,
    report: &mut LayoutReport,
) {
    for opening in &level.openings {
        let part = opening.part.clone();
        let Some(wall) = walls.get(opening.wall) else {
            report.note(NoteKind::LeftOut, part, "its wall is not in the layout");
            continue;
        };
        let Some(wall) = *wall else {
            report.note(NoteKind::LeftOut, part, "its wall is left out");
            continue;
        };
        match fitted(plan, wall, opening) {
            Some(fitted) => {
                if fitted.width < opening.width || fitted.head < opening.head {
                    let message = format!("clipped to {} by its wall", size(&fitted));
                    report.note(NoteKind::Changed, part, message);
                }
                let id = OpeningId(next_id(plan));
                plan.openings.insert(id, fitted);
            }
            None => report.note(NoteKind::LeftOut, part, "it lies outside its wall"),
        }
    }
}

fn size(opening: &Opening) -> String {
    format!("{} × {}", opening.width, opening.head - opening.sill)
}

/// An opening at its place along its wall, cut to the wall's length and
/// height. None: too little of it is left.
fn fitted(plan: &Plan, wall: WallId, opening: &FormOpening) -> Option<Opening> {
    let drawn = plan.walls.get(&wall)?;
    let height = plan.levels.get(&drawn.level)?.height;
    let (ux, uy) = drawn.direction();
    let step = opening.at - drawn.a;
    let along = step.x.to_f64() * ux + step.y.to_f64() * uy;
    let half = opening.width.to_f64() / 2.0;
    // The wall's last whole millimetre: an oblique wall has no whole length.
    let end = Mm::from_f64(libm::floor(drawn.length())).ok()?;
    let from = Mm::from_f64(along - half).ok()?;
    let to = (from + opening.width).min(end);
    let from = from.max(Mm::ZERO);
    let (sill, head) = (opening.sill.max(Mm::ZERO), opening.head.min(height));
    let (width, tall) = (to - from, head - sill);
    let kind = kind(opening);
    let hinge = opening.hinge.filter(|_| kind == OpeningKind::Door).map(|hinge| {
        let far = |to: Point2| ((to.x - drawn.a.x).to_f64(), (to.y - drawn.a.y).to_f64());
        let (at, opens) = (far(hinge.at), far(hinge.opens));
        let on_left = ux * opens.1 - uy * opens.0 > 0.0;
        let opens = if on_left { Face::Left } else { Face::Right };
        Hinge { at_near_edge: at.0 * ux + at.1 * uy < along, opens }
    });
    (width >= SIZE_MIN && tall >= SIZE_MIN).then_some(Opening {
        wall,
        kind,
        from,
        width,
        sill,
        head,
        hinge,
    })
}

fn kind(opening: &FormOpening) -> OpeningKind {
    match (opening.kind.as_str(), opening.subtype.as_str()) {
        (_, "sliding_door") => OpeningKind::SlidingDoor,
        ("door", _) => OpeningKind::Door,
        ("window", _) => OpeningKind::Window,
        _ => OpeningKind::Plain,
    }
}
