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
    let (mut items, mut names) = (Vec::new(), Vec::new());
    let stretches = trace.stretches();
    for (first, last) in &stretches {
        let pieces = &trace.pieces[*first..=*last];
        let Some(plane) = pieces[0].segment.plane else { continue };
        let x0 = pieces[0].from.x;
        let x1 = pieces[pieces.len() - 1].to.x;
        match plane {
            Plane::Wall(_) => {
                let (ground, name) = wall(plan, trace, pieces, (x0 - BESIDE, x1 + BESIDE));
                items.extend(ground);
                names.extend(name);
            }
            Plane::Void(id) => {
                let Some(void) = plan.voids.get(&id) else { continue };
                let name = super::surrounding_name(plan, &pieces[0]);
                let note = format!("{name}, cable at {}", crate::wording::metres(void.z));
                let lowest = floors(plan, trace).into_iter().min();
                let below = lowest.is_some_and(|floor| void.z < floor);
                let y = -void.z.to_f64() * PER;
                items.extend(band(y, x0, x1));
                // Walls that go up from it leave room beside them only.
                let neighbour = |at: Option<usize>| at.and_then(|at| trace.pieces.get(at));
                let before = neighbour(first.checked_sub(1)).is_some_and(|one| one.from.y < y);
                let after = neighbour(Some(last + 1)).is_some_and(|one| one.to.y < y);
                let beside = match (before, after) {
                    (true, false) => (x0 + BESIDE + 1.0, Anchor::Start),
                    (false, true) => (x1 - BESIDE - 1.0, Anchor::End),
                    _ => (f64::midpoint(x0, x1), Anchor::Middle),
                };
                let beside = if below { (f64::midpoint(x0, x1), Anchor::Middle) } else { beside };
                names.extend(band_name(y, (x1 - x0).max(24.0), &note, below, beside));
            }
        }
    }
    // Over all grounds.
    items.extend(names);
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

/// Whether a leg passes through a void over this ceiling.
fn goes_over(plan: &Plan, trace: &Trace<'_>, ceiling: Mm) -> bool {
    trace.pieces.iter().any(|piece| match piece.segment.plane {
        Some(Plane::Void(id)) => plan.voids.get(&id).is_some_and(|void| void.z >= ceiling),
        _ => false,
    })
}

/// A wall as a ground, and its name under it; over it where the leg leaves
/// through its foot, beside it where it leaves both ways.
fn wall(
    plan: &Plan,
    trace: &Trace<'_>,
    pieces: &[Piece<'_>],
    (x0, x1): (f64, f64),
) -> (Vec<Item>, Vec<Item>) {
    let id = pieces.iter().find_map(Piece::wall);
    let Some(level) =
        id.and_then(|id| plan.walls.get(&id)).and_then(|wall| plan.levels.get(&wall.level))
    else {
        return (Vec::new(), Vec::new());
    };
    let (floor, ceiling) = (-level.floor.to_f64() * PER, -level.ceiling().to_f64() * PER);
    let ground = Rect::new(x0, ceiling, x1, floor);
    let thin = Stroke::solid(Ink::GREY, 0.25);
    let items: Vec<Item> = vec![
        Mark::area(pen::rect(ground), Ink::PALE_GREY).into(),
        Mark::line(pen::line((x0, floor), (x1, floor)), Stroke::solid(Ink::BLACK, 0.5)).into(),
        Mark::line(pen::line((x0, ceiling), (x1, ceiling)), thin).into(),
    ];
    let name = super::surrounding_name(plan, &pieces[0]);
    let lines = wrap(&name, (x1 - x0).max(20.0), Lettering::Note, Weight::Regular);
    let mut y = floor + 3.8;
    let (mut x, mut anchor) = (f64::midpoint(x0, x1), Anchor::Middle);
    let under = goes_under(plan, trace, level.floor);
    if under && goes_over(plan, trace, level.ceiling()) {
        (x, y, anchor) = (x1 + 1.0, f64::midpoint(floor, ceiling), Anchor::Start);
    } else if under {
        y = ceiling - 1.4 - lines.iter().skip(1).map(|_| 3.8).sum::<f64>();
    }
    let names = lines.into_iter().map(|line| {
        let text = Text::new(line, (x, y), Lettering::Note).anchored(anchor);
        y += 3.8;
        text.inked(Ink::DARK_GREY).into()
    });
    (items, names.collect())
}

/// A void: dashed lines above and below the cable.
fn band(y: f64, x0: f64, x1: f64) -> Vec<Item> {
    let dashed = Stroke { ink: Ink::GREY, width: 0.25, pattern: LinePattern::Dashed };
    [-5.4, 4.6]
        .into_iter()
        .map(|aside| Mark::line(pen::line((x0, y + aside), (x1, y + aside)), dashed).into())
        .collect()
}

/// The name of a void over or under its dashed lines.
fn band_name(y: f64, width: f64, name: &str, below: bool, (x, anchor): (f64, Anchor)) -> Vec<Item> {
    let lines = wrap(name, width, Lettering::Note, Weight::Regular);
    let mut at = y - 7.0;
    if below {
        at = y + 8.4 + lines.iter().skip(1).map(|_| 3.8).sum::<f64>();
    }
    let names = lines.iter().rev().map(|line| {
        let text = Text::new(line, (x, at), Lettering::Note).anchored(anchor);
        at -= 3.8;
        text.inked(Ink::DARK_GREY).into()
    });
    names.collect()
}
