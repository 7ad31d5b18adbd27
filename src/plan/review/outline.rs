//! Closed outlines: enough places, and no crossing of themselves.

use super::super::{Finding, Severity, Subject};
use crate::units::Point2;

/// What is wrong with the outline of something, which findings call `mark`.
pub(super) fn outline_faults(outline: &[Point2], subject: Subject, mark: &str) -> Option<Finding> {
    if outline.len() < 3 {
        return Some(
            Finding::new(
                "outline-too-short",
                Severity::Missing,
                subject,
                format!("the outline of {mark} has fewer than three corners"),
                "draw its outline from corner to corner",
            )
            .against(outline.len().to_string(), "at least 3 corners", ""),
        );
    }
    let corner = crossing(outline)?;
    Some(Finding::new(
        "outline-crosses-itself",
        Severity::Fault,
        subject,
        format!(
            "the outline of {mark} crosses, touches or doubles back on itself at the side from \
             ({}, {})",
            corner.x.get(),
            corner.y.get()
        ),
        "draw its outline once around, each corner once",
    ))
}

/// The corner from which the first side starts that meets another where it
/// should not.
fn crossing(outline: &[Point2]) -> Option<Point2> {
    let count = outline.len();
    let side = |index: usize| (outline[index], outline[(index + 1) % count]);
    (0..count)
        .find(|first| {
            doubles_back(outline, *first) || {
                ((first + 2)..count)
                    // The last side and the first share a corner.
                    .filter(|second| (second + 1) % count != *first)
                    .any(|second| meet(side(*first), side(second)))
            }
        })
        .map(|index| outline[index])
}

/// Whether the side from a corner has no length or runs back over the one
/// before it.
fn doubles_back(outline: &[Point2], corner: usize) -> bool {
    let count = outline.len();
    let before = outline[(corner + count - 1) % count];
    let (here, after) = (outline[corner], outline[(corner + 1) % count]);
    let (back, on) = (before - here, after - here);
    let dot = back.x.get() * on.x.get() + back.y.get() * on.y.get();
    here == after || (turn(before, here, after) == 0 && dot > 0)
}

/// Twice the area of a triangle: positive where it turns left. Exact, as
/// coordinates are bounded.
fn turn(a: Point2, b: Point2, c: Point2) -> i64 {
    let (to_b, to_c) = (b - a, c - a);
    to_b.x.get() * to_c.y.get() - to_b.y.get() * to_c.x.get()
}

/// Whether two sides without a common corner have a place in common.
fn meet((a, b): (Point2, Point2), (c, d): (Point2, Point2)) -> bool {
    let (c_side, d_side) = (turn(a, b, c).signum(), turn(a, b, d).signum());
    let (a_side, b_side) = (turn(c, d, a).signum(), turn(c, d, b).signum());
    if c_side != d_side && a_side != b_side {
        return true;
    }
    let within = |from: Point2, to: Point2, place: Point2| {
        (from.x.min(to.x)..=from.x.max(to.x)).contains(&place.x)
            && (from.y.min(to.y)..=from.y.max(to.y)).contains(&place.y)
    };
    (c_side == 0 && within(a, b, c))
        || (d_side == 0 && within(a, b, d))
        || (a_side == 0 && within(c, d, a))
        || (b_side == 0 && within(c, d, b))
}

/// How far a place is from a straight line between two others, mm.
pub(super) fn distance_to_segment(a: Point2, b: Point2, place: Point2) -> f64 {
    let (step, to) = (b - a, place - a);
    let (dx, dy) = (step.x.to_f64(), step.y.to_f64());
    let (px, py) = (to.x.to_f64(), to.y.to_f64());
    let squared = dx * dx + dy * dy;
    let share = if squared > 0.0 { ((px * dx + py * dy) / squared).clamp(0.0, 1.0) } else { 0.0 };
    libm::hypot(px - share * dx, py - share * dy)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn code(places: &[(i64, i64)]) -> &'static str {
        let outline: Vec<Point2> = places.iter().map(|(x, y)| Point2::new(*x, *y)).collect();
        outline_faults(&outline, Subject::Plan, "it").map_or("", |finding| finding.code)
    }

    #[test]
    fn outlines_go_once_around() {
        let crosses = "outline-crosses-itself";
        for (places, expect) in [
            (&[(0, 0), (9, 0), (9, 9), (0, 9)][..], ""),
            (&[(0, 0), (9, 0), (9, 9), (5, 2), (0, 9)], ""),
            (&[(0, 0), (5, 0), (9, 0), (9, 9)], ""),
            (&[(0, 0), (9, 0)], "outline-too-short"),
            (&[(0, 0), (9, 9), (9, 0), (0, 9)], crosses),
            (&[(0, 0), (9, 0), (9, 9), (5, 0), (0, 9)], crosses),
            (&[(0, 0), (9, 0), (9, 9), (9, 0)], crosses),
            (&[(0, 0), (0, 0), (9, 0), (9, 9)], crosses),
            (&[(0, 0), (5, 0), (9, 0)], crosses),
        ] {
            assert_eq!(code(places), expect, "{places:?}");
        }
    }

    #[test]
    fn distances_are_to_the_nearest_place() {
        let (a, b) = (Point2::new(0, 0), Point2::new(10, 0));
        assert!((distance_to_segment(a, b, Point2::new(5, 3)) - 3.0).abs() < 1e-9, "beside");
        assert!(
            (distance_to_segment(a, b, Point2::new(13, 4)) - 5.0).abs() < 1e-9,
            "past b: 3-4-5"
        );
    }
}
