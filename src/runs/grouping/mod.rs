//! Which points share a circuit.
//!
//! The front door is [`group`]. It works on a [`Matrix`] alone, as the orders
//! do, and knows neither plan nor rules: what a point loads a circuit with and
//! what a circuit holds are numbers that arrive with the [`Task`]. There is no
//! clock in it: how long it tries is a number of steps.
//!
//! - Up to [`EXACT_POINTS_MAX`] points: every way of sharing them out is looked
//!   at, so the answer is the best.
//! - More: circuits are emptied in places and filled again where that is
//!   cheapest, over and over (slack induction by string removals, strings whole
//!   or split, Christiaens and Vanden Berghe 2020), too full ones for a penalty, and
//!   each is put in its best order at the end. Two such searches go on side by side; then both
//!   go on from the better one where they differ.
//!
//! Either way a bound says how much could be left.

mod bound;
mod circuits;
mod exact;
mod heat;
mod legs;
mod link;
mod penalty;
mod picture;
mod recreate;
mod ruin;
mod search;
mod stream;
mod task;

use super::OrderMethod;
use super::chain::{self, Matrix, Shape};
use crate::units::{Cost, Mm};
pub use task::{GroupingEffort, Load, NoGrouping, Task};

/// Up to so many points every way of sharing them out is looked at.
pub const EXACT_POINTS_MAX: usize = 12;

/// Points shared out over circuits.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Grouped {
    /// For every circuit its points in the order of its feed, the board left
    /// out; the circuit with the lowest point first.
    pub groups: Vec<Vec<usize>>,
    /// The costs of all legs, and the fixed cost of every circuit.
    pub cost: Cost,
    /// The lengths of all legs.
    pub length: Mm,
    /// No sharing out costs less.
    pub bound: Cost,
    /// How it was found.
    pub method: OrderMethod,
}

/// Shares points out over circuits for the least cost.
///
/// ```
/// use wirewend::runs::Distance;
/// use wirewend::runs::chain::{Matrix, Shape};
/// use wirewend::runs::grouping::{GroupingEffort, Load, Task, group};
/// use wirewend::units::{Cost, Mm};
///
/// // Along a straight wall: the board in the middle, two points on each side.
/// let places = [0_i64, -3, -2, 2, 3];
/// let leg = |a: i64, b: i64| Distance { cost: Cost::of_mm((a - b).abs()), length: Mm::new((a - b).abs()) };
/// let rows: Vec<Vec<_>> =
///     places.iter().map(|a| places.iter().map(|b| Some(leg(*a, *b))).collect()).collect();
/// let matrix = Matrix::new(&rows).expect("square and symmetric");
/// let one = Load { points: 1, watts: 0 };
/// let task = Task {
///     shape: Shape::Open,
///     loads: vec![Load::default(), one, one, one, one],
///     limit: Load { points: 3, watts: 0 },
///     fixed: Cost::ZERO,
/// };
/// let grouped = group(&matrix, &task, &GroupingEffort::default()).expect("each fits a circuit");
/// assert_eq!(grouped.groups, [vec![2, 1], vec![3, 4]]);
/// assert_eq!(grouped.length, Mm::new(6));
/// ```
///
/// # Errors
/// [`NoGrouping`] where loads are missing, a point fits no circuit, or some
/// points cannot be reached.
pub fn group(matrix: &Matrix, task: &Task, effort: &GroupingEffort) -> Result<Grouped, NoGrouping> {
    task.check(matrix)?;
    let work = task::Work::new(matrix, task);
    if work.points() == 0 {
        return Ok(done(matrix, task, Vec::new(), 0, OrderMethod::Exact));
    }
    if work.points() <= EXACT_POINTS_MAX {
        let (groups, weight) = exact::best(&work);
        if !work.reaches(&groups) {
            return Err(NoGrouping::Unreached);
        }
        let bound = matrix.distance(weight).cost.get();
        return Ok(done(matrix, task, groups, bound, OrderMethod::Exact));
    }
    let mut best = search::improve(&work, effort);
    order_each(matrix, task, &mut best);
    if !work.reaches(&best) {
        return Err(NoGrouping::Unreached);
    }
    let bound = bound::below(&work, work.total(&best), effort.bound_steps);
    let bound = matrix.cost_at_least(bound.max(0));
    Ok(done(matrix, task, best, bound, OrderMethod::Improved))
}

/// Puts every circuit in the best order of its points.
fn order_each(matrix: &Matrix, task: &Task, groups: &mut [Vec<usize>]) {
    for group in groups {
        let ends: Vec<usize> = std::iter::once(0).chain(group.iter().copied()).collect();
        let rows: Vec<Vec<_>> =
            ends.iter().map(|a| ends.iter().map(|b| matrix.leg(*a, *b)).collect()).collect();
        let effort =
            chain::Effort { kicks: 200, ascent_steps: 50, branch_trees: 0, exact_up_to: 12 };
        let Ok(part) = Matrix::new(&rows) else { continue };
        if let Ok(found) = chain::order(&part, task.shape, &[], &effort) {
            *group = found.sequence[1..].iter().map(|index| ends[*index]).collect();
        }
    }
}

/// The costs added up, circuits put in a fixed order.
fn done(
    matrix: &Matrix,
    task: &Task,
    mut groups: Vec<Vec<usize>>,
    bound: i64,
    method: OrderMethod,
) -> Grouped {
    groups.sort_by_key(|group| group.iter().min().copied());
    let (mut cost, mut length) = (Cost::ZERO, Mm::ZERO);
    for group in &groups {
        cost += task.fixed;
        let back = (task.shape == Shape::Closed).then_some(0);
        let mut at = 0;
        for next in group.iter().copied().chain(back) {
            if let Some(leg) = matrix.leg(at, next) {
                cost += leg.cost;
                length += leg.length;
            }
            at = next;
        }
    }
    let bound = Cost::new(bound).min(cost);
    let proven = method == OrderMethod::Improved && bound == cost;
    let method = if proven { OrderMethod::Proven } else { method };
    Grouped { groups, cost, length, bound, method }
}
