//! Shapes of rooms.

use crate::plan::outline_holds;
use crate::units::{Mm, Point2};

/// The area inside an outline, m².
pub(super) fn area_m2(outline: &[Point2]) -> f64 {
    let mut twice = 0.0;
    for (index, from) in outline.iter().enumerate() {
        let to = outline[(index + 1) % outline.len()];
        twice += from.x.metres() * to.y.metres() - to.x.metres() * from.y.metres();
    }
    (twice / 2.0).abs()
}

/// The least and largest coordinates: x0, y0, x1, y1.
pub(super) fn bounds(outline: &[Point2]) -> Option<[f64; 4]> {
    let first = outline.first()?;
    let mut bounds = [first.x.to_f64(), first.y.to_f64(), first.x.to_f64(), first.y.to_f64()];
    for corner in outline {
        let (x, y) = (corner.x.to_f64(), corner.y.to_f64());
        bounds = [bounds[0].min(x), bounds[1].min(y), bounds[2].max(x), bounds[3].max(y)];
    }
    Some(bounds)
}

/// How far a place is from the nearest edge; below nothing outside.
pub(super) fn depth(outline: &[Point2], x: f64, y: f64) -> f64 {
    let mut nearest = f64::INFINITY;
    for (index, from) in outline.iter().enumerate() {
        let to = outline[(index + 1) % outline.len()];
        let (ax, ay) = (from.x.to_f64(), from.y.to_f64());
        let (dx, dy) = (to.x.to_f64() - ax, to.y.to_f64() - ay);
        let square = dx * dx + dy * dy;
        let share = if square > 0.0 { ((x - ax) * dx + (y - ay) * dy) / square } else { 0.0 };
        let share = share.clamp(0.0, 1.0);
        nearest = nearest.min(libm::hypot(x - ax - share * dx, y - ay - share * dy));
    }
    if outline_holds(outline, x, y) { nearest } else { -nearest }
}

/// A frame along the longest edge: its direction.
pub(super) fn direction(outline: &[Point2]) -> (f64, f64) {
    let mut best = (0.0, (1.0, 0.0));
    for (index, from) in outline.iter().enumerate() {
        let to = outline[(index + 1) % outline.len()];
        let length = from.distance(to);
        if length > best.0 + 1.0 {
            let (dx, dy) = ((to.x - from.x).to_f64() / length, (to.y - from.y).to_f64() / length);
            // One of the four ways of the same frame.
            let (dx, dy) = if dx.abs() >= dy.abs() { (dx, dy) } else { (dy, -dx) };
            best = (length, if dx < 0.0 { (-dx, -dy) } else { (dx, dy) });
        }
    }
    best.1
}

/// The place furthest from all edges, nearest the middle where several are.
pub(super) fn heart(outline: &[Point2]) -> Option<Point2> {
    let [x0, y0, x1, y1] = bounds(outline)?;
    let (mx, my) = (f64::midpoint(x0, x1), f64::midpoint(y0, y1));
    let mut best: Option<(f64, f64, f64)> = None;
    for i in 0..=24 {
        for j in 0..=24 {
            let (x, y) =
                (x0 + (x1 - x0) * f64::from(i) / 24.0, y0 + (y1 - y0) * f64::from(j) / 24.0);
            let worth = depth(outline, x, y) - libm::hypot(x - mx, y - my) * 0.05;
            if best.is_none_or(|best| worth > best.0 + 1e-6) {
                best = Some((worth, x, y));
            }
        }
    }
    let (_, x, y) = best?;
    place(x, y).filter(|_| outline_holds(outline, x, y))
}

/// A place to the nearest 10 mm, as people measure.
pub(super) fn place(x: f64, y: f64) -> Option<Point2> {
    let ten = |value: f64| Mm::from_f64(value / 10.0).ok().map(|value| Mm::new(value.get() * 10));
    Some(Point2 { x: ten(x)?, y: ten(y)? })
}
