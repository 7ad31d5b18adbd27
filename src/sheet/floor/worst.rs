//! Where the cable of a circuit can carry least: a grey band under its line.

use kurbo::{Point, Vec2};

use super::runs::Traced;
use super::view::View;
use crate::checks::GoverningStretch;
use crate::plan::CircuitId;
use crate::runs::Leg;
use crate::sheet::scene::{Group, Item, Layer, Mark, Stroke};
use crate::sheet::{Ink, pen};

/// How wide the band is, mm: it shows beside the line, in print too.
const BAND: f64 = 1.9;
const GROUND: Ink = Ink::of(190, 190, 190);
/// How near a stretch must lie to a line to be part of it, mm on paper.
const NEAR: f64 = 0.6;

/// Whether any of these stretches is on one of these legs.
pub(super) fn any<'a>(
    worst: &[(CircuitId, GoverningStretch)],
    mut legs: impl Iterator<Item = &'a Leg>,
) -> bool {
    legs.any(|leg| worst.iter().any(|(id, one)| *id == leg.circuit && one.leg == leg.number))
}

/// The bands of what is drawn. None where there are none.
pub(super) fn marks(
    worst: &[(CircuitId, GoverningStretch)],
    traced: &[Traced<'_>],
    view: &View,
) -> Option<Item> {
    let mut items: Vec<Item> = Vec::new();
    for (id, stretch) in worst {
        let own = traced
            .iter()
            .filter(|one| one.strand.leg.circuit == *id && one.strand.leg.number == stretch.leg);
        let (from, to) = (view.point(stretch.from.on_floor()), view.point(stretch.to.on_floor()));
        for one in own {
            match (lane(one, from), lane(one, to)) {
                (Some(from), Some(to)) if pen::length(to - from) > 1.0 => {
                    items.extend(band(from, to));
                }
                _ => items.extend(drop(one, from, stretch)),
            }
        }
    }
    (!items.is_empty()).then(|| Group::new(Layer::Runs, items).into())
}

/// A band with round ends from one place to another.
pub(super) fn band(from: Point, to: Point) -> Vec<Item> {
    vec![
        Mark::line(pen::line(from, to), Stroke::solid(GROUND, BAND)).into(),
        Mark::area(pen::circle(from, BAND / 2.0), GROUND).into(),
        Mark::area(pen::circle(to, BAND / 2.0), GROUND).into(),
    ]
}

/// Where a place on a leg has come to lie among its lanes.
fn lane(traced: &Traced<'_>, at: Point) -> Option<Point> {
    let mut best: Option<(f64, Point)> = None;
    for (stretch, trace) in traced.strand.stretches.iter().zip(&traced.traces) {
        for (place, corner) in stretch.places.windows(2).zip(trace.corners.windows(2)) {
            let along = place[1] - place[0];
            let share = ((at - place[0]).dot(along) / along.hypot2().max(1e-9)).clamp(0.0, 1.0);
            let off = pen::length(at - place[0].lerp(place[1], share));
            if off < NEAR && best.is_none_or(|(least, _)| off < least) {
                best = Some((off, corner[0].lerp(corner[1], share)));
            }
        }
    }
    best.map(|(_, at)| at)
}

/// Where it goes straight up or down: a disc under the mark of the drop.
fn drop(traced: &Traced<'_>, at: Point, stretch: &GoverningStretch) -> Option<Item> {
    let upright = stretch.from.z != stretch.to.z;
    let near = |place: &Point| pen::length(*place - at) < 2.0 * NEAR;
    let drops = traced.strand.drops.iter().filter(|one| upright && near(&one.at));
    let place = drops.map(|one| traced.drop_place(one)).next()?;
    Some(Mark::area(pen::circle(place + Vec2::ZERO, BAND * 0.7), GROUND).into())
}
