//! The cuts of a house in the order in which they are made, in words.

use std::collections::BTreeMap;

use crate::plan::CircuitId;
use crate::sheet::house::{Cut, House};
use crate::takeoff::{CutPlan, CutSource, Slice, ToBuy};
use crate::units::Mm;
use crate::wording::{figure, metres};

/// A cut with where it comes off.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Ordered<'a> {
    pub(crate) cut: Cut<'a>,
    /// Where. None: its circuit has no cable yet, so that nothing holds it.
    pub(crate) off: Option<Off<'a>>,
}

/// Where a cut comes off.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Off<'a> {
    /// The cut plan of its cable.
    pub(crate) cuts: &'a CutPlan,
    /// The cut within it.
    pub(crate) slice: Slice<'a>,
}

impl<'a> Off<'a> {
    /// The drum or the off-cut, if it is one.
    pub(crate) const fn source(&self) -> Option<&'a CutSource> {
        self.slice.source
    }

    /// What it is called: `drum B`, `by the metre`.
    pub(crate) fn name(&self) -> &'a str {
        self.slice.source.map_or(BY_THE_METRE, |source| source.name.as_str())
    }

    /// Whether another comes off the same.
    fn is_with(&self, other: &Self) -> bool {
        self.cuts.cable == other.cuts.cable && self.name() == other.name()
    }

    /// As a card has it: `drum B, second cut` and under it `mark 16.00 to 26.20`.
    pub(crate) fn told(&self) -> Vec<String> {
        let Slice { piece, cut, from, to, .. } = self.slice;
        if piece.length <= Mm::ZERO {
            return vec!["no length: nothing to cut".to_owned()];
        }
        let stock = if self.slice.source.is_none() { "no stock: " } else { "" };
        let done = if piece.done { "cut already; counted as " } else { "" };
        let name = format!("{done}{stock}{}, {} cut", self.name(), ordinal(cut));
        vec![name, format!("mark {} to {}", figure(from), figure(to))]
    }
}

/// What is bought without a drum of the stock.
const BY_THE_METRE: &str = "by the metre";

impl Ordered<'_> {
    /// Whether another comes off the same.
    pub(crate) fn is_with(&self, other: &Self) -> bool {
        match (&self.off, &other.off) {
            (Some(one), Some(other)) => one.is_with(other),
            (None, None) => true,
            _ => false,
        }
    }
}

/// Every leg in the order of cutting: cable by cable, source by source, each
/// from its free end on; last those that have no cable yet.
pub(crate) fn in_order<'a>(house: &House<'a>, plans: &'a [CutPlan]) -> Vec<Ordered<'a>> {
    let key = |cut: &Cut<'_>| (cut.leg.circuit, cut.leg.number);
    let cuts = house.cuts();
    let mut left: BTreeMap<(CircuitId, u32), Cut<'a>> =
        cuts.iter().map(|cut| (key(cut), *cut)).collect();
    let mut ordered = Vec::new();
    for cuts in plans {
        for slice in cuts.in_order() {
            if let Some(cut) = left.remove(&(slice.piece.circuit, slice.piece.leg)) {
                ordered.push(Ordered { cut, off: Some(Off { cuts, slice }) });
            }
        }
    }
    let rest = cuts.into_iter().filter(|cut| left.contains_key(&key(cut)));
    ordered.extend(rest.map(|cut| Ordered { cut, off: None }));
    ordered
}

/// What to buy, in words: `2 × 100.00 m, 12.40 m by the metre`.
pub(crate) fn to_buy(buy: &ToBuy) -> String {
    let mut told: Vec<String> = Vec::new();
    for kind in &buy.drums {
        told.push(format!("{} × {}", kind.names.len(), metres(kind.length)));
    }
    if let Some(some) = &buy.by_the_metre {
        told.push(format!("{} by the metre", metres(some.buy.value)));
    }
    if told.is_empty() { "nothing: off-cuts will do".to_owned() } else { told.join(", ") }
}

/// `second`, `11th`, `22nd`.
fn ordinal(number: usize) -> String {
    const WORDS: [&str; 10] = [
        "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth",
        "tenth",
    ];
    if let Some(word) = number.checked_sub(1).and_then(|at| WORDS.get(at)) {
        return (*word).to_owned();
    }
    let ending = match (number % 100, number % 10) {
        (11..=13, _) => "th",
        (_, 1) => "st",
        (_, 2) => "nd",
        (_, 3) => "rd",
        _ => "th",
    };
    format!("{number}{ending}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_told_as_people_count() {
        let told: Vec<String> = [1, 2, 10, 11, 12, 13, 21, 22, 103, 111].map(ordinal).into();
        let wanted =
            ["first", "second", "tenth", "11th", "12th", "13th", "21st", "22nd", "103rd", "111th"];
        assert_eq!(told, wanted, "by hand");
    }
}
