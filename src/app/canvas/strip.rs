//! The strip of the leg that is chosen, made anew when either changes.

use wirewend::session::state::{LegKey, Step};
use wirewend::sheet::{House, run_strip};

use crate::app::App;
use crate::app::canvas::paint::{Ready, ready};

/// A leg rolled out.
#[derive(Debug)]
pub(in crate::app) struct Strip {
    pub(in crate::app) leg: LegKey,
    /// The picture that it was made from.
    pub(in crate::app) stamp: u64,
    pub(in crate::app) marks: Vec<Ready>,
}

impl App {
    /// Makes the strip of the chosen leg, where it is another one or has
    /// changed.
    pub(in crate::app) fn roll_out(&mut self) {
        let session = &self.session;
        let shown = !session.sight.strip_hidden() && session.sight.step() != Step::Papers;
        let picture = session.jobs.picture().filter(|_| shown);
        let found = picture.and_then(|picture| {
            let (index, leg) = session.chosen_leg(picture)?;
            Some((picture, index, LegKey::of(leg)))
        });
        let Some((picture, index, leg)) = found else {
            self.strip = None;
            return;
        };
        let same = |strip: &Strip| strip.leg == leg && strip.stamp == picture.stamp;
        if self.strip.as_ref().is_some_and(same) {
            return;
        }
        let local = picture.rules.local(picture.plan.project.regime);
        let house = House::new(&picture.plan, &picture.runs, &picture.lengths, local);
        let items = run_strip(&house, leg.circuit, index).unwrap_or_default();
        let (marks, stamp) = (ready(&items), picture.stamp);
        self.strip = Some(Strip { leg, stamp, marks });
    }
}
