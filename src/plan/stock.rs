//! Cable in the van and at the wholesaler, prices, and what was measured.

use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

use super::{Cable, CircuitId, End};
use crate::units::{Cents, Mm};

/// What cable can be cut from.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Stock {
    /// Drums that can be bought.
    pub drums: Vec<Drum>,
    /// Pieces left from earlier jobs.
    pub off_cuts: Vec<OffCut>,
    /// A left-over shorter than this is scrap, mm.
    pub usable: Mm,
}

/// A drum that can be bought.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Drum {
    /// The cable on it.
    pub cable: Cable,
    /// How much of it, mm.
    pub length: Mm,
    /// What it costs, in the currency's smallest unit.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub price: Option<Cents>,
}

/// A piece left from an earlier job.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct OffCut {
    /// What it is a piece of.
    pub cable: Cable,
    /// How long it is, mm.
    pub length: Mm,
    /// What is written on it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub label: String,
}

/// What things cost. No real prices ship with Wirewend.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct PriceBook {
    /// The currency, as people write it.
    pub currency: String,
    /// Tax, thousandths.
    pub tax_permille: u16,
    /// Margin, thousandths.
    pub margin_permille: u16,
    /// Materials and tasks.
    pub items: Vec<PriceItem>,
    /// How long work takes.
    pub labour: Labour,
}

/// How long work takes: what is added to average conditions, and the minutes
/// of tasks that are not as Wirewend begins with.
///
/// The defaults are common practice, to be edited.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Labour {
    /// Whether people live in the house during the work.
    pub lived_in: bool,
    /// Thousandths added to every task where they do.
    pub lived_in_permille: u16,
    /// Thousandths added to running cable in a void that one crawls in.
    pub crawl_permille: u16,
    /// Thousandths added to running cable in a void that no person gets into.
    pub closed_permille: u16,
    /// Tasks with minutes of their own.
    pub minutes: Vec<TaskMinutes>,
}

impl Default for Labour {
    fn default() -> Self {
        Self {
            lived_in: false,
            lived_in_permille: 150,
            crawl_permille: 250,
            closed_permille: 500,
            minutes: Vec::new(),
        }
    }
}

/// How long one of a task takes, or one metre of it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct TaskMinutes {
    /// The task by its short name.
    pub code: String,
    /// Minutes under average conditions.
    pub minutes: u16,
}

/// The price of one thing or one task.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct PriceItem {
    /// The short name by which materials and tasks find their price.
    pub code: String,
    /// What it is, in words.
    pub name: String,
    /// What one of it is: `each`, `m`, `h`.
    pub unit: String,
    /// What one of it costs, in the currency's smallest unit.
    pub price: Cents,
}

/// A leg as it was really cut and pulled.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub struct Measured {
    /// The circuit it belongs to.
    pub circuit: CircuitId,
    /// One end.
    pub from: End,
    /// The other end.
    pub to: End,
    /// The length that was measured, mm.
    pub length: Mm,
    /// Who measured it.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub by: String,
    /// The day, as `2026-11-25`.
    #[serde(default, skip_serializing_if = "String::is_empty")]
    pub on: String,
}
