//! The outer faces of a level: cables beside each other stay within them.

use geo::{Area as _, Contains as _, MultiPolygon, Polygon, unary_union};
use kurbo::{Line, Point, Vec2};

use super::view::View;
use super::walls::polygon_of;
use crate::plan::{LevelId, Plan};

/// How far within the outer faces a line stays, mm on paper: half its width,
/// half the width of the walls' outline and a little of the paper.
const WITHIN: f64 = 0.6;
/// A line this near to an outer face lies on it, mm on paper.
const ON_FACE: f64 = 0.3;
/// A line that goes out no farther than this from its end only bends there, mm
/// on paper.
const AT_END: f64 = 2.0;
/// What is narrower than this is a wall that stands alone, mm on paper.
const NARROW: f64 = 10.0;

/// The outer faces of what a level covers, on paper.
#[derive(Debug)]
pub(super) struct Outline {
    parts: Vec<Polygon<f64>>,
}

impl Outline {
    /// Around walls, whose openings are not taken out, and rooms.
    pub(super) fn of(walls: &MultiPolygon<f64>, plan: &Plan, level: LevelId, view: &View) -> Self {
        let mut parts: Vec<Polygon<f64>> = walls.iter().map(filled).collect();
        let count = parts.len();
        for room in plan.rooms.values().filter(|room| room.level == level) {
            let corners: Vec<Point> = room.outline.iter().map(|at| view.point(*at)).collect();
            let area = polygon_of(&corners);
            if area.unsigned_area() > 0.0 && !parts[..count].iter().any(|all| all.contains(&area)) {
                parts.push(area);
            }
        }
        if parts.len() > count {
            parts = unary_union(&parts).iter().map(filled).collect();
        }
        Self { parts }
    }

    /// Around nothing: no line is held.
    #[cfg(test)]
    pub(super) const fn none() -> Self {
        Self { parts: Vec::new() }
    }

    /// As seen by lines of one direction.
    pub(super) fn seen(&self, along: Vec2, across: Vec2) -> Seen<'_> {
        let rings = self.parts.iter().map(Polygon::exterior);
        let edges = rings.flat_map(|ring| ring.lines()).map(|edge| {
            let place = |at: geo::Coord| {
                let at = Vec2::new(at.x, at.y);
                Point::new(at.dot(along), at.dot(across))
            };
            let (one, other) = (place(edge.start), place(edge.end));
            if one.x <= other.x { Line::new(one, other) } else { Line::new(other, one) }
        });
        Seen { outline: self, edges: edges.collect(), along, across }
    }
}

/// Without what is inside: yards count as the house.
fn filled(part: &Polygon<f64>) -> Polygon<f64> {
    Polygon::new(part.exterior().clone(), Vec::new())
}

/// The outer faces in the frame of a bundle of lines.
pub(super) struct Seen<'o> {
    outline: &'o Outline,
    /// From left to right.
    edges: Vec<Line>,
    /// The direction of the lines.
    pub(super) along: Vec2,
    /// Square to it: offsets count this way.
    pub(super) across: Vec2,
}

impl Seen<'_> {
    /// Between which offsets a line from `low` to `high` stays inside. None:
    /// it is not inside, or nothing but a wall is around it.
    pub(super) fn room(&self, low: f64, high: f64, offset: f64) -> Option<(f64, f64)> {
        // On an outer face itself it counts as just inside.
        let middle = f64::midpoint(low, high);
        let offset = match [-ON_FACE, ON_FACE].map(|off| self.covers(middle, offset + off)) {
            [true, true] => offset,
            [true, false] => offset - ON_FACE,
            [false, true] => offset + ON_FACE,
            [false, false] => return None,
        };
        let (mut least, mut most) = (f64::NEG_INFINITY, f64::INFINITY);
        for edge in &self.edges {
            if edge.p1.x <= low + 0.01 || edge.p0.x >= high - 0.01 {
                continue;
            }
            let at = |x: f64| {
                let part = (x - edge.p0.x) / (edge.p1.x - edge.p0.x).max(1e-9);
                edge.p0.y + (edge.p1.y - edge.p0.y) * part.clamp(0.0, 1.0)
            };
            let (from, to) = (low.max(edge.p0.x), high.min(edge.p1.x));
            let (one, other) = (at(from), at(to));
            let (nearest, farthest) = (one.min(other), one.max(other));
            if nearest >= offset {
                most = most.min(nearest);
            } else if farthest <= offset {
                least = least.max(farthest);
            } else {
                let through = from + (to - from) * (offset - one) / (other - one);
                if through - low > AT_END && high - through > AT_END {
                    return None;
                }
                // It bends at a face askew to it, or a little beyond that.
                let inner = if through - low > high - through { one } else { other };
                if farthest - nearest < 2.0 * (to - from) && inner > offset {
                    most = most.min(offset);
                } else if farthest - nearest < 2.0 * (to - from) {
                    least = least.max(offset);
                }
            }
        }
        (most - least > NARROW).then_some((least + WITHIN, most - WITHIN))
    }

    /// Whether a place of the frame is inside.
    fn covers(&self, along: f64, offset: f64) -> bool {
        let at = self.along * along + self.across * offset;
        let at = geo::Point::new(at.x, at.y);
        self.outline.parts.iter().any(|part| part.contains(&at))
    }
}
