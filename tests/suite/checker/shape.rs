//! Places, lines and outlines seen flat, in floating-point millimetres.

use wirewend::units::{Point2, Point3};

/// How far two places may lie apart and still be one, mm: each of two ends is
/// rounded to the nearest millimetre, once along and once across.
pub(crate) const NEAR: f64 = 3.0;

/// A place seen flat: from above, or on a wall as (along, height).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Spot {
    pub(crate) x: f64,
    pub(crate) y: f64,
}

impl Spot {
    pub(crate) const fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }

    pub(crate) fn of(place: Point2) -> Self {
        Self::new(place.x.to_f64(), place.y.to_f64())
    }

    pub(crate) fn under(place: Point3) -> Self {
        Self::of(place.on_floor())
    }

    pub(crate) fn minus(self, other: Self) -> Self {
        Self::new(self.x - other.x, self.y - other.y)
    }

    pub(crate) fn dot(self, other: Self) -> f64 {
        self.x * other.x + self.y * other.y
    }

    fn cross(self, other: Self) -> f64 {
        self.x * other.y - self.y * other.x
    }

    pub(crate) fn distance(self, other: Self) -> f64 {
        libm::hypot(self.x - other.x, self.y - other.y)
    }

    /// The place a share of the way to another.
    pub(crate) fn towards(self, other: Self, share: f64) -> Self {
        Self::new(self.x + (other.x - self.x) * share, self.y + (other.y - self.y) * share)
    }
}

/// How far a place is from a straight line between two others.
pub(crate) fn distance_to_line(place: Spot, a: Spot, b: Spot) -> f64 {
    let line = b.minus(a);
    let square = line.dot(line);
    let share = if square > 0.0 { place.minus(a).dot(line) / square } else { 0.0 };
    place.distance(a.towards(b, share.clamp(0.0, 1.0)))
}

/// The edges of a closed outline.
fn edges(outline: &[Spot]) -> impl Iterator<Item = (Spot, Spot)> + '_ {
    outline.iter().zip(outline.iter().cycle().skip(1)).map(|(a, b)| (*a, *b))
}

/// Whether an outline holds a place, by the winding number.
pub(crate) fn holds(outline: &[Spot], place: Spot) -> bool {
    let mut winding = 0_i32;
    for (a, b) in edges(outline) {
        let left = b.minus(a).cross(place.minus(a)) > 0.0;
        if a.y <= place.y && b.y > place.y && left {
            winding += 1;
        }
        if a.y > place.y && b.y <= place.y && !left {
            winding -= 1;
        }
    }
    winding != 0
}

/// How far a place is from the nearest edge of an outline.
pub(crate) fn edge_distance(outline: &[Spot], place: Spot) -> f64 {
    edges(outline).map(|(a, b)| distance_to_line(place, a, b)).fold(f64::INFINITY, f64::min)
}

/// Whether a place is inside an outline and clear of its edge.
pub(crate) fn deep_inside(outline: &[Spot], place: Spot) -> bool {
    holds(outline, place) && edge_distance(outline, place) > NEAR
}

/// How far a place is from what an outline holds; 0 inside.
pub(crate) fn distance_to(outline: &[Spot], place: Spot) -> f64 {
    if holds(outline, place) { 0.0 } else { edge_distance(outline, place) }
}

/// The shares of the way from `a` to `b` at which it meets edges of an
/// outline, with 0 and 1, rising.
pub(crate) fn cuts(outline: &[Spot], a: Spot, b: Spot) -> Vec<f64> {
    let mut shares = vec![0.0, 1.0];
    let line = b.minus(a);
    for (c, d) in edges(outline) {
        let edge = d.minus(c);
        let slant = line.cross(edge);
        if slant.abs() > 1e-9 {
            let on_line = c.minus(a).cross(edge) / slant;
            let on_edge = c.minus(a).cross(line) / slant;
            if (-1e-9..=1.0 + 1e-9).contains(&on_edge) {
                shares.push(on_line);
            }
        } else if line.dot(line) > 0.0 {
            shares.extend([c, d].map(|corner| corner.minus(a).dot(line) / line.dot(line)));
        }
    }
    shares.retain(|share| (0.0..=1.0).contains(share));
    shares.sort_by(f64::total_cmp);
    shares
}

/// The parts of the way from `a` to `b` inside an outline, as shares of it.
pub(crate) fn stretches(outline: &[Spot], a: Spot, b: Spot) -> Vec<(f64, f64)> {
    cuts(outline, a, b)
        .windows(2)
        .map(|pair| (pair[0], pair[1]))
        .filter(|(from, to)| holds(outline, a.towards(b, (from + to) / 2.0)))
        .collect()
}

/// Whether the way from `a` to `b` goes through the open inside of an outline.
pub(crate) fn goes_through(outline: &[Spot], a: Spot, b: Spot) -> bool {
    const SAMPLES: [f64; 9] = [0.02, 0.1, 0.25, 0.4, 0.5, 0.6, 0.75, 0.9, 0.98];
    cuts(outline, a, b).windows(2).any(|pair| {
        let at = |share: f64| a.towards(b, pair[0] + (pair[1] - pair[0]) * share);
        SAMPLES.iter().any(|share| deep_inside(outline, at(*share)))
    })
}

/// The parts of 0 to 1 that none of the stretches covers.
pub(crate) fn gaps(mut stretches: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    stretches.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut gaps = Vec::new();
    let mut covered = 0.0;
    for (from, to) in stretches {
        if from > covered + 1e-9 {
            gaps.push((covered, from));
        }
        covered = f64::max(covered, to);
    }
    if covered < 1.0 - 1e-9 {
        gaps.push((covered, 1.0));
    }
    gaps
}

#[cfg(test)]
mod tests {
    use super::*;

    fn square() -> Vec<Spot> {
        [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)]
            .map(|(x, y)| Spot::new(x, y))
            .into()
    }

    #[test]
    fn a_way_along_an_edge_is_outside_and_one_across_is_inside() {
        let through =
            |ax, ay, bx, by| goes_through(&square(), Spot::new(ax, ay), Spot::new(bx, by));
        assert!(!through(-50.0, 0.0, 150.0, 0.0), "along the lower edge");
        assert!(!through(-50.0, 1.5, 150.0, 1.5), "within the rounding of the lower edge");
        assert!(through(-50.0, 50.0, 150.0, 50.0), "across the middle");
        assert!(through(-50.0, 5.0, 150.0, 5.0), "just inside");
        assert!(through(50.0, 50.0, 60.0, 50.0), "wholly inside");
        assert!(!through(-50.0, 50.0, 0.0, 50.0), "up to the edge");
    }

    #[test]
    fn stretches_and_gaps_make_the_whole() {
        let parts = stretches(&square(), Spot::new(-100.0, 50.0), Spot::new(300.0, 50.0));
        assert_eq!(parts, vec![(0.25, 0.5)], "100 of 400, after the first 100");
        assert_eq!(gaps(parts), vec![(0.0, 0.25), (0.5, 1.0)], "what is left");
        assert!(gaps(vec![(0.4, 1.0), (0.0, 0.5)]).is_empty(), "overlapping parts cover all");
    }
}
