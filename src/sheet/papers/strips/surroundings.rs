//! What lies around a leg: walls as grey grounds, voids between dashed lines,
//! each named.

use kurbo::Rect;

use super::trace::{PER, Piece, Trace};
use crate::plan::{Plan, Plane};
use crate::sheet::lettering::{Lettering, Weight, wrap};
use crate::sheet::scene::{Anchor, Item, LinePattern, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
use crate::units::Mm;

/// How far a wall reaches beside an upright cable, mm on paper.
const BESIDE: f64 = 5.8;

/// Grounds and names, to lie beneath the cable.
pub(super) fn draw(plan: &Plan, trace: &Trace<'_>) -> Vec<Item> {
    let mut items = Vec::new();
    let stretches = trace.stretches();
    for (first, last) in &stretches {
        let pieces = &trace.pieces[*first..=*last];
        let Some(plane) = pieces[0].segment.plane else { continue };
        let x0 = pieces[0].from.x;
        let x1 = pieces[pieces.len() - 1].to.x;
        match plane {
            Plane::Wall(_) => {
                items.extend(wall(plan, trace, pieces, (x0 - BESIDE, x1 + BESIDE)));
            }
            Plane::Void(id) => {
                let Some(void) = plan.voids.get(&id) else { continue };
                let name = super::surrounding_name(plan, &pieces[0]);
                let note = format!("{name}, cable at {}", crate::sheet::house::metres(void.z));
                let lowest = floors(plan, trace).into_iter().min();
                let below = lowest.is_some_and(|floor| void.z < floor);
                items.extend(band(-void.z.to_f64() * PER, x0, x1, &note, below));
            }
        }
    }
    items
}

/// The floors of the walls that a leg passes.
fn floors(plan: &Plan, trace: &Trace<'_>) -> Vec<Mm> {
    let walls = trace.pieces.iter().filter_map(Piece::wall);
    let levels = walls.filter_map(|id| plan.levels.get(&plan.walls.get(&id)?.level));
    levels.map(|level| level.floor).collect()
}

/// Whether a leg passes through a void under this floor.
fn goes_under(plan: &Plan, trace: &Trace<'_>, floor: Mm) -> bool {
    trace.pieces.iter().any(|piece| match piece.segment.plane {
        Some(Plane::Void(id)) => plan.voids.get(&id).is_some_and(|void| void.z < floor),
        _ => false,
    })
}

/// A wall as a ground with its name under it, or over it where the leg leaves
/// through its foot.
fn wall(plan: &Plan, trace: &Trace<'_>, pieces: &[Piece<'_>], (x0, x1): (f64, f64)) -> Vec<Item> {
    let id = pieces.iter().find_map(Piece::wall);
    let Some(level) =
        id.and_then(|id| plan.walls.get(&id)).and_then(|wall| plan.levels.get(&wall.level))
    else {
        return Vec::new();
    };
    let (floor, ceiling) = (-level.floor.to_f64() * PER, -level.ceiling().to_f64() * PER);
    let ground = Rect::new(x0, ceiling, x1, floor);
    let thin = Stroke::solid(Ink::GREY, 0.25);
    let mut items: Vec<Item> = vec![
        Mark::area(pen::rect(ground), Ink::PALE_GREY).into(),
        Mark::line(pen::line((x0, floor), (x1, floor)), Stroke::solid(Ink::BLACK, 0.5)).into(),
        Mark::line(pen::line((x0, ceiling), (x1, ceiling)), thin).into(),
    ];
    let name = super::surrounding_name(plan, &pieces[0]);
    let lines = wrap(&name, (x1 - x0).max(20.0), Lettering::Note, Weight::Regular);
    let mut y = floor + 3.8;
    if goes_under(plan, trace, level.floor) {
        y = ceiling - 1.4 - lines.iter().skip(1).map(|_| 3.8).sum::<f64>();
    }
    for line in lines {
        let at = (f64::midpoint(x0, x1), y);
        let text = Text::new(line, at, Lettering::Note).anchored(Anchor::Middle);
        items.push(text.inked(Ink::DARK_GREY).into());
        y += 3.8;
    }
    items
}

/// A void: dashed lines above and below the cable, its name over or under them.
fn band(y: f64, x0: f64, x1: f64, name: &str, named_below: bool) -> Vec<Item> {
    let dashed = Stroke { ink: Ink::GREY, width: 0.25, pattern: LinePattern::Dashed };
    let mut items: Vec<Item> = [-5.4, 4.6]
        .into_iter()
        .map(|aside| Mark::line(pen::line((x0, y + aside), (x1, y + aside)), dashed).into())
        .collect();
    let lines = wrap(name, (x1 - x0).max(24.0), Lettering::Note, Weight::Regular);
    let mut at = y - 7.0;
    if named_below {
        at = y + 8.4 + lines.iter().skip(1).map(|_| 3.8).sum::<f64>();
    }
    for line in lines.iter().rev() {
        let text = Text::new(line, (f64::midpoint(x0, x1), at), Lettering::Note);
        items.push(text.anchored(Anchor::Middle).inked(Ink::DARK_GREY).into());
        at -= 3.8;
    }
    items
}
