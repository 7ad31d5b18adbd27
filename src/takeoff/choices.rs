//! What the client may leave out, and what the house costs with and without.

use std::collections::BTreeSet;

use serde::Serialize;

use super::{Quote, TakeOff, take_off};
use crate::lengths;
use crate::plan::{End, Plan, Point, PointId};
use crate::rules::RuleBook;
use crate::runs::{self, chain::Effort};
use crate::space::Space;

/// The most that may be chosen one by one: every combination is routed, cut
/// and priced by itself, since what is left out changes ways and drums.
pub const CHOICES_MAX: usize = 5;

/// Optional points that are kept or left out together.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Choice {
    /// What they are, and where.
    pub name: String,
    /// Which, in drawing order.
    pub points: Vec<PointId>,
}

/// A house with and without what is optional.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Choices {
    /// What may be left out, in drawing order.
    pub items: Vec<Choice>,
    /// A quote for every combination: in the quote at `n`, the item at `i` is
    /// kept where bit `i` of `n` is set. The last keeps all.
    pub quotes: Vec<Quote>,
}

impl Choices {
    /// With everything.
    #[must_use]
    pub fn with_all(&self) -> Option<&Quote> {
        self.quotes.last()
    }

    /// With everything but one item.
    #[must_use]
    pub fn without(&self, item: usize) -> Option<&Quote> {
        self.quotes.get(self.quotes.len().checked_sub(1)? & !(1 << item))
    }

    /// With nothing that is optional. None where nothing is.
    #[must_use]
    pub fn without_all(&self) -> Option<&Quote> {
        self.quotes.first().filter(|_| !self.items.is_empty())
    }
}

/// The quotes of a plan with and without its optional points. Those of a kind
/// in a room go together; where that makes too many, all of a room; what is
/// still too many, the rest as one.
#[must_use]
pub fn choices(plan: &Plan, whole: &TakeOff, rules: &RuleBook) -> Choices {
    let items = items(plan);
    let all = (1_usize << items.len()) - 1;
    let mut quotes: Vec<Quote> = (0..all)
        .map(|kept| {
            let out = |(at, _): &(usize, &Choice)| kept & (1 << at) == 0;
            let out = items.iter().enumerate().filter(out);
            let out = out.flat_map(|(_, item)| item.points.iter().copied()).collect();
            let less = without_points(plan, &out);
            let runs = runs::route(&less, &Space::of(&less), &Effort::default());
            take_off(&less, &runs, &lengths::measure(&less, &runs), rules).quote
        })
        .collect();
    quotes.push(whole.quote.clone());
    Choices { items, quotes }
}

fn items(plan: &Plan) -> Vec<Choice> {
    let room = |point: &Point| {
        let room = point.place.and_then(|place| plan.room_of(&place));
        let name = room.and_then(|id| plan.rooms.get(&id)).map_or("", |room| room.name.as_str());
        if name.is_empty() { "outside".to_owned() } else { name.to_owned() }
    };
    let by_kind = grouped(plan, &|point| format!("{}, {}", point.kind.name(), room(point)));
    if by_kind.len() <= CHOICES_MAX {
        return by_kind;
    }
    let mut by_room = grouped(plan, &|point| format!("optional points, {}", room(point)));
    if by_room.len() > CHOICES_MAX {
        let rest = by_room.split_off(CHOICES_MAX - 1);
        let points = rest.into_iter().flat_map(|item| item.points).collect();
        by_room.push(Choice { name: "all other optional points".to_owned(), points });
    }
    by_room
}

fn grouped(plan: &Plan, name: &dyn Fn(&Point) -> String) -> Vec<Choice> {
    let mut items: Vec<Choice> = Vec::new();
    for (id, point) in plan.points.iter().filter(|(_, point)| point.optional) {
        let name = name(point);
        match items.iter_mut().find(|item| item.name == name) {
            Some(item) => item.points.push(*id),
            None => items.push(Choice { name, points: vec![*id] }),
        }
    }
    for item in items.iter_mut().filter(|item| item.points.len() > 1) {
        item.name = format!("{} × {}", item.points.len(), item.name);
    }
    items
}

/// A plan without some of its points, and without what named them.
#[must_use]
pub fn without_points(plan: &Plan, out: &BTreeSet<PointId>) -> Plan {
    let mut less = plan.clone();
    let end = |end: &End| matches!(end, End::Point(id) if out.contains(id));
    less.points.retain(|id, _| !out.contains(id));
    for circuit in less.circuits.values_mut() {
        circuit.order.retain(|id| !out.contains(id));
        circuit.spurs.retain(|spur| !out.contains(&spur.point) && !end(&spur.from));
        circuit.pins.retain(|pin| !end(&pin.from) && !end(&pin.to));
    }
    for control in less.controls.values_mut() {
        control.lights.retain(|id| !out.contains(id));
        control.switches.retain(|id| !out.contains(id));
    }
    less.controls.retain(|_, one| !one.lights.is_empty() && !one.switches.is_empty());
    less.measured.retain(|one| !end(&one.from) && !end(&one.to));
    less.readings.retain(|one| !end(&one.at));
    less
}
