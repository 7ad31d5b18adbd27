//! Rectangles.

use crate::units::Point2;

/// The outline of a rectangle between two opposite corners, anticlockwise.
pub(crate) fn rectangle(one: Point2, other: Point2) -> Vec<Point2> {
    let (left, right) = (one.x.min(other.x), one.x.max(other.x));
    let (foot, head) = (one.y.min(other.y), one.y.max(other.y));
    [(left, foot), (right, foot), (right, head), (left, head)]
        .map(|(x, y)| Point2 { x, y })
        .to_vec()
}
