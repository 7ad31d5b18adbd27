//! The marks of ends, which only findings name: made when the first is written.

use std::cell::OnceCell;

use crate::plan::{BoardId, End, Labels, Plan, PointId, labels};

/// The marks of a plan.
pub(super) struct Marks<'a> {
    plan: &'a Plan,
    made: OnceCell<Labels>,
}

impl<'a> Marks<'a> {
    pub(super) const fn of(plan: &'a Plan) -> Self {
        Self { plan, made: OnceCell::new() }
    }

    fn made(&self) -> &Labels {
        self.made.get_or_init(|| labels(self.plan))
    }

    pub(super) fn point(&self, id: PointId) -> &str {
        self.made().point(id)
    }

    pub(super) fn board(&self, id: BoardId) -> &str {
        self.made().board(id)
    }

    pub(super) fn end(&self, end: End) -> &str {
        self.made().end(end)
    }
}
