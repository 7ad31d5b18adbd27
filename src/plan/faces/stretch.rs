//! What of each face of a wall is bare.

use super::super::Face;
use super::join::{Met, Stop, stop};
use super::line::{Line, Tip};
use super::node::Node;

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
pub(super) fn stretches(lines: &[Line], nodes: &[Node]) -> Vec<Stretch> {
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
    let all = lines.iter().zip(cuts).enumerate();
    all.flat_map(|(wall, (line, cuts))| {
        let [left, right] = cuts;
        [(Face::Left, left), (Face::Right, right)]
            .into_iter()
            .flat_map(move |(side, cuts)| cuts.bare(wall, side, line))
    })
    .collect()
}

impl Cuts {
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
            if from.along < end.along {
                push(low, from);
            }
            if to.along > low.along {
                low = to;
            }
        }
        push(low, end);
        stretches
    }
}
