//! How light an order could possibly be.

use super::tree::{MULTIPLIER_MAX, Tree, Weights};

/// The best bound of an ascent, and the tree that gave it.
#[derive(Clone, Debug)]
pub(super) struct Ascent {
    /// No order weighs less.
    pub(super) bound: i64,
    /// The multipliers that gave it, one to every end.
    pub(super) multipliers: Vec<i64>,
    /// The tree that gave it.
    pub(super) tree: Tree,
}

/// How boldly an ascent steps: sixteenths of the way to the target at first,
/// halved after so many steps without a better bound.
#[derive(Clone, Copy, Debug)]
pub(super) struct Stride {
    pub(super) sixteenths: i64,
    pub(super) patience: u32,
}

/// Raises the bound step by step: a point with more than two legs in the tree
/// becomes dearer, one with a single leg cheaper, by so much that the bound
/// would just meet the target (Polyak's step for a known target), smoothed
/// with the step before. Stops early where `enough` says so, or where the tree
/// is an order, which is then the best one.
///
/// None: no order obeys the weights.
pub(super) fn ascend(
    weights: Weights<'_>,
    begin: &[i64],
    target: i64,
    steps: u32,
    stride: Stride,
    enough: impl Fn(i64) -> bool,
) -> Option<Ascent> {
    let mut multipliers = begin.to_vec();
    let mut tree = Tree::new(weights.points);
    let bound = tree.grow(weights, &multipliers)?;
    let mut best = Ascent { bound, multipliers: multipliers.clone(), tree: tree.clone() };
    let mut before = vec![0; multipliers.len()];
    let (mut sixteenths, mut waited) = (stride.sixteenths * 64, 0);
    let mut bound = bound;
    for _ in 1..steps {
        if best.tree.is_order() || enough(best.bound) || sixteenths == 0 {
            break;
        }
        move_on(&mut multipliers, &mut before, &tree, target.saturating_sub(bound), sixteenths);
        bound = tree.grow(weights, &multipliers)?;
        if bound > best.bound {
            best.bound = bound;
            best.multipliers.copy_from_slice(&multipliers);
            best.tree.clone_from(&tree);
            waited = 0;
        } else {
            waited += 1;
            if waited >= stride.patience {
                sixteenths >>= 1;
                waited = 0;
            }
        }
    }
    Some(best)
}

/// One step; `parts` counts in 1024ths of the way.
fn move_on(multipliers: &mut [i64], before: &mut [i64], tree: &Tree, way: i64, parts: i64) {
    let points = 1..multipliers.len() - 1;
    let excess = |end: usize| tree.degrees[end] - 2;
    let square: i64 = points.clone().map(|end| excess(end) * excess(end)).sum();
    let size = (i128::from(way.max(1)) * i128::from(parts)).div_euclid(i128::from(square.max(1)));
    for end in points {
        let smoothed = 7 * excess(end) + 3 * before[end];
        before[end] = excess(end);
        let step = (size * i128::from(smoothed)).div_euclid(10 * 1024);
        let limit = i128::from(MULTIPLIER_MAX);
        let moved = (i128::from(multipliers[end]) + step).clamp(-limit, limit);
        multipliers[end] = i64::try_from(moved).unwrap_or(0);
    }
}
