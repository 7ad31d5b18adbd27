//! Running figures under a wall, from the corner at its left, and the numbers
//! of legs over it.

use kurbo::{Point, Vec2};

use crate::sheet::lettering::Lettering;
use crate::sheet::scene::{Anchor, Item, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
use crate::units::Mm;
use crate::wording::figure;

/// From one figure to the next, mm: as wide as a line of lettering.
const STEP: f64 = 3.3;

/// Ticks at these stations (mm of wall) within a part of it and their figures,
/// spread so that none runs into the next.
pub(super) fn below(stations: &[f64], part: (f64, f64), per: f64) -> Vec<Item> {
    let mut stations: Vec<i64> = stations
        .iter()
        .filter_map(|at| Mm::from_f64(at.clamp(part.0, part.1)).ok())
        .map(Mm::get)
        .collect();
    stations.sort_unstable();
    stations.dedup_by(|a, b| *a - *b < 2);
    let places: Vec<f64> =
        stations.iter().map(|at| (Mm::new(*at).to_f64() - part.0) * per).collect();
    let stroke = Stroke::solid(Ink::BLACK, 0.18);
    let mut items: Vec<Item> = Vec::new();
    for ((station, at), spread) in stations.iter().zip(&places).zip(spread(&places)) {
        let bend = Point::new(*at, 2.0);
        let foot = Point::new(spread, 4.4);
        let path = pen::polyline(&[Point::new(*at, 0.4), bend, foot]);
        items.push(Mark::line(path, stroke).into());
        let text =
            Text::new(figure(Mm::new(*station)), foot + Vec2::new(0.9, 0.6), Lettering::Note);
        items.push(Text { turn: -90.0, anchor: Anchor::End, ..text }.into());
    }
    items
}

/// A line whose legs are named over the wall.
pub(super) struct Named {
    /// How far from the left, mm on paper.
    pub(super) x: f64,
    /// Where it is met: at the ceiling, or with a dot inside the wall.
    pub(super) y: f64,
    /// What stands there.
    pub(super) says: String,
}

/// The numbers of legs over a ceiling at height `y` on paper, spread so that
/// none runs into the next, each with a line down to its cable.
pub(super) fn above(mut named: Vec<Named>, y: f64) -> Vec<Item> {
    named.sort_by(|a, b| a.x.total_cmp(&b.x).then(a.says.cmp(&b.says)));
    let places: Vec<f64> = named.iter().map(|one| one.x).collect();
    let stroke = Stroke::solid(Ink::DARK_GREY, 0.18);
    let mut items: Vec<Item> = Vec::new();
    for (one, spread) in named.iter().zip(spread(&places)) {
        let foot = Point::new(spread, y - 3.6);
        let bend = Point::new(one.x, y - 1.2);
        let path = pen::polyline(&[Point::new(one.x, one.y), bend, foot]);
        items.push(Mark::line(path, stroke).into());
        if one.y > y + 0.1 {
            let dot = pen::circle(Point::new(one.x, one.y), 0.45);
            items.push(Mark::area(dot, Ink::DARK_GREY).into());
        }
        let text = Text::new(&one.says, foot + Vec2::new(0.9, -0.6), Lettering::Note).bold();
        items.push(Text { turn: -90.0, ..text }.into());
    }
    items
}

/// Places at least a step apart, as near to where they belong as they go.
fn spread(places: &[f64]) -> Vec<f64> {
    let mut spread: Vec<f64> = Vec::with_capacity(places.len());
    for place in places {
        let least = spread.last().map_or(f64::MIN, |last| last + STEP);
        spread.push(place.max(least));
    }
    // Push back from the far end what was pushed too far.
    let end = places.last().copied().unwrap_or(0.0) + 3.0;
    let mut most = end;
    for place in spread.iter_mut().rev() {
        *place = place.min(most);
        most = *place - STEP;
    }
    spread
}
