//! What of a face lies inside a wall that does not end on it: thick walls close
//! to one another, a skew wall that reaches past a seam.

use kurbo::{Point, Vec2};

use super::super::Face;
use super::line::{Line, cross, outward};

/// How deep inside a wall a face must be to count as covered, mm: what lies
/// flush with another face is not.
const DEEP: f64 = 2.0;

/// What a wall fills: the corners of its faces, anticlockwise.
pub(super) struct Solid([Point; 4]);

impl Solid {
    /// From where its left face begins and ends along it, and its right. None
    /// where nothing of it shows on either.
    pub(super) fn of(line: &Line, left: (f64, f64), right: (f64, f64)) -> Option<Self> {
        let at = |side: Face, along: f64| line.at(along) + outward(line.way, side) * line.half;
        (left.0 < left.1 && right.0 < right.1).then(|| {
            Self([
                at(Face::Right, right.0),
                at(Face::Right, right.1),
                at(Face::Left, left.1),
                at(Face::Left, left.0),
            ])
        })
    }

    /// What of a face of a wall it covers, along that wall.
    pub(super) fn covers(&self, line: &Line, side: Face) -> Option<(f64, f64)> {
        let from = line.a + outward(line.way, side) * line.half;
        let (mut low, mut high) = (f64::NEG_INFINITY, f64::INFINITY);
        let next = self.0.iter().cycle().skip(1);
        for (a, b) in self.0.iter().zip(next) {
            let edge = *b - *a;
            let long = libm::sqrt(edge.dot(edge));
            if long < 1e-6 {
                continue;
            }
            let inward = Vec2::new(-edge.y, edge.x) / long;
            let (base, step) = ((from - *a).dot(inward) - DEEP, line.way.dot(inward));
            if step.abs() < 1e-9 {
                if base <= 0.0 {
                    return None;
                }
            } else if step > 0.0 {
                low = low.max(-base / step);
            } else {
                high = high.min(-base / step);
            }
        }
        // Give back what the depth took, as far as the sides are square to it.
        (low + DEEP < high).then(|| self.whole(line, side, (low, high)))
    }

    /// The same to the very sides of it.
    fn whole(&self, line: &Line, side: Face, (low, high): (f64, f64)) -> (f64, f64) {
        let from = line.a + outward(line.way, side) * line.half;
        let (mut first, mut last) = (low, high);
        let next = self.0.iter().cycle().skip(1);
        for (a, b) in self.0.iter().zip(next) {
            let edge = *b - *a;
            let turn = cross(line.way, edge);
            if turn.abs() < 1e-6 {
                continue;
            }
            let at = cross(*a - from, edge) / turn;
            let share = cross(*a - from, line.way) / turn;
            if (-1e-9..=1.0 + 1e-9).contains(&share) {
                first = first.min(at);
                last = last.max(at);
            }
        }
        (first, last)
    }
}
