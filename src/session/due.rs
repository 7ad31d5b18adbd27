//! What is to be computed, and what came of it.

use std::sync::Arc;

use super::Session;
use super::state::Step;
use super::work::{Moves, Order, Picture, View};
use crate::plan::End;
use crate::store;

impl Session {
    /// The work that is due, always the latest: the job first, its letters when
    /// nothing moves any more; of each at most one piece at a time.
    pub fn due(&mut self) -> Option<Order> {
        if self.jobs.begin() {
            return Some(self.order());
        }
        let moves = !self.hand.moving().is_empty() || self.hand.drawing.reshape.is_some();
        if moves { None } else { self.jobs.begin_letters().map(Order::Letters) }
    }

    fn order(&self) -> Order {
        let mut plan = self.document.plan().clone();
        let held = self.hand.drawing.reshape.as_ref();
        if let Some(edit) = held.and_then(|held| held.edit.clone()) {
            // What does not go stays as it was: the release says why.
            let _ = plan.apply(edit);
        }
        for (end, to) in self.hand.moving() {
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
            aside: store::missing_backdrops(&plan, &self.document.folder()),
            plan: Box::new(plan),
            view: View {
                level: self.sight.level(),
                circuit: self.selection.circuit(),
                paper: (self.sight.step() == Step::Papers).then_some(self.sight.page()),
            },
            before: self.jobs.picture().cloned(),
            moves: Moves::of(self.hand.moving().iter().map(|(end, _)| (*end).into())),
            stamp: self.jobs.stamp(),
            watch: self.jobs.watch().clone(),
        }
    }

    /// Takes what was computed. Letters that come late for their job are let go.
    pub fn done(&mut self, picture: Arc<Picture>) {
        let (stamp, drawn) = (picture.stamp, picture.bounds());
        if self.jobs.take(picture) {
            self.sight.drawn(stamp, drawn);
        }
    }

    /// What was ordered could not be computed; what is shown stays.
    pub fn failed(&mut self) {
        self.jobs.fail();
        self.said = "this plan could not be computed; undo the last change".to_owned();
    }
}
