//! Marks are given when things are drawn, and kept.

use std::collections::BTreeMap;

use super::label::things;
use super::{Change, Edit, End, Mark, Plan, labels};

/// What marks were before they were changed: of each thing the one that no
/// paper says yet, where it had one.
pub(super) type MarksBefore = Vec<(End, Option<String>)>;

impl Plan {
    /// Keeps the mark of everything that has none kept, as it is shown now.
    /// Edits do so by themselves; this is for plans that were built without.
    pub fn keep_marks(&mut self) {
        let _ = self.marks_kept();
    }

    /// The same, and what changes it back.
    pub(super) fn marks_kept(&mut self) -> MarksBefore {
        let marks = labels(self);
        let given: MarksBefore = things(self)
            .map(|(end, _, label)| (end, label, marks.end(end)))
            .filter(|(_, label, mark)| label != mark)
            .filter(|(end, _, mark)| self.kept.marks.get(*mark).is_none_or(|it| it.of != *end))
            .map(|(end, _, mark)| (end, Some(mark.to_owned())))
            .collect();
        if given.is_empty() { given } else { self.set_marks(given) }
    }

    /// Sets marks that no paper says yet; those on issued papers stay. What
    /// changes it back.
    pub(super) fn set_marks(&mut self, marks: MarksBefore) -> MarksBefore {
        let kept = &mut self.kept.marks;
        let loose = kept.iter().filter(|(_, mark)| mark.issued.is_none());
        let mut loose: BTreeMap<End, String> =
            loose.map(|(text, mark)| (mark.of, text.clone())).collect();
        let mut before = Vec::with_capacity(marks.len());
        // All are taken off first, so that two can change places.
        for (end, _) in &marks {
            let old = loose.remove(end);
            if let Some(old) = &old {
                kept.remove(old);
            }
            before.push((*end, old));
        }
        for (of, text) in marks {
            if let Some(text) = text {
                kept.entry(text).or_insert(Mark { of, issued: None });
            }
        }
        before
    }

    /// Whether an edit may change what things are called: then marks that are
    /// shown and not kept yet must be kept first.
    pub(super) fn renames(&self, edit: &Edit) -> bool {
        match edit {
            Edit::Point(Change::Put(id, new)) => self
                .points
                .get(id)
                .is_none_or(|old| (old.kind, &old.label) != (new.kind, &new.label)),
            Edit::Board(Change::Put(id, new)) => {
                self.boards.get(id).is_none_or(|old| old.label != new.label)
            }
            Edit::Point(_) | Edit::Board(_) => true,
            Edit::Many(edits) => edits.iter().any(|edit| self.renames(edit)),
            _ => false,
        }
    }
}

impl Edit {
    /// Whether it says itself which marks things get.
    pub(super) fn marks(&self) -> bool {
        match self {
            Self::Marks(_) | Self::Kept(_) => true,
            Self::Many(edits) => edits.iter().any(Self::marks),
            _ => false,
        }
    }
}
