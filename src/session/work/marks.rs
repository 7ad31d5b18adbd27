//! The marks of a sheet, and what of them is on the move.

use std::collections::BTreeSet;

use crate::plan::{Severity, Subject};
use crate::sheet::{Group, Item};
use crate::units::Point2;

/// A thing on the sheet.
#[derive(Clone, Debug, PartialEq)]
pub enum Thing {
    /// Marks of the drawing.
    Drawn(Item),
    /// The sign of a finding.
    Found(Point2, Severity),
}

/// What is on the move: points and boards, and the legs that end at them.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Moves(BTreeSet<Subject>);

impl Moves {
    /// These points and boards.
    pub fn of(ends: impl Iterator<Item = Subject>) -> Self {
        Self(ends.collect())
    }

    /// Whether nothing moves.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Whether marks are about what moves or a leg that ends at it. What
    /// changes besides, as the order of a circuit may, is found out when it
    /// does: the less moves, the less is painted.
    pub fn touches(&self, marks: &Group) -> bool {
        match marks.subject {
            Some(Subject::Leg { from, to, .. }) => {
                [from, to].iter().any(|end| self.0.contains(&(*end).into()))
            }
            Some(subject) => self.0.contains(&subject),
            None => false,
        }
    }
}
