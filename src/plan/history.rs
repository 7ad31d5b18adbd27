//! Undo and redo.

use super::{Edit, EditError, Plan};

/// What was done to a plan, so that it can be undone and done again.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct History {
    undo: Vec<Edit>,
    redo: Vec<Edit>,
}

impl History {
    /// Changes a plan and remembers how to change it back. What was undone
    /// before can then no longer be done again.
    ///
    /// # Errors
    /// As [`Plan::apply`]; then plan and history are as they were.
    pub fn apply(&mut self, plan: &mut Plan, edit: Edit) -> Result<(), EditError> {
        self.undo.push(plan.apply(edit)?);
        self.redo.clear();
        Ok(())
    }

    /// Undoes the latest edit; false where there is none.
    ///
    /// # Errors
    /// As [`Plan::apply`], where the plan was changed behind the history's
    /// back; then both are as they were.
    pub fn undo(&mut self, plan: &mut Plan) -> Result<bool, EditError> {
        step(&mut self.undo, &mut self.redo, plan)
    }

    /// Does again what was undone latest; false where there is nothing.
    ///
    /// # Errors
    /// As [`History::undo`].
    pub fn redo(&mut self, plan: &mut Plan) -> Result<bool, EditError> {
        step(&mut self.redo, &mut self.undo, plan)
    }

    /// What undoing would do to the plan.
    #[must_use]
    pub fn next_undo(&self) -> Option<&Edit> {
        self.undo.last()
    }

    /// What doing again would do to the plan.
    #[must_use]
    pub fn next_redo(&self) -> Option<&Edit> {
        self.redo.last()
    }

    /// Whether there is something to undo.
    #[must_use]
    pub const fn can_undo(&self) -> bool {
        !self.undo.is_empty()
    }

    /// Whether there is something to do again.
    #[must_use]
    pub const fn can_redo(&self) -> bool {
        !self.redo.is_empty()
    }
}

fn step(from: &mut Vec<Edit>, to: &mut Vec<Edit>, plan: &mut Plan) -> Result<bool, EditError> {
    let Some(edit) = from.last() else { return Ok(false) };
    to.push(plan.apply(edit.clone())?);
    from.pop();
    Ok(true)
}
