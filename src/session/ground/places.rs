//! Places of the model in floating point, and back.

use kurbo::{Point, Rect};

use crate::units::{Mm, Point2};

/// A place of the model in floating point.
pub const fn exact(at: Point2) -> Point {
    Point::new(at.x.to_f64(), at.y.to_f64())
}

/// The nearest place of the model; beyond its bounds, its edge.
pub fn rounded(at: Point) -> Point2 {
    let edge = Mm::COORDINATE_MAX.to_f64();
    let whole = |value: f64| Mm::from_f64(value.clamp(-edge, edge)).unwrap_or(Mm::ZERO);
    Point2 { x: whole(at.x), y: whole(at.y) }
}

/// The box around an outline, mm.
pub fn around(outline: &[Point2]) -> Rect {
    let boxes = outline.iter().map(|at| Rect::from_points(exact(*at), exact(*at)));
    boxes.reduce(|all, one| all.union(one)).unwrap_or(Rect::ZERO)
}
