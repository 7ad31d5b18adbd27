//! What every form is read into before it becomes a plan.

use crate::store::layout::form::FormLevel;
use crate::store::{LayoutNote, NoteKind};

/// The most notes that are kept; the rest are counted.
const NOTES_MAX: usize = 2_000;

/// A building as far as it was understood.
#[derive(Debug)]
pub(super) struct Drawn {
    pub(super) name: String,
    /// The unit and where it comes from, in words.
    pub(super) unit: String,
    pub(super) levels: Vec<FormLevel>,
    /// The layers of a drawing that hold lines.
    pub(super) layers: Vec<String>,
    pub(super) found: Vec<Found>,
    pub(super) notes: Notes,
}

/// How many parts of a kind a file holds, and how many were understood.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Found {
    /// The kind, in words: `doors`.
    pub what: String,
    /// How many are in the file.
    pub in_file: usize,
    /// How many of them were understood.
    pub taken: usize,
}

/// Notes, no more than are of use.
#[derive(Debug, Default)]
pub(super) struct Notes {
    pub(super) list: Vec<LayoutNote>,
    pub(super) more: usize,
}

impl Notes {
    pub(super) fn add(
        &mut self,
        kind: NoteKind,
        part: impl Into<String>,
        message: impl Into<String>,
    ) {
        if self.list.len() == NOTES_MAX {
            self.more += 1;
            return;
        }
        self.list.push(LayoutNote { kind, part: part.into(), message: message.into() });
    }
}

impl Drawn {
    pub(super) fn new(name: &str, unit: String) -> Self {
        let (levels, layers, found) = (Vec::new(), Vec::new(), Vec::new());
        let notes = Notes::default();
        Self { name: name.to_owned(), unit, levels, layers, found, notes }
    }

    pub(super) fn found(&mut self, what: &str, in_file: usize, taken: usize) {
        self.found.push(Found { what: what.to_owned(), in_file, taken });
    }
}

/// From floating millimetres to the model's whole ones.
pub(super) mod metric {
    use crate::units::{Mm, Point2};

    /// Why a part is left out that has no whole millimetres.
    pub(in crate::store::import) const BEYOND: &str = "it reaches beyond the 10 km that a plan may";

    pub(in crate::store::import) fn length(value: f64) -> Option<Mm> {
        Mm::from_f64(value).ok().filter(|length| length.abs() <= Mm::COORDINATE_MAX)
    }

    pub(in crate::store::import) fn point([x, y]: [f64; 2], shift: [f64; 2]) -> Option<Point2> {
        Some(Point2 { x: length(x + shift[0])?, y: length(y + shift[1])? })
    }
}
