//! Doors and windows that slide along their walls and change their widths.

use kurbo::Point;

use crate::plan::{Face, Hinge, Opening, OpeningId, OpeningKind, Plan};
use crate::session::ground::{kit, near};
use crate::units::Mm;

/// Steps of distances and widths, mm.
const STEP: f64 = 10.0;
/// The narrowest opening, mm.
const LEAST: f64 = 200.0;
/// What is left of a wall beside an opening, mm.
const CLEAR: f64 = 50.0;

/// An opening with the middle of its width near a place: along its own wall,
/// or on another one that the place is clearly at. A typed length is how far
/// its near edge is from the wall's end `a`.
pub(crate) fn slid(
    plan: &Plan,
    id: OpeningId,
    at: Point,
    reach: f64,
    typed: Option<Mm>,
) -> Result<(Opening, &'static str), String> {
    let opening = plan.openings.get(&id).ok_or("the opening is gone")?;
    let own = plan.walls.get(&opening.wall).ok_or("its wall is gone")?;
    let here = near::on(own, opening.wall, at).ok_or("its wall has no length")?;
    let other = near::wall(plan, own.level, at, reach.max(150.0));
    let on = match other {
        Some(other) if other.wall != opening.wall && here.away > 600.0 && typed.is_none() => other,
        _ => here,
    };
    let wall = plan.walls.get(&on.wall).ok_or("the wall is gone")?;
    let (width, length) = (opening.width.to_f64(), wall.length());
    let most = length - width;
    if most < 0.0 {
        return Err("that wall is too short for it".to_owned());
    }
    if let Some(from) = typed {
        if from.to_f64() > most {
            return Err("the wall ends before that".to_owned());
        }
        return Ok((Opening { from, ..opening.clone() }, "as typed"));
    }
    let wanted = on.along - width / 2.0;
    let (mut from, mut why) = (libm::round(wanted / STEP) * STEP, "");
    let (low, high) = free_span(plan, id, on.wall, on.along, length);
    let half = low.midpoint(high) - width / 2.0;
    if (half - wanted).abs() <= reach && high - low >= width {
        (from, why) = (libm::round(half), "half-way");
    }
    let clear = CLEAR.min(most / 2.0);
    let from = from.clamp(clear, most - clear);
    let from = Mm::from_f64(from).unwrap_or(opening.from);
    Ok((Opening { wall: on.wall, from, ..opening.clone() }, why))
}

/// The part of a wall around a place that other openings leave.
fn free_span(
    plan: &Plan,
    id: OpeningId,
    wall: crate::plan::WallId,
    along: f64,
    length: f64,
) -> (f64, f64) {
    let others = plan.openings.iter().filter(|(other, one)| **other != id && one.wall == wall);
    others.fold((0.0, length), |(low, high), (_, one)| {
        let (from, to) = (one.from.to_f64(), (one.from + one.width).to_f64());
        if to <= along { (to.max(low), high) } else { (low, from.min(high).max(along)) }
    })
}

/// An opening with one of its edges elsewhere, the other one where it is. A
/// typed length is the width.
pub(crate) fn stretched(
    plan: &Plan,
    id: OpeningId,
    near_edge: bool,
    at: Point,
    typed: Option<Mm>,
) -> Result<Opening, String> {
    let opening = plan.openings.get(&id).ok_or("the opening is gone")?;
    let wall = plan.walls.get(&opening.wall).ok_or("its wall is gone")?;
    let on = near::on(wall, opening.wall, at).ok_or("its wall has no length")?;
    let (from, to) = (opening.from.to_f64(), (opening.from + opening.width).to_f64());
    let pulled = if near_edge { to - on.along } else { on.along - from };
    let room = if near_edge { to } else { libm::floor(wall.length()) - from };
    let width = match typed {
        Some(width) if width.to_f64() > room => {
            return Err("the wall ends before that".to_owned());
        }
        Some(width) => width.to_f64(),
        None => (libm::round(pulled / STEP) * STEP).max(LEAST).min(room),
    };
    let width = Mm::from_f64(width).unwrap_or(opening.width);
    let from = if near_edge { opening.from + opening.width - width } else { opening.from };
    Ok(Opening { from, width, ..opening.clone() })
}

/// How a door is hung, turned to the wall's other face or with its handle on
/// the other side. None for what is not hung.
pub(crate) fn hung(opening: &Opening, other_face: bool) -> Option<Opening> {
    if opening.kind != OpeningKind::Door {
        return None;
    }
    let hinge = opening.hinge.unwrap_or(Hinge { at_near_edge: true, opens: Face::Left });
    let hinge = if other_face {
        Hinge { opens: kit::other(hinge.opens), ..hinge }
    } else {
        Hinge { at_near_edge: !hinge.at_near_edge, ..hinge }
    };
    Some(Opening { hinge: Some(hinge), ..opening.clone() })
}
