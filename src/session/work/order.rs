//! What is to be computed, away from the hand that draws.

use std::sync::{Arc, Mutex, PoisonError};

use super::{Drawn, Job, Known, Letters, Moves, Picture, View};
use crate::plan::{Finding, Plan};
use crate::rules::RuleBook;
use crate::sheet::{Item, Layer};
use crate::units::Watch;

/// What is to be computed.
#[derive(Clone, Debug)]
pub enum Order {
    /// Everything but letters and price: those of the last picture stay
    /// meanwhile.
    Job {
        /// The plan.
        plan: Box<Plan>,
        /// What was found beside the plan: pictures that are not there.
        aside: Vec<Finding>,
        /// What of it is shown.
        view: View,
        /// What was shown before.
        before: Option<Arc<Picture>>,
        /// What moves: its old letters would be in the wrong place.
        moves: Moves,
        /// Which state of the session it is.
        stamp: u64,
        /// Stops it, and tells how far it is.
        watch: Watch,
    },
    /// The letters beside what is computed already, and its price.
    Letters(Arc<Picture>),
}

impl Order {
    /// Computes it, with what was routed before at hand.
    pub fn done(self, rules: &Arc<RuleBook>, known: &Mutex<Known>) -> Drawn {
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
                let picture = Picture { letters, price, ..Picture::of(job, view, &items, stamp) };
                picture.drawn(items, moves)
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
                new.drawn(items, Moves::default())
            }
        }
    }
}
