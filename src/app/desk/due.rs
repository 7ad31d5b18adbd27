//! What is to be computed, and what came of it.

use std::sync::Arc;

use wirewend::plan::{End, Place};
use wirewend::store;
use wirewend::units::Watch;

use super::Desk;
use crate::app::foils::Moves;
use crate::app::keys::Step;
use crate::app::work::{Order, Picture, View};

impl Desk {
    /// The work that is due, always the latest: the job first, its letters when
    /// nothing moves any more; of each at most one piece at a time.
    pub(in crate::app) fn due(&mut self) -> Option<Order> {
        if !self.busy && self.ordered != self.stamp {
            self.busy = true;
            self.ordered = self.stamp;
            (self.watch, self.waited) = (Watch::default(), 0);
            return Some(self.order());
        }
        let picture = self.picture.as_ref().filter(|_| !self.lettering && !self.behind())?;
        if picture.lettered || !self.moving().is_empty() || self.survey.reshape.is_some() {
            return None;
        }
        self.lettering = true;
        Some(Order::Letters(Arc::clone(picture)))
    }

    fn moving(&self) -> &[(End, Place)] {
        self.hold.as_ref().map_or(&[], |hold| &hold.to)
    }

    fn order(&self) -> Order {
        let mut plan = self.plan.clone();
        let held = self.survey.reshape.as_ref();
        if let Some(edit) = held.and_then(|held| held.edit.clone()) {
            // What does not go stays as it was: the release says why.
            let _ = plan.apply(edit);
        }
        for (end, to) in self.moving() {
            match end {
                End::Point(id) => {
                    if let Some(point) = plan.points.get_mut(id) {
                        point.place = Some(*to);
                    }
                }
                End::Board(id) => {
                    if let Some(board) = plan.boards.get_mut(id) {
                        board.place = Some(*to);
                    }
                }
            }
        }
        Order::Job {
            aside: store::missing_backdrops(&plan, &self.folder()),
            plan: Box::new(plan),
            view: View {
                level: self.level,
                circuit: self.circuit,
                paper: (self.step == Step::Papers).then_some(self.page),
            },
            before: self.picture.clone(),
            moves: Moves::of(self.moving().iter().map(|(end, _)| (*end).into())),
            stamp: self.stamp,
            watch: self.watch.clone(),
        }
    }

    /// Takes what was computed. Letters that come late for their job are let go.
    pub(in crate::app) fn done(&mut self, picture: Arc<Picture>) {
        if picture.lettered {
            self.lettering = false;
            if picture.stamp != self.stamp {
                return;
            }
        } else {
            self.busy = false;
        }
        if self.fit_when.is_some_and(|stamp| picture.stamp >= stamp) {
            self.fit_when = None;
            self.fit_soon = true;
        }
        self.picture = Some(picture);
        if self.fit_soon {
            self.fit();
            self.fit_soon = !self.sized;
        }
    }

    /// What was ordered could not be computed; what is shown stays.
    pub(in crate::app) fn failed(&mut self) {
        (self.busy, self.lettering) = (false, false);
        self.said = "this plan could not be computed; undo the last change".to_owned();
    }

    /// Whether a plan is being computed.
    pub(in crate::app) const fn is_busy(&self) -> bool {
        self.busy
    }

    /// Whether what is shown is older than the plan.
    pub(in crate::app) fn behind(&self) -> bool {
        self.picture.as_ref().is_none_or(|picture| picture.stamp != self.stamp)
    }
}
