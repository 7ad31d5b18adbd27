//! The order of a feed, from what its legs take.
//!
//! The front door is [`order`]; [`spurs::hang`] goes on to let points feed
//! one further point each. Both work on a [`Matrix`] alone and know neither
//! plan nor space. There is no clock in them: how long they try is a number
//! of steps, an [`Effort`], so that the same matrix gives the same order
//! everywhere.
//!
//! - Short: every set of points is looked at, so the order is the best.
//! - Longer: an order is built and improved, and a bound is raised from below,
//!   until they meet or the steps run out. In between, up to
//!   [`BRANCH_POINTS_MAX`] points, one leg after another is decided upon,
//!   which often proves the order after all.
//!
//! A bound is a bound on cost, and holds to the last digit. Among orders of
//! equal cost the shortest is taken; that it is the shortest is certain
//! only where every set of points was looked at.

mod ascent;
mod branch;
pub(crate) mod dice;
mod exact;
mod exact_spurs;
mod grove;
mod improve;
mod matrix;
mod prescribed;
pub mod spurs;
mod sub_path;
mod tree;

pub use matrix::{Matrix, MatrixError};
pub use prescribed::Prescribed;

use super::OrderMethod;
use crate::units::{Cost, Mm};
use ascent::{Ascent, Stride, ascend};
use branch::branch;
use improve::Improver;
use sub_path::SubPath;
use tree::Weights;

/// Beyond so many points, deciding leg after leg no longer pays.
pub const BRANCH_POINTS_MAX: usize = 60;

/// From so many points on all steps of an effort are taken; shorter orders,
/// which are right sooner, get a part of them in proportion.
const FULL_EFFORT_POINTS: usize = 40;

/// How a feed ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// A chain, ending at any point.
    Open,
    /// A ring, back at the board.
    Closed,
}

/// How hard to try, in steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Effort {
    /// Up to so many points (16 at most) every set is looked at. Each
    /// further point takes a little over twice the time and the room.
    pub exact_up_to: usize,
    /// How many times a longer order is shaken and improved again.
    pub kicks: u32,
    /// How many steps the bound is raised by.
    pub ascent_steps: u32,
    /// How many trees may be grown to decide upon single legs.
    pub branch_trees: u32,
}

impl Default for Effort {
    /// Suits a house: circuits of up to twenty points in a few milliseconds.
    fn default() -> Self {
        Self { exact_up_to: 13, kicks: 4000, ascent_steps: 500, branch_trees: 4000 }
    }
}

/// Points in their order.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ordered {
    /// All ends of the matrix, from the board (0) on; a ring does not repeat
    /// the board.
    pub sequence: Vec<usize>,
    /// The costs of the legs added up, the leg back included in a ring.
    pub cost: Cost,
    /// Their lengths added up.
    pub length: Mm,
    /// No order that keeps to what is prescribed costs less.
    pub bound: Cost,
    /// How the order was found.
    pub method: OrderMethod,
}

/// Why there is no order.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoOrder {
    /// The prescribed beginning names the board, an end that does not exist,
    /// or an end twice.
    #[error("the prescribed beginning is wrong at end {0}")]
    Prefix(usize),
    /// The prescribed order asks for a leg that cannot be made.
    #[error("no leg can be made between {0} and {1}, as prescribed")]
    Prescribed(usize, usize),
    /// The end that is to come last is prescribed elsewhere, or does not exist.
    #[error("end {0} cannot come last")]
    Last(usize),
    /// What is prescribed of two ends contradicts itself, or one of them does
    /// not exist.
    #[error("end {0} cannot come before end {1}, as prescribed")]
    Contradiction(usize, usize),
    /// No order of these ends exists.
    #[error("no order joins all ends")]
    NoneExists,
    /// None was found, and that there is none is not certain.
    #[error("no order that joins all ends was found")]
    NoneFound,
}

/// Orders the ends of a matrix for the least cost, then the least length.
///
/// `fixed_prefix` names the ends that follow the board, in order, where they are
/// prescribed; the others follow in the order found. The cost and the bound
/// cover the whole feed.
///
/// ```
/// use wirewend::runs::Distance;
/// use wirewend::runs::chain::{Effort, Matrix, Shape, order};
/// use wirewend::units::{Cost, Mm};
///
/// // Along a straight wall: the board at 0 m, points at 2 m and at 1 m.
/// let leg = |m: i64| Some(Distance { cost: Cost::of_mm(1000 * m), length: Mm::new(1000 * m) });
/// let rows = [[None, leg(2), leg(1)], [leg(2), None, leg(1)], [leg(1), leg(1), None]];
/// let matrix = Matrix::new(&rows.map(Vec::from)).expect("square and symmetric");
/// let ordered = order(&matrix, Shape::Open, &[], &Effort::default()).expect("all can be reached");
/// assert_eq!(ordered.sequence, [0, 2, 1]);
/// assert_eq!(ordered.length, Mm::new(2000));
/// ```
///
/// # Errors
/// [`NoOrder`] where the prescribed beginning is wrong, or no order joins all
/// ends.
pub fn order(
    matrix: &Matrix,
    shape: Shape,
    fixed_prefix: &[usize],
    effort: &Effort,
) -> Result<Ordered, NoOrder> {
    let prescribed = Prescribed { first: fixed_prefix.to_vec(), ..Prescribed::default() };
    order_within(matrix, shape, &prescribed, effort)
}

/// The same, within all that is prescribed. What is prescribed never makes an
/// order cheaper, and a bound is that of the orders which keep to it, or of more.
///
/// # Errors
/// [`NoOrder`] where what is prescribed is wrong or contradicts itself, or no
/// order that keeps to it joins all ends.
pub fn order_within(
    matrix: &Matrix,
    shape: Shape,
    prescribed: &Prescribed,
    effort: &Effort,
) -> Result<Ordered, NoOrder> {
    let fixed_prefix = prescribed.first.as_slice();
    let free = free_ends(matrix, fixed_prefix)?;
    let before = prescribed.left(matrix, &free)?;
    let turns = shape == Shape::Closed && fixed_prefix.is_empty() && before.is_empty();
    let start = fixed_prefix.last().copied().unwrap_or(0);
    let sub_path = SubPath::new(matrix, shape, start, &free).in_chain(matrix, before);
    let mut found = if free.is_empty() {
        Found::prescribed(matrix, shape, start, fixed_prefix)?
    } else {
        arrange(matrix, &sub_path, effort)?
    };
    if turns {
        found.one_way_round();
    }
    let mut sequence = vec![0];
    sequence.extend_from_slice(fixed_prefix);
    let fixed = total(matrix, &sequence);
    sequence.extend(found.order.iter().map(|point| free[point - 1]));
    let all = matrix.distance(fixed + found.weight);
    let fixed_cost = matrix.distance(fixed).cost;
    let bound = (fixed_cost + Cost::new(found.bound)).min(all.cost);
    Ok(Ordered { sequence, cost: all.cost, length: all.length, bound, method: found.method })
}

/// The order of a sub-path.
#[derive(Clone, Debug)]
struct Found {
    order: Vec<usize>,
    weight: i64,
    /// In units of cost.
    bound: i64,
    method: OrderMethod,
}

impl Found {
    /// Nothing is left to order.
    fn prescribed(
        matrix: &Matrix,
        shape: Shape,
        start: usize,
        prefix: &[usize],
    ) -> Result<Self, NoOrder> {
        let weight = if shape == Shape::Closed { matrix.weight(start, 0) } else { 0 };
        if weight >= matrix.missing() {
            return Err(NoOrder::Prescribed(start, 0));
        }
        let method = if prefix.is_empty() { OrderMethod::Exact } else { OrderMethod::Fixed };
        let bound = matrix.distance(weight).cost.get();
        Ok(Self { order: Vec::new(), weight, bound, method })
    }

    /// A ring costs the same either way round: the lower number comes first.
    fn one_way_round(&mut self) {
        if self.order.first() > self.order.last() {
            self.order.reverse();
        }
    }
}

/// The ends that are not prescribed, lowest first.
fn free_ends(matrix: &Matrix, prefix: &[usize]) -> Result<Vec<usize>, NoOrder> {
    let mut taken = vec![false; matrix.count()];
    taken[0] = true;
    let mut at = 0;
    for end in prefix.iter().copied() {
        if taken.get(end).copied().unwrap_or(true) {
            return Err(NoOrder::Prefix(end));
        }
        if matrix.leg(at, end).is_none() {
            return Err(NoOrder::Prescribed(at, end));
        }
        taken[end] = true;
        at = end;
    }
    Ok((0..matrix.count()).filter(|end| !taken[*end]).collect())
}

fn total(matrix: &Matrix, sequence: &[usize]) -> i64 {
    sequence.windows(2).map(|pair| matrix.weight(pair[0], pair[1])).sum()
}

/// Orders the points of a sub-path: exactly where it is short.
fn arrange(matrix: &Matrix, sub_path: &SubPath, effort: &Effort) -> Result<Found, NoOrder> {
    if sub_path.points() > effort.exact_up_to.min(exact::POINTS_MAX) {
        return approach(matrix, sub_path, effort);
    }
    let (order, weight) = exact::best(sub_path);
    if weight >= matrix.missing() {
        return Err(NoOrder::NoneExists);
    }
    let bound = matrix.distance(weight).cost.get();
    Ok(Found { order, weight, bound, method: OrderMethod::Exact })
}

/// Steps of the ascent: bold at first, as nothing is known.
const STRIDE: Stride = Stride { sixteenths: 16, patience: 8 };

/// From above and from below, until both meet or the steps run out.
fn approach(matrix: &Matrix, sub_path: &SubPath, effort: &Effort) -> Result<Found, NoOrder> {
    let share = |steps: u32| {
        let points = sub_path.points().min(FULL_EFFORT_POINTS);
        let part = u64::from(steps) * u64::try_from(points).unwrap_or(u64::MAX);
        u32::try_from(part.div_euclid(FULL_EFFORT_POINTS as u64)).unwrap_or(steps)
    };
    let mut improver = Improver::new(sub_path);
    improver.shake(effort.kicks >> 2);
    let settled = |bound: i64, weight: i64| {
        let cost = |weight| matrix.distance(weight).cost.get();
        bound >= matrix.missing()
            || (weight < matrix.missing() && matrix.cost_at_least(bound) >= cost(weight))
    };
    let ascent =
        bound_below(sub_path, improver.weight(), effort, |bound| settled(bound, improver.weight()));
    let Some(ascent) = ascent.filter(|ascent| ascent.bound < matrix.missing()) else {
        return Err(NoOrder::NoneExists);
    };
    if ascent.tree.is_order() {
        let order = ascent.tree.order();
        if sub_path.before().broken(&order).is_none() && sub_path.total(&order) < improver.weight()
        {
            improver.adopt(&order);
        }
    }
    let (mut bound, mut method) = (ascent.bound, OrderMethod::Proven);
    if !settled(bound, improver.weight()) {
        improver.shake(share(effort.kicks - (effort.kicks >> 2)));
    }
    if !settled(bound, improver.weight()) {
        method = OrderMethod::Improved;
        if sub_path.points() <= BRANCH_POINTS_MAX {
            let trees = share(effort.branch_trees);
            let branched = branch(sub_path, &ascent, improver.weight(), trees, settled);
            if let Some((order, _)) = &branched.better {
                improver.adopt(order);
            }
            bound = bound.max(branched.bound);
            if branched.complete {
                method = OrderMethod::Exact;
            }
        }
    }
    if improver.weight() >= matrix.missing() {
        let complete = method == OrderMethod::Exact;
        return Err(if complete { NoOrder::NoneExists } else { NoOrder::NoneFound });
    }
    let (order, weight) = (improver.order(), improver.weight());
    let cost = matrix.distance(weight).cost.get();
    let bound = matrix.cost_at_least(bound).min(cost);
    if method == OrderMethod::Improved && bound == cost {
        method = OrderMethod::Proven;
    }
    Ok(Found { order, weight, bound, method })
}

fn bound_below(
    sub_path: &SubPath,
    target: i64,
    effort: &Effort,
    enough: impl Fn(i64) -> bool,
) -> Option<Ascent> {
    let flat = sub_path.flat();
    let weights = Weights { flat, points: sub_path.points(), required: 0 };
    let begin = vec![0; sub_path.size()];
    ascend(weights, &begin, target, effort.ascent_steps.max(1), STRIDE, enough)
}

#[cfg(test)]
mod prescribed_tests;
#[cfg(test)]
mod tests;
