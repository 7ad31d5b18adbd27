//! Switches: a small circle on the wall with a stroke that ends in a tick; one
//! stroke for one-way, two opposite for two-way, four for intermediate.

use kurbo::{BezPath, Point, Vec2};

use super::{Duty, M, Symbol, gang_figure, lines, shape};
use crate::sheet::pen;

/// The circle's radius.
const RADIUS: f64 = 0.4 * M;
/// The centre of the circle: it touches the wall.
const CENTRE: Point = Point::new(0.0, RADIUS);
/// The slant of a stroke from the wall, degrees.
const SLANT: f64 = 60.0;

/// A switch for lights.
pub(super) fn switch(duty: Duty, gangs: u8) -> Symbol {
    let mut items = vec![lines(strokes(duty, 1)), circle(duty)];
    items.extend(gang_figure(gangs, gangs_beside(duty)));
    Symbol { items, centred: false }
}

/// One that also dims: an arrow lies across the stroke.
pub(super) fn dimmer(duty: Duty, gangs: u8) -> Symbol {
    let mut items = vec![lines(strokes(duty, 1)), circle(duty)];
    let middle = centre(duty) + direction(SLANT) * (RADIUS + 1.0 * M);
    let across = pen::square_to(direction(SLANT)) * (0.6 * M);
    items.push(lines(pen::arrow(middle + across, middle - across, 0.4 * M)));
    items.extend(gang_figure(gangs, gangs_beside(duty)));
    Symbol { items, centred: false }
}

/// One pulled by a cord: the stroke ends in an arrow that hangs down.
pub(super) fn pull_cord(duty: Duty) -> Symbol {
    let mut path = strokes(duty, 0);
    let end = centre(duty) + direction(SLANT) * (RADIUS + 1.6 * M);
    path.extend(pen::arrow(end, end + Vec2::new(0.0, 0.9 * M), 0.4 * M));
    Symbol { items: vec![lines(path), circle(duty)], centred: false }
}

/// An isolating switch, two-pole: two ticks side by side.
pub(super) fn isolator() -> Symbol {
    Symbol { items: vec![lines(strokes(Duty::OneWay, 2)), circle(Duty::OneWay)], centred: false }
}

/// Strokes below the circle need room between it and the wall.
fn centre(duty: Duty) -> Point {
    match duty {
        Duty::OneWay => CENTRE,
        _ => Point::new(0.0, 1.9 * M),
    }
}

fn circle(duty: Duty) -> super::Item {
    shape(pen::circle(centre(duty), RADIUS))
}

/// Where the figure of the gangs has room.
fn gangs_beside(duty: Duty) -> Point {
    centre(duty) + Vec2::new(-0.95 * M, 0.4 * M)
}

/// The strokes of a duty, each with so many ticks at its end.
fn strokes(duty: Duty, ticks: u8) -> BezPath {
    let slants: &[f64] = match duty {
        Duty::OneWay => &[SLANT],
        Duty::TwoWay => &[SLANT, SLANT + 180.0],
        Duty::Intermediate => &[SLANT, SLANT + 180.0, 180.0 - SLANT, -SLANT],
    };
    let mut path = BezPath::new();
    if duty != Duty::OneWay {
        path.extend(pen::line((0.0, 0.0), (0.0, 1.9 * M - RADIUS)));
    }
    for slant in slants {
        let reach = if duty == Duty::OneWay { 1.8 * M } else { 1.2 * M };
        path.extend(stroke(centre(duty), *slant, reach, ticks));
    }
    path
}

/// One stroke, ticks turned the same way round.
fn stroke(centre: Point, slant: f64, reach: f64, ticks: u8) -> BezPath {
    let along = direction(slant);
    let tick = pen::square_to(along) * (-0.5 * M);
    let end = centre + along * (RADIUS + reach);
    let mut path = pen::line(centre + along * RADIUS, end);
    for index in 0..ticks {
        let foot = end - along * (f64::from(index) * 0.4 * M);
        path.extend(pen::line(foot, foot + tick));
    }
    path
}

fn direction(degrees: f64) -> Vec2 {
    let radians = degrees.to_radians();
    Vec2::new(libm::cos(radians), libm::sin(radians))
}
