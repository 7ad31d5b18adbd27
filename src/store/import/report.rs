//! What became of a file, in words.

use std::collections::BTreeMap;
use std::fmt;

use super::{Found, ImportForm};
use crate::store::{LayoutReport, NoteKind};

/// The most parts that a line of the report names.
const NAMED_MAX: usize = 4;

/// What became of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ImportReport {
    /// The form that it is in.
    pub form: ImportForm,
    /// The unit of its lengths and where that comes from, in words.
    pub unit: String,
    /// The layers of a drawing that hold lines, the first 40 by name.
    pub layers: Vec<String>,
    /// What the file holds, and how much of it was understood.
    pub found: Vec<Found>,
    /// What became of that in the plan, with all notes.
    pub layout: LayoutReport,
    /// Notes that were too many to keep.
    pub more: usize,
}

impl fmt::Display for ImportReport {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(f, "{}, lengths in {}", self.form, self.unit)?;
        for found in &self.found {
            writeln!(
                f,
                "  {:<24} {:>5} in the file, {:>5} understood",
                found.what, found.in_file, found.taken
            )?;
        }
        let layout = &self.layout;
        writeln!(
            f,
            "In the plan: levels {}, walls {}, openings {}, rooms {}",
            layout.levels, layout.walls, layout.openings, layout.rooms
        )?;
        for (kind, heading) in [
            (NoteKind::LeftOut, "Left out"),
            (NoteKind::Assumed, "Assumed"),
            (NoteKind::Changed, "Changed"),
        ] {
            self.notes(f, kind, heading)?;
        }
        if self.more > 0 {
            writeln!(f, "and {} notes more", self.more)?;
        }
        Ok(())
    }
}

impl ImportReport {
    /// The notes of a kind, those of the same words on one line.
    fn notes(&self, f: &mut fmt::Formatter<'_>, kind: NoteKind, heading: &str) -> fmt::Result {
        let mut order: Vec<String> = Vec::new();
        let mut parts: BTreeMap<String, Vec<&str>> = BTreeMap::new();
        for note in self.layout.notes.iter().filter(|note| note.kind == kind) {
            let message = wordless(&note.message);
            let of = parts.entry(message.clone()).or_default();
            if of.is_empty() {
                order.push(message);
            }
            of.push(&note.part);
        }
        if !order.is_empty() {
            writeln!(f, "{heading}:")?;
        }
        for message in order {
            let of = parts.get(&message).map_or(&[][..], Vec::as_slice);
            let named = of.iter().take(NAMED_MAX).copied().collect::<Vec<_>>().join(", ");
            match of.len().saturating_sub(NAMED_MAX) {
                0 => writeln!(f, "  {named}: {message}")?,
                more => writeln!(f, "  {named} and {more} more: {message}")?,
            }
        }
        Ok(())
    }
}

/// Ends of walls move by a few millimetres each: one line for all.
fn wordless(message: &str) -> String {
    if message.starts_with("an end moved by ") {
        "an end moved to the wall that it meets".to_owned()
    } else {
        message.to_owned()
    }
}
