//! What a take-off yields.

use serde::Serialize;

use super::{CutPlan, Item, Quote, Task};
use crate::plan::Finding;

/// Everything to order, to cut, to do and to charge for a plan.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct TakeOff {
    /// A cut plan for every type of cable, in order of cores, size and make.
    pub cuts: Vec<CutPlan>,
    /// Materials other than cable, by group and code.
    pub materials: Vec<Item>,
    /// What there is to do, by task.
    pub labour: Vec<Task>,
    /// What it costs.
    pub quote: Quote,
    /// What a person should look at: legs that no drum holds, things without
    /// a price.
    pub findings: Vec<Finding>,
}
