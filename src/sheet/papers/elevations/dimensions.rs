//! Running figures under a wall, from the corner at its left.

use kurbo::{Point, Vec2};

use crate::sheet::house::figure;
use crate::sheet::lettering::Lettering;
use crate::sheet::scene::{Anchor, Item, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
use crate::units::Mm;

/// From one figure to the next, mm: as wide as a line of lettering.
const STEP: f64 = 3.3;

/// Ticks at these stations (mm of wall) and their figures, spread so that none
/// runs into the next.
pub(super) fn below(stations: &[f64], long: f64, per: f64) -> Vec<Item> {
    let mut stations: Vec<i64> = stations
        .iter()
        .filter_map(|at| Mm::from_f64(at.clamp(0.0, long)).ok())
        .map(Mm::get)
        .collect();
    stations.sort_unstable();
    stations.dedup_by(|a, b| *a - *b < 2);
    let places: Vec<f64> = stations.iter().map(|at| Mm::new(*at).to_f64() * per).collect();
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
