//! Where cables meet their boxes: the last bit from the wall to the symbol, the
//! tail left at the box, the drip loop on a wet face.

use kurbo::{BezPath, Point, Vec2};

use super::points::Stand;
use super::runs::{Traced, subject};
use crate::plan::End;
use crate::sheet::scene::{Group, Item, Layer, Mark, Stroke};
use crate::sheet::{Ink, pen};

/// Between cable ends and symbols: one line to a point, one for each cable to
/// a board.
pub(super) fn lead_ins(traced: &[Traced<'_>], stands: &[Stand]) -> Vec<Item> {
    let mut items = Vec::new();
    let mut drawn: Vec<(End, Point)> = Vec::new();
    for one in traced {
        let stroke = Stroke::solid(one.ink(), 0.25);
        let leg = one.strand.leg;
        for end in [leg.from, leg.to] {
            let Some(stand) = stands.iter().find(|stand| stand.end == end) else { continue };
            let Some(from) = cable_end(one, stand) else { continue };
            if drawn.contains(&(end, from)) {
                continue;
            }
            drawn.push((end, from));
            let to =
                if matches!(end, End::Board(_)) { onto_board(stand, from) } else { stand.foot };
            if pen::length(to - from) > 0.3 {
                let line = Mark::line(pen::line(from, to), stroke).into();
                items.push(Group::of(Layer::Runs, subject(one), vec![line]).into());
            }
        }
    }
    items
}

/// Where a leg has come to lie at a stand.
fn cable_end(traced: &Traced<'_>, stand: &Stand) -> Option<Point> {
    let near = |at: &Point| pen::length(*at - stand.core) < 12.0;
    let drop = traced.strand.drops.iter().find(|drop| drop.end == Some(stand.end));
    let by_line = || {
        let ends =
            traced.strand.stretches.iter().zip(&traced.traces).flat_map(|(stretch, trace)| {
                let last = stretch.places.len() - 1;
                [(stretch.places[0], trace.corners[0]), (stretch.places[last], trace.corners[last])]
            });
        ends.filter(|(true_place, _)| pen::length(*true_place - stand.core) < 0.1)
            .map(|(_, lane)| lane)
            .next()
    };
    drop.map(|drop| traced.drop_place(drop)).or_else(by_line).filter(near)
}

/// Cables enter a board side by side.
fn onto_board(stand: &Stand, from: Point) -> Point {
    let across = pen::square_to(stand.into);
    let aside = (from - stand.foot).dot(across).clamp(-4.0, 4.0);
    stand.foot + across * aside
}

/// The tail left at a box: a small loop beside the symbol's foot.
pub(super) fn tail(stand: &Stand) -> Item {
    let across = pen::square_to(stand.into);
    let centre = stand.foot + across * 1.9 + stand.into * 0.95;
    let mut path =
        pen::line(stand.foot + across * 0.4 + stand.into * 0.2, centre - stand.into * 0.7);
    let start = libm::atan2(-stand.into.y, -stand.into.x);
    let turn = if across.cross(stand.into) > 0.0 { 1.0 } else { -1.0 };
    path.extend(arc_on(centre, start, turn * 1.7 * core::f64::consts::PI));
    Mark::line(path, Stroke::solid(Ink::DARK_GREY, 0.25)).into()
}

fn arc_on(centre: Point, start: f64, sweep: f64) -> BezPath {
    pen::arc(centre, 0.7, start, sweep)
}

/// A drip loop: the dip below the entry, drawn as a U beside the stem.
pub(super) fn drip_loop(stand: &Stand) -> Item {
    let across = pen::square_to(stand.into) * -1.0;
    let at = |aside: f64, out: f64| stand.foot + across * aside + stand.into * out;
    let mut path = BezPath::new();
    path.move_to(at(0.9, 0.25));
    path.line_to(at(0.9, 1.6));
    path.curve_to(at(0.9, 2.8), at(2.5, 2.8), at(2.5, 1.6));
    path.line_to(at(2.5, 0.25));
    Mark::line(path, Stroke::solid(Ink::BLACK, 0.35)).into()
}

/// Whether a stand's cables leave a tail or a drip loop that is drawn: boxes on
/// walls, not boards, and only where a cable is routed to them.
pub(super) fn has_cable(stand: &Stand, traced: &[Traced<'_>]) -> bool {
    stand.on_wall
        && matches!(stand.end, End::Point(_))
        && traced
            .iter()
            .any(|one| one.strand.leg.from == stand.end || one.strand.leg.to == stand.end)
}

/// A stand for the legend, where there is no plan.
pub(super) fn loops_for_legend(at: Point) -> (Item, Item) {
    let mut stand = Stand::bare(at);
    (stand.into, stand.on_wall, stand.wet) = (Vec2::new(0.0, 1.0), true, true);
    (tail(&stand), drip_loop(&stand))
}
