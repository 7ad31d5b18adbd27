//! Materials other than cable, by count or by metre.

mod at_boards;
mod at_points;
mod boxes;
mod entering;
mod on_the_way;

use std::collections::BTreeMap;

use serde::Serialize;

use super::origin::sum;
use super::{Origin, Part, Quantity};
use crate::plan::Plan;
use crate::rules::RuleBook;
use crate::runs::Runs;

/// So many of one thing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Item {
    /// What it belongs with.
    pub group: ItemGroup,
    /// The short name by which it finds its price, the general before the
    /// particular: `box_masonry_35`.
    pub code: String,
    /// What it is, in words.
    pub name: String,
    /// How many or how long: its parts added up.
    pub quantity: Quantity,
    /// What the count came from.
    pub parts: Vec<Part>,
    /// Where the way of counting comes from.
    pub source: &'static str,
}

/// What an item belongs with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum ItemGroup {
    /// What is seen and used: sockets, switches, lights, alarms.
    Accessories,
    /// The plates in front of boxes.
    Plates,
    /// Boxes in and on walls, junction boxes.
    Boxes,
    /// Clips, capping, conduit, trunking, bushes.
    Fixings,
    /// Boards, devices.
    Boards,
    /// What is written on cables and boards.
    Labels,
}

impl ItemGroup {
    /// What people call it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Accessories => "accessories",
            Self::Plates => "plates",
            Self::Boxes => "boxes",
            Self::Fixings => "fixings",
            Self::Boards => "boards and devices",
            Self::Labels => "labels",
        }
    }
}

/// Everything but the cable, by group and code.
pub(super) fn materials(plan: &Plan, runs: &Runs, rules: &RuleBook) -> Vec<Item> {
    let mut tally = Tally::default();
    at_points::count(plan, runs, rules, &mut tally);
    on_the_way::count(plan, runs, &mut tally);
    at_boards::count(plan, &rules.local(plan.project.regime), &mut tally);
    tally.items()
}

/// What an item is, apart from how many.
struct Kind {
    group: ItemGroup,
    code: String,
    name: String,
    source: &'static str,
}

/// Items as they are counted.
#[derive(Default)]
struct Tally {
    items: BTreeMap<(ItemGroup, String), Item>,
}

impl Tally {
    /// Adds a share; nothing where it is nothing.
    fn add(&mut self, kind: Kind, of: Origin, quantity: Quantity) {
        if quantity.each() == 0 && quantity.length().get() == 0 {
            return;
        }
        let Kind { group, code, name, source } = kind;
        let part = Part { of, quantity };
        let key = (group, code.clone());
        let start = || Item { group, code, name, quantity, parts: Vec::new(), source };
        self.items.entry(key).or_insert_with(start).parts.push(part);
    }

    fn items(self) -> Vec<Item> {
        let sums = |mut item: Item| {
            item.quantity = sum(&item.parts);
            item
        };
        self.items.into_values().map(sums).collect()
    }
}
