//! The bodies of an angled room: the few large rectangles that make up an L, a
//! T or a room with an alcove.

use super::outline::{bounds, depth};
use crate::units::{Mm, Point2};

/// A rectangle in the frame of a room: u0, v0, u1, v1, mm.
pub(super) type Body = [f64; 4];

/// A room with more corners than this at different places is taken whole.
const CUTS_MAX: usize = 24;
/// No arm of a room is smaller, m² and mm.
const AREA_MIN: f64 = 1.2;
const SIDE_MIN: f64 = 900.0;
/// The most bodies of a room.
const BODIES_MAX: usize = 6;

/// The bodies of an outline, roomiest first. `turned` is the outline in the
/// frame of the room.
pub(super) fn bodies(turned: &[Point2]) -> Vec<Body> {
    let whole = || bounds(turned).into_iter().collect();
    let (us, vs) = (cuts(turned, |corner| corner.x), cuts(turned, |corner| corner.y));
    if us.len() > CUTS_MAX || vs.len() > CUTS_MAX || us.len() < 2 || vs.len() < 2 {
        return whole();
    }
    let (columns, rows) = (us.len() - 1, vs.len() - 1);
    let mut free: Vec<Vec<bool>> = (0..columns)
        .map(|i| {
            (0..rows)
                .map(|j| {
                    let (u, v) = (f64::midpoint(us[i], us[i + 1]), f64::midpoint(vs[j], vs[j + 1]));
                    depth(turned, u, v) > 0.0
                })
                .collect()
        })
        .collect();
    let mut bodies: Vec<Body> = Vec::new();
    let mut cut = 0;
    while bodies.len() < BODIES_MAX && cut < CUTS_MAX {
        let Some((i0, j0, i1, j1)) = largest(&free, &us, &vs) else { break };
        let body = [us[i0], vs[j0], us[i1], vs[j1]];
        let is_body = area_m2(&body) >= AREA_MIN && short(&body) >= SIDE_MIN;
        for column in &mut free[i0..i1] {
            column[j0..j1].fill(false);
        }
        if is_body {
            bodies.push(body);
        } else {
            cut += 1;
        }
    }
    if bodies.is_empty() { whole() } else { bodies }
}

/// The area of a body, m².
pub(super) fn area_m2(body: &Body) -> f64 {
    (body[2] - body[0]) * (body[3] - body[1]) / 1.0e6
}

fn short(body: &Body) -> f64 {
    (body[2] - body[0]).min(body[3] - body[1])
}

/// Where the corners lie on one axis, those closer than 50 mm as one.
fn cuts(turned: &[Point2], axis: impl Fn(&Point2) -> Mm) -> Vec<f64> {
    let mut cuts: Vec<f64> = turned.iter().map(|corner| axis(corner).to_f64()).collect();
    cuts.sort_by(f64::total_cmp);
    cuts.dedup_by(|next, last| *next - *last < 50.0);
    cuts
}

/// The roomiest rectangle of free cells, as columns and rows.
fn largest(free: &[Vec<bool>], us: &[f64], vs: &[f64]) -> Option<(usize, usize, usize, usize)> {
    let (columns, rows) = (us.len() - 1, vs.len() - 1);
    let mut best: Option<(f64, (usize, usize, usize, usize))> = None;
    for i0 in 0..columns {
        // Rows that are free in all columns so far.
        let mut open = vec![true; rows];
        for i1 in i0 + 1..=columns {
            for (open, free) in open.iter_mut().zip(&free[i1 - 1]) {
                *open &= free;
            }
            let mut from = None;
            for j in 0..=rows {
                match (from, j < rows && open[j]) {
                    (None, true) => from = Some(j),
                    (Some(j0), false) => {
                        let body = [us[i0], vs[j0], us[i1], vs[j]];
                        // Rather a square than a long strip along a widening.
                        let worth = area_m2(&body) * short(&body);
                        if best.is_none_or(|best| worth > best.0 + 1.0e-6) {
                            best = Some((worth, (i0, j0, i1, j)));
                        }
                        from = None;
                    }
                    _ => {}
                }
            }
        }
    }
    best.map(|best| best.1)
}

/// So many things shared out over bodies by their areas. Every body of some
/// size gets one, also where that makes them more.
pub(super) fn shares(bodies: &[Body], count: usize) -> Vec<usize> {
    let mut shares = vec![0_usize; bodies.len()];
    if let Some(first) = shares.first_mut() {
        *first = 1;
    }
    for (share, body) in shares.iter_mut().zip(bodies).skip(1) {
        *share = usize::from(area_m2(body) >= ARM_MIN);
    }
    let given: usize = shares.iter().sum();
    for _ in given..count {
        let worth =
            |index: &usize| area_m2(&bodies[*index]) / f64::from(half_steps(shares[*index]));
        let best = (0..bodies.len()).max_by(|a, b| worth(a).total_cmp(&worth(b)).then(b.cmp(a)));
        let Some(best) = best else { break };
        shares[best] += 1;
    }
    shares
}

/// An arm so large is dark without a light of its own, m².
const ARM_MIN: f64 = 3.0;

fn half_steps(share: usize) -> u32 {
    u32::try_from(2 * share + 1).unwrap_or(u32::MAX)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn outline(corners: &[(i64, i64)]) -> Vec<Point2> {
        corners.iter().map(|(x, y)| Point2 { x: Mm::new(*x), y: Mm::new(*y) }).collect()
    }

    #[test]
    fn an_l_has_two_bodies_and_each_has_its_share() {
        let l = outline(&[(0, 0), (6000, 0), (6000, 3000), (2500, 3000), (2500, 7000), (0, 7000)]);
        let bodies = bodies(&l);
        assert_eq!(bodies, [[0.0, 0.0, 6000.0, 3000.0], [0.0, 3000.0, 2500.0, 7000.0]]);
        assert_eq!(shares(&bodies, 1), [1, 1], "no arm is left dark");
        assert_eq!(shares(&bodies, 4), [3, 1]);
        let widened =
            outline(&[(0, 0), (3600, 0), (3600, 8000), (1000, 8000), (1000, 4700), (0, 4700)]);
        assert_eq!(
            super::bodies(&widened),
            [[0.0, 0.0, 3600.0, 4700.0], [1000.0, 4700.0, 3600.0, 8000.0]],
            "no strip is cut off along a widening"
        );
        let niche = outline(&[
            (0, 0),
            (4000, 0),
            (4000, 500),
            (4300, 500),
            (4300, 900),
            (4000, 900),
            (4000, 3000),
            (0, 3000),
        ]);
        assert_eq!(super::bodies(&niche), [[0.0, 0.0, 4000.0, 3000.0]], "a niche is no body");
    }
}
