//! What of each face of a wall is bare.

use std::collections::BTreeSet;

use super::super::Face;
use super::cover::Solid;
use super::join::{Met, Stop, stop};
use super::line::{Line, Tip};
use super::node::Node;
use super::piece::Shape;

/// Shorter ones are no faces, mm.
const LEAST: f64 = 1.0;

/// A part of a face of a wall that nothing else covers.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stretch {
    pub(super) wall: usize,
    pub(super) side: Face,
    /// Towards the wall's end `a`.
    pub(super) low: Stop,
    /// Towards its end `b`.
    pub(super) high: Stop,
}

/// Where a face of a wall is cut.
#[derive(Clone, Default)]
struct Cuts {
    low: Option<Stop>,
    high: Option<Stop>,
    /// Where another wall covers it: from, to.
    covered: Vec<(Stop, Stop)>,
}

/// The bare stretches of all walls, the left face before the right, each from
/// the wall's end `a`.
pub(super) fn stretches(lines: &[Line], nodes: &[Node], near: &[(usize, usize)]) -> Vec<Stretch> {
    let mut cuts = vec![[Cuts::default(), Cuts::default()]; lines.len()];
    for node in nodes {
        for (index, arm) in node.arms.iter().enumerate() {
            for side in [Face::Left, Face::Right] {
                let Some(stop) = stop(node, index, side) else { continue };
                let cuts = &mut cuts[arm.wall][usize::from(arm.face(side) == Face::Right)];
                match arm.tip {
                    Some(Tip::A) => cuts.low = Some(stop),
                    Some(Tip::B) => cuts.high = Some(stop),
                    // The other arm of a wall that goes through gives the
                    // other end.
                    None if arm.forward => cuts.through(node, arm.wall, index, side, stop),
                    None => {}
                }
            }
        }
    }
    let meet: BTreeSet<(usize, usize)> = nodes.iter().flat_map(Node::pairs).collect();
    let apart = near.iter().copied().filter(|pair| !meet.contains(pair));
    cover(lines, apart, &mut cuts);
    let all = lines.iter().zip(cuts).enumerate();
    all.flat_map(|(wall, (line, cuts))| {
        let [left, right] = cuts;
        [(Face::Left, left), (Face::Right, right)]
            .into_iter()
            .flat_map(move |(side, cuts)| cuts.bare(wall, side, line))
    })
    .collect()
}

/// Takes what walls cover that do not meet.
fn cover(lines: &[Line], apart: impl Iterator<Item = (usize, usize)>, cuts: &mut [[Cuts; 2]]) {
    let solids: Vec<Option<Solid>> = lines
        .iter()
        .zip(cuts.iter())
        .map(|(line, [left, right])| Solid::of(line, left.reach(line), right.reach(line)))
        .collect();
    for (one, other) in apart.flat_map(|(a, b)| [(a, b), (b, a)]) {
        let Some(solid) = &solids[other] else { continue };
        for (side, cuts) in [Face::Left, Face::Right].into_iter().zip(&mut cuts[one]) {
            if let Some((low, high)) = solid.covers(&lines[one], side) {
                let stop = |along: f64| Stop { along, met: Met::Wall(other, Shape::Inner) };
                cuts.covered.push((stop(low), stop(high)));
            }
        }
    }
}

impl Cuts {
    /// From where to where along its wall the face would be without what
    /// covers it in between.
    fn reach(&self, line: &Line) -> (f64, f64) {
        (self.low.map_or(0.0, |stop| stop.along), self.high.map_or(line.length, |stop| stop.along))
    }

    /// Takes what covers a wall that goes through a node, by both its arms.
    fn through(&mut self, node: &Node, wall: usize, forward: usize, side: Face, to: Stop) {
        let face = node.arms[forward].face(side);
        let back = (node.arms.iter().enumerate())
            .find(|(index, arm)| arm.wall == wall && *index != forward)
            .and_then(|(index, arm)| {
                let sides = [Face::Left, Face::Right];
                let side = sides.into_iter().find(|side| arm.face(*side) == face)?;
                stop(node, index, side)
            });
        if let Some(from) = back {
            self.covered.push((from, to));
        }
    }

    fn bare(mut self, wall: usize, side: Face, line: &Line) -> Vec<Stretch> {
        let nothing = |along: f64| Stop { along, met: Met::Nothing };
        let mut low = self.low.unwrap_or_else(|| nothing(0.0));
        let end = self.high.unwrap_or_else(|| nothing(line.length));
        self.covered.sort_by(|a, b| a.0.along.total_cmp(&b.0.along));
        let mut stretches = Vec::new();
        let mut push = |low: Stop, high: Stop| {
            if high.along - low.along > LEAST {
                stretches.push(Stretch { wall, side, low, high });
            }
        };
        for (from, to) in self.covered {
            if from.along >= end.along {
                // Past the end, where others are.
                break;
            }
            push(low, from);
            if to.along > low.along {
                low = to;
            }
        }
        push(low, end);
        stretches
    }
}
