//! Everything numbered anew, as one edit.

use crate::plan::Renumber;
use crate::runs::{Renumbered, numbered, renumbered};
use crate::session::Session;

/// How many new names are said in the line at the foot.
const SAID: usize = 6;

impl Session {
    /// Numbers marks, circuits and legs anew and says what is called otherwise.
    pub fn renumber(&mut self) {
        let Some(picture) = self.jobs.picture().cloned().filter(|_| !self.jobs.is_behind()) else {
            self.said = "still computing: try again in a moment".to_owned();
            return;
        };
        let before = self.document.plan().clone();
        let old = numbered(&before.kept, picture.runs.clone());
        if !self.edit(before.renumber(Renumber::ALL)) {
            return;
        }
        let new = numbered(&self.document.plan().kept, old.clone());
        self.said = said(&renumbered((&before, &old), (self.document.plan(), &new)));
    }
}

fn said(changes: &[Renumbered]) -> String {
    if changes.is_empty() {
        return "all numbers are without gaps already".to_owned();
    }
    let names: Vec<String> = changes
        .iter()
        .take(SAID)
        .map(|one| match one.what {
            "circuit" | "leg" => format!("{} {} is {}", one.what, one.old, one.new),
            _ => format!("{} is {}", one.old, one.new),
        })
        .collect();
    let more = match changes.len().saturating_sub(SAID) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    format!("{}{more}; issue the papers again, or undo", names.join(", "))
}
