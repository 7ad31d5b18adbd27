//! Outlines as rectangles: the part of a plane that an outline covers.

use super::Rect;

/// Oblique edges are followed by steps of this size, mm, on one raster for all
/// of them, so that they share their lines: they stand out by at most its
/// diagonal, 57 mm. A trade-off: a fine raster follows the edge, a coarse one
/// keeps the network small; half of a thin wall keeps cables in the building.
const RASTER: i64 = 40;

/// Coordinates closer than this are one, mm: a turned frame rounds each place
/// by itself, and two ends of one edge would differ.
const SAME: i64 = 3;

/// Rectangles that together cover what the closed rings enclose (holes left
/// open, by the even-odd rule), exactly where edges keep to the frame and by
/// steps that stand out at most 57 mm where they do not.
#[must_use]
pub fn cover(rings: &[Vec<(i64, i64)>]) -> Vec<Rect> {
    let edges: Vec<Edge> = rings.iter().flat_map(|ring| ring_edges(ring)).collect();
    let levels = levels(&edges);
    let mut rects = Vec::new();
    for pair in levels.windows(2) {
        let (v0, v1) = (pair[0], pair[1]);
        for (u0, u1) in spans(&edges, v0, v1) {
            rects.push(Rect { u0, v0, u1, v1 });
        }
    }
    merge(rects)
}

/// An edge that rises or falls; level ones bound nothing from the side.
#[derive(Clone, Copy)]
struct Edge {
    u0: i64,
    v0: i64,
    u1: i64,
    v1: i64,
}

fn ring_edges(ring: &[(i64, i64)]) -> Vec<Edge> {
    (0..ring.len())
        .map(|index| (ring[index], ring[(index + 1) % ring.len()]))
        .filter(|(a, b)| a.1 != b.1)
        .map(|(a, b)| {
            let (low, high) = if a.1 < b.1 { (a, b) } else { (b, a) };
            Edge { u0: low.0, v0: low.1, u1: high.0, v1: high.1 }
        })
        .collect()
}

/// The heights at which the set of spans changes: ends of edges, and steps up
/// along oblique ones.
fn levels(edges: &[Edge]) -> Vec<i64> {
    let mut levels = Vec::new();
    for edge in edges {
        levels.extend([edge.v0, edge.v1]);
        if edge.u0 != edge.u1 {
            let first = edge.v0.div_euclid(RASTER) + 1;
            let last = (edge.v1 - 1).div_euclid(RASTER);
            levels.extend((first..=last).map(|step| step * RASTER));
        }
    }
    levels.sort_unstable();
    levels.dedup();
    levels
}

/// The spans that the rings enclose anywhere between two levels.
fn spans(edges: &[Edge], v0: i64, v1: i64) -> Vec<(i64, i64)> {
    let mut sides: Vec<(i64, i64, i64)> = edges
        .iter()
        .filter(|edge| edge.v0 <= v0 && v1 <= edge.v1)
        .map(|edge| {
            let at = |v: i64, up: bool| {
                let rise = (edge.u1 - edge.u0) * (v - edge.v0);
                let height = edge.v1 - edge.v0;
                let floor = rise.div_euclid(height);
                edge.u0 + floor + i64::from(up && rise.rem_euclid(height) > 0)
            };
            let mut low = at(v0, false).min(at(v1, false));
            let mut high = at(v0, true).max(at(v1, true));
            if edge.u0 != edge.u1 {
                low = low.div_euclid(RASTER) * RASTER;
                high = high.div_euclid(RASTER) * RASTER
                    + if high.rem_euclid(RASTER) == 0 { 0 } else { RASTER };
            }
            (at(v0, false) + at(v1, false), low, high)
        })
        .collect();
    sides.sort_unstable();
    let mut spans: Vec<(i64, i64)> = Vec::new();
    for pair in sides.chunks_exact(2) {
        let (from, to) = (pair[0].1, pair[1].2);
        match spans.last_mut() {
            Some(last) if from <= last.1 => last.1 = last.1.max(to),
            _ if from < to => spans.push((from, to)),
            _ => {}
        }
    }
    spans
}

/// Joins rectangles that stand on one another with equal sides, so that a
/// plain house has few.
fn merge(mut rects: Vec<Rect>) -> Vec<Rect> {
    rects.sort_unstable_by_key(|rect| (rect.u0, rect.u1, rect.v0));
    let mut merged: Vec<Rect> = Vec::with_capacity(rects.len());
    for rect in rects {
        match merged.last_mut() {
            Some(last) if last.u0 == rect.u0 && last.u1 == rect.u1 && last.v1 == rect.v0 => {
                last.v1 = rect.v1;
            }
            _ => merged.push(rect),
        }
    }
    merged
}

/// Makes coordinates that differ only by rounding one: each group of values
/// with gaps of at most 3 mm takes the value of its first.
pub(super) fn settle(values: &mut [&mut i64]) {
    values.sort_unstable_by_key(|value| **value);
    let mut first = i64::MIN;
    let mut last = i64::MIN;
    for value in values {
        if last == i64::MIN || **value - last > SAME {
            first = **value;
        }
        last = **value;
        **value = first;
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn area(rects: &[Rect]) -> i64 {
        rects.iter().map(|rect| (rect.u1 - rect.u0) * (rect.v1 - rect.v0)).sum()
    }

    #[test]
    fn an_l_shape_is_covered_exactly_by_two_rectangles() {
        let ring = vec![(0, 0), (6000, 0), (6000, 3000), (2000, 3000), (2000, 5000), (0, 5000)];
        let rects = cover(&[ring]);
        assert_eq!(area(&rects), 6000 * 3000 + 2000 * 2000);
        assert_eq!(rects.len(), 2);
    }

    #[test]
    fn a_courtyard_stays_open() {
        let outer = vec![(0, 0), (9000, 0), (9000, 9000), (0, 9000)];
        let inner = vec![(3000, 3000), (6000, 3000), (6000, 6000), (3000, 6000)];
        assert_eq!(area(&cover(&[outer, inner])), 81_000_000 - 9_000_000);
    }

    #[test]
    fn an_oblique_edge_is_covered_by_steps_that_stand_out_at_most_57_mm() {
        let rects = cover(&[vec![(0, 0), (4000, 0), (0, 4000)]]);
        let triangle = 8_000_000;
        assert!(area(&rects) >= triangle, "all of it is covered");
        // A triangle 57 mm larger along its long side: 4000·√2·57 mm² more.
        assert!(area(&rects) <= triangle + 325_000, "covered {}", area(&rects));
    }

    #[test]
    fn rounded_twins_become_one() {
        let (mut a, mut b, mut c) = (1000, 1001, 2000);
        settle(&mut [&mut b, &mut c, &mut a]);
        assert_eq!((a, b, c), (1000, 1000, 2000));
    }
}
