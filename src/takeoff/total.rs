//! What a quote comes to, or how far it is known: a sum that lacks something
//! is never a total.

use std::collections::BTreeSet;

use serde::Serialize;

use crate::lengths::Lengths;
use crate::plan::{Circuit, CircuitId, End, Plan};
use crate::runs::Runs;
use crate::units::{Cents, Worked};

/// What there is to pay, where that is known.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Total<T> {
    /// Everything has its price.
    Whole(T),
    /// Something has none, so there is no total.
    Short {
        /// What the rest comes to. None: nothing has a price.
        priced: Option<T>,
        /// What is missing.
        lacks: Lacks,
    },
}

/// What a price lacks. Nothing at all: there is nothing to price yet.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Lacks {
    /// Lines without a price.
    pub lines: usize,
    /// Legs whose cable is not chosen: their cable is on no line.
    pub legs: usize,
    /// Points that no cable leads to yet: their cable and its way are on no line.
    pub points: usize,
    /// Circuits with points and without a device: it is on no line.
    pub circuits: usize,
}

/// The sums of what has a price.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Sums {
    /// The lines added up.
    pub net: Worked<Cents>,
    /// The margin on that.
    pub margin: Worked<Cents>,
    /// The tax on both.
    pub tax: Worked<Cents>,
    /// All together.
    pub sum: Worked<Cents>,
}

impl<T> Total<T> {
    /// Nothing is priced, and nothing is there to be.
    #[must_use]
    pub fn nothing() -> Self {
        Self::Short { priced: None, lacks: Lacks::default() }
    }

    /// What there is to pay. None where that is not known.
    #[must_use]
    pub const fn whole(&self) -> Option<&T> {
        match self {
            Self::Whole(all) => Some(all),
            Self::Short { .. } => None,
        }
    }

    /// What has a price, be it all or not. None: nothing has.
    #[must_use]
    pub const fn priced(&self) -> Option<&T> {
        match self {
            Self::Whole(all) => Some(all),
            Self::Short { priced, .. } => priced.as_ref(),
        }
    }

    /// What is missing. None: nothing is.
    #[must_use]
    pub const fn lacks(&self) -> Option<&Lacks> {
        match self {
            Self::Whole(_) => None,
            Self::Short { lacks, .. } => Some(lacks),
        }
    }

    /// The same of something else.
    pub fn map<U>(&self, of: impl Fn(&T) -> U) -> Total<U> {
        match self {
            Self::Whole(all) => Total::Whole(of(all)),
            Self::Short { priced, lacks } => {
                Total::Short { priced: priced.as_ref().map(of), lacks: *lacks }
            }
        }
    }
}

impl<T> Default for Total<T> {
    fn default() -> Self {
        Self::nothing()
    }
}

impl Lacks {
    /// Lines aside, what a plan leaves open that a price depends on.
    pub(super) fn of(plan: &Plan, runs: &Runs, lengths: &Lengths) -> Self {
        let without = lengths.cables.iter().filter(|cable| cable.cable.is_none());
        let legs = runs.circuits.values().flat_map(|run| &run.legs);
        let joined: BTreeSet<End> = legs.flat_map(|leg| [leg.from, leg.to]).collect();
        let feeding: BTreeSet<CircuitId> =
            plan.points.values().filter_map(|point| point.circuit).collect();
        let open =
            |id: &CircuitId, circuit: &Circuit| circuit.device.is_none() && feeding.contains(id);
        Self {
            lines: 0,
            legs: without.map(|cable| cable.pieces).sum(),
            points: plan.points.keys().filter(|id| !joined.contains(&End::Point(**id))).count(),
            circuits: plan.circuits.iter().filter(|(id, circuit)| open(id, circuit)).count(),
        }
    }

    /// Whether nothing is missing.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        *self == Self::default()
    }

    /// `incomplete: 4 lines without a price, 1 point not wired yet`.
    #[must_use]
    pub fn says(&self) -> String {
        if self.is_nothing() {
            return "nothing to price yet".to_owned();
        }
        let counted = |count: usize, one: &str, many: &str, how: &str| {
            let what = if count == 1 { one } else { many };
            (count > 0).then(|| format!("{count} {what} {how}"))
        };
        let told = [
            counted(self.lines, "line", "lines", "without a price"),
            counted(self.legs, "leg", "legs", "without a cable chosen"),
            counted(self.points, "point", "points", "not wired yet"),
            counted(self.circuits, "circuit", "circuits", "without a device"),
        ];
        format!("incomplete: {}", told.into_iter().flatten().collect::<Vec<_>>().join(", "))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_missing_is_counted_in_words() {
        let lacks = Lacks { lines: 4, points: 1, ..Lacks::default() };
        let expect = "incomplete: 4 lines without a price, 1 point not wired yet";
        assert_eq!(lacks.says(), expect);
        assert_eq!(Lacks::default().says(), "nothing to price yet");
    }
}
