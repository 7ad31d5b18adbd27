//! What is computed from a plan, away from the hand that draws: runs, lengths,
//! checks and the marks of the sheet.

mod job;
mod known;
mod picture;

pub(super) use self::known::Known;

use std::ops::Deref;
use std::sync::{Arc, Mutex, OnceLock, PoisonError};

use kurbo::Rect;
use wirewend::checks::Checked;
use wirewend::lengths::Lengths;
use wirewend::plan::{CircuitId, Finding, LevelId, Plan, Subject};
use wirewend::rules::RuleBook;
use wirewend::runs::Runs;
use wirewend::sheet::{Item, Layer, Papers};
use wirewend::takeoff::{Lacks, Sums, Total};
use wirewend::units::{Cents, Mm, Term, Watch, Working};
use wirewend::wording::Marks;

use super::foils::{Foils, Moves};

/// What is to be computed.
#[derive(Clone, Debug)]
pub(super) enum Order {
    /// Everything but letters and price: those of the last picture stay
    /// meanwhile.
    Job {
        plan: Box<Plan>,
        /// What was found beside the plan: pictures that are not there.
        aside: Vec<Finding>,
        view: View,
        before: Option<Arc<Picture>>,
        /// What moves: its old letters would be in the wrong place.
        moves: Moves,
        stamp: u64,
        /// Stops it, and tells how far it is.
        watch: Watch,
    },
    /// The letters beside what is computed already, and its price.
    Letters(Arc<Picture>),
}

/// What is shown of a plan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct View {
    pub(super) level: Option<LevelId>,
    /// The circuit that is shown alone.
    pub(super) circuit: Option<CircuitId>,
    /// The sheet that is shown as it will be printed, by its place in the set.
    pub(super) paper: Option<usize>,
}

/// Names and marks beside things, and what they were set for.
#[derive(Debug)]
pub(super) struct Letters {
    view: View,
    items: Vec<Item>,
}

/// A plan and what the rooms of the library make of it.
#[derive(Debug)]
pub(super) struct Job {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
    pub(super) checked: Checked,
    /// Of the drawing, its routes and its checks, worst first.
    pub(super) findings: Vec<Finding>,
    /// What was found beside the plan.
    aside: Vec<Finding>,
    /// Every paper, once somebody wants to see one.
    papers: OnceLock<Papers>,
}

/// A job as it is shown.
#[derive(Debug)]
pub(super) struct Picture {
    job: Arc<Job>,
    view: View,
    /// The marks of the level made ready for the canvas.
    pub(super) foils: Foils,
    /// The symbols of points and boards with the boxes around them, mm of
    /// paper.
    symbols: Vec<(Subject, Rect)>,
    /// The box around everything drawn, mm of paper.
    whole: Option<Rect>,
    /// The names and marks among them.
    letters: Option<Arc<Letters>>,
    /// What the job costs; with old letters, what it did.
    pub(super) price: Option<Price>,
    /// Whether these letters and the price are this picture's own.
    pub(super) lettered: bool,
    /// Which state of the desk this belongs to.
    pub(super) stamp: u64,
}

impl Deref for Picture {
    type Target = Job;
    fn deref(&self) -> &Job {
        &self.job
    }
}

/// What a job costs by the plan's own price book.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Price {
    pub(super) currency: String,
    pub(super) total: Total<Sums>,
}

impl Price {
    /// The total in words, or how far it is known.
    pub(super) fn says(&self) -> String {
        match &self.total {
            Total::Whole(sums) => self.money(sums.sum.value),
            Total::Short { priced: Some(sums), .. } => {
                format!("incomplete, {} so far", self.money(sums.sum.value))
            }
            Total::Short { priced: None, lacks } if lacks.is_nothing() => lacks.says(),
            Total::Short { priced: None, .. } => "no prices yet".to_owned(),
        }
    }

    /// How it came about, with every line, the margin and the tax: the window
    /// is the contractor's.
    pub(super) fn working(&self) -> Working {
        let Some(sums) = self.total.priced() else {
            return Working {
                formula: self.total.lacks().map_or_else(String::new, Lacks::says),
                terms: Vec::new(),
            };
        };
        let mut terms = sums.net.working.terms.clone();
        let added = [("lines added up", &sums.net), ("margin", &sums.margin), ("tax", &sums.tax)];
        terms.extend(added.map(|(what, part)| {
            Term::new(what, self.money(part.value), part.working.formula.clone())
        }));
        let sum = &sums.sum.working.formula;
        let formula = match self.total.lacks() {
            None => format!("{sum}; internal, not for the client"),
            Some(lacks) => {
                format!("{sum}: no total, {}; internal, not for the client", lacks.says())
            }
        };
        Working { formula, terms }
    }

    fn money(&self, amount: Cents) -> String {
        format!("{} {}", self.currency, Marks::SHOWN.money(amount)).trim().to_owned()
    }
}

impl Order {
    /// Computes it, with what was routed before at hand.
    pub(super) fn done(self, rules: &RuleBook, known: &Mutex<Known>) -> Picture {
        match self {
            Self::Job { plan, aside, view, before, moves, stamp, watch } => {
                let same = |before: &&Arc<Picture>| before.plan == *plan && before.aside == aside;
                let still = before.as_ref().filter(same);
                let job = still.map_or_else(
                    || {
                        let mut known = known.lock().unwrap_or_else(PoisonError::into_inner);
                        Arc::new(Job::of(*plan.clone(), aside.clone(), rules, &mut known, &watch))
                    },
                    |before| Arc::clone(&before.job),
                );
                let mut items = job.floor(view, false, Some(&watch));
                let letters = before.as_ref().and_then(|before| before.letters.clone());
                let letters = letters.filter(|letters| letters.view == view);
                if let Some(letters) = letters.as_ref().filter(|_| view.paper.is_none()) {
                    let goes =
                        |item: &&Item| matches!(item, Item::Group(group) if moves.touches(group));
                    let still = letters.items.iter().filter(|item| !goes(item));
                    items.extend(still.cloned());
                }
                let price = before.as_ref().and_then(|before| before.price.clone());
                let old = before.as_deref().map(|before| &before.foils);
                let picture = Picture { letters, price, ..Picture::of(job, view, &items, stamp) };
                picture.on_foils(items, &moves, old)
            }
            Self::Letters(picture) => {
                let (job, view) = (Arc::clone(&picture.job), picture.view);
                let items = job.floor(view, true, None);
                let of_letters = |item: &&Item| {
                    matches!(item, Item::Group(group)
                        if matches!(group.layer, Layer::Labels | Layer::Rooms))
                };
                let letters = items.iter().filter(of_letters).cloned().collect();
                let letters = Some(Arc::new(Letters { view, items: letters }));
                let price = Some(job.price());
                let new = Picture::of(job, view, &items, picture.stamp);
                let new = Picture { letters, price, lettered: true, ..new };
                new.on_foils(items, &Moves::default(), Some(&picture.foils))
            }
        }
    }
}

/// How far above a ceiling still belongs to its level, mm.
pub(super) const VOID: Mm = Mm::new(400);

#[cfg(test)]
mod tests {
    use super::*;

    fn price(total: Total<i64>) -> Price {
        let sums = |cents: &i64| Sums {
            sum: wirewend::units::Worked { value: Cents::new(*cents), ..Default::default() },
            ..Sums::default()
        };
        Price { currency: "AUD".to_owned(), total: total.map(sums) }
    }

    #[test]
    fn a_price_that_lacks_something_is_no_total() {
        let lacks = Lacks { lines: 4, ..Lacks::default() };
        let says = |total| price(total).says();
        assert_eq!(says(Total::Whole(123_456)), "AUD 1 234.56");
        let short = Total::Short { priced: Some(123_456), lacks };
        assert_eq!(says(short.clone()), "incomplete, AUD 1 234.56 so far");
        let formula = price(short).working().formula;
        assert!(formula.contains("no total, incomplete: 4 lines without a price"), "{formula}");
        assert_eq!(says(Total::Short { priced: None, lacks }), "no prices yet");
        assert_eq!(says(Total::nothing()), "nothing to price yet");
    }
}
