//! What is to be shared out, and within what.

use crate::runs::chain::{Matrix, Shape};
use crate::units::Cost;

/// What a point loads a circuit with, or what a circuit holds.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Load {
    /// Points, as the rules count them.
    pub points: u32,
    /// Connected load, W.
    pub watts: u32,
}

impl Load {
    /// Both together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            points: self.points.saturating_add(other.points),
            watts: self.watts.saturating_add(other.watts),
        }
    }

    /// What is left when a part is taken out.
    #[must_use]
    pub const fn without(self, part: Self) -> Self {
        Self {
            points: self.points.saturating_sub(part.points),
            watts: self.watts.saturating_sub(part.watts),
        }
    }

    /// Whether it keeps to a limit.
    #[must_use]
    pub const fn within(self, limit: Self) -> bool {
        self.points <= limit.points && self.watts <= limit.watts
    }
}

/// What is to be shared out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Task {
    /// How every circuit ends.
    pub shape: Shape,
    /// For every end of the matrix; that of the board (0) is not looked at.
    pub loads: Vec<Load>,
    /// What a circuit holds.
    pub limit: Load,
    /// What a circuit costs before any cable: its device, its tests.
    pub fixed: Cost,
}

/// How hard to try, in steps.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct GroupingEffort {
    /// How many times circuits are emptied in places and filled again, by
    /// each of the streams.
    pub steps: u32,
    /// How many searches go on side by side, each with its own chance and,
    /// where they are long, on a thread of its own.
    pub streams: u32,
    /// How many steps the bound is raised by; fewer where circuits hold more
    /// than fourteen, for whom each takes longer.
    pub bound_steps: u32,
}

impl Default for GroupingEffort {
    /// Suits a house: two hundred points in a tenth of a second on two cores.
    fn default() -> Self {
        Self { steps: 78_000, streams: 2, bound_steps: 15 }
    }
}

/// Why points cannot be shared out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
pub enum NoGrouping {
    /// Not as many loads as ends.
    #[error("there are {loads} loads for {ends} ends")]
    Loads {
        /// How many loads.
        loads: usize,
        /// How many ends.
        ends: usize,
    },
    /// A point that alone is too much for a circuit.
    #[error("end {0} alone is more than a circuit holds")]
    TooMuch(usize),
    /// Some points cannot be reached.
    #[error("not every point can be reached")]
    Unreached,
    /// A fixed cost that cannot be added up with the rest.
    #[error("the fixed cost is below nothing or too large")]
    Fixed,
}

impl Task {
    pub(super) fn check(&self, matrix: &Matrix) -> Result<(), NoGrouping> {
        let (loads, ends) = (self.loads.len(), matrix.count());
        if loads != ends {
            return Err(NoGrouping::Loads { loads, ends });
        }
        let fixed = i128::from(self.fixed.get()) * ends as i128;
        let unit = i128::from(matrix.weight_of(Cost::new(1)));
        if fixed < 0 || fixed * unit > 1 << 60 {
            return Err(NoGrouping::Fixed);
        }
        match (1..ends).find(|end| !self.loads[*end].within(self.limit)) {
            Some(end) => Err(NoGrouping::TooMuch(end)),
            None => Ok(()),
        }
    }
}

/// The task in weights.
pub(super) struct Work<'m> {
    matrix: &'m Matrix,
    pub(super) loads: &'m [Load],
    pub(super) limit: Load,
    /// What a circuit weighs before any leg.
    pub(super) fixed: i64,
    closed: bool,
}

impl<'m> Work<'m> {
    pub(super) fn new(matrix: &'m Matrix, task: &'m Task) -> Self {
        Self {
            matrix,
            loads: &task.loads,
            limit: task.limit,
            fixed: matrix.weight_of(task.fixed),
            closed: task.shape == Shape::Closed,
        }
    }

    pub(super) fn points(&self) -> usize {
        self.matrix.count() - 1
    }

    /// What a leg weighs that cannot be made.
    pub(super) fn missing(&self) -> i64 {
        self.matrix.missing()
    }

    pub(super) fn leg(&self, from: usize, to: usize) -> i64 {
        self.matrix.weight(from, to)
    }

    /// The legs from an end, by the end they lead to.
    pub(super) fn row(&self, from: usize) -> &[i64] {
        self.matrix.row(from)
    }

    /// From the last point of a circuit back to the board.
    pub(super) fn back(&self, from: usize) -> i64 {
        if self.closed { self.matrix.weight(from, 0) } else { 0 }
    }

    pub(super) fn group_weight(&self, group: &[usize]) -> i64 {
        let Some(last) = group.last() else { return 0 };
        let first = self.leg(0, group[0]);
        let inner: i64 = group.windows(2).map(|pair| self.leg(pair[0], pair[1])).sum();
        self.fixed + first + inner + self.back(*last)
    }

    pub(super) fn total(&self, groups: &[Vec<usize>]) -> i64 {
        groups.iter().map(|group| self.group_weight(group)).sum()
    }

    /// Whether every leg can be made.
    pub(super) fn reaches(&self, groups: &[Vec<usize>]) -> bool {
        let there = |from: usize, to: usize| self.matrix.leg(from, to).is_some();
        groups.iter().all(|group| {
            let Some(last) = group.last() else { return true };
            there(0, group[0])
                && group.windows(2).all(|pair| there(pair[0], pair[1]))
                && (!self.closed || there(*last, 0))
        })
    }
}
