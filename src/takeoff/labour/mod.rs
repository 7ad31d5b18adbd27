//! What there is to do, by task, and how long it takes.

mod counts;
mod minutes;

use serde::Serialize;

use super::{Part, Quantity};
use crate::plan::Plan;
use crate::runs::Runs;
use crate::units::Worked;

/// One kind of work.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Task {
    /// The short name by which it finds its minutes and its price.
    pub code: &'static str,
    /// What it is, in words.
    pub name: &'static str,
    /// How many or how long: its parts added up.
    pub quantity: Quantity,
    /// What the count came from.
    pub parts: Vec<Part>,
    /// How long it takes, in whole minutes.
    pub minutes: Worked<i64>,
}

/// Every task there is anything to do of, in the order of the work.
pub(super) fn labour(plan: &Plan, runs: &Runs) -> Vec<Task> {
    counts::count(plan, runs)
        .into_iter()
        .filter(|(_, parts)| !parts.is_empty())
        .map(|(rate, parts)| minutes::task(&plan.prices.labour, rate, &parts))
        .collect()
}

/// A share of a task, and what its circumstances add.
struct Share {
    part: Part,
    /// Thousandths added for how one gets at it.
    access_permille: u16,
}
