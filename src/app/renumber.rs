//! Everything numbered anew, as one edit.

use wirewend::plan::Renumber;
use wirewend::runs::{Renumbered, numbered, renumbered};

use super::desk::Desk;

/// How many new names are said in the line at the foot.
const SAID: usize = 6;

impl Desk {
    /// Numbers marks, circuits and legs anew and says what is called otherwise.
    pub(super) fn renumber(&mut self) {
        let Some(picture) = self.picture.clone().filter(|_| !self.behind()) else {
            self.said = "still computing: try again in a moment".to_owned();
            return;
        };
        let before = self.plan.clone();
        let old = numbered(&before.kept, picture.runs.clone());
        if !self.edit(before.renumber(Renumber::ALL)) {
            return;
        }
        let new = numbered(&self.plan.kept, old.clone());
        self.said = said(&renumbered((&before, &old), (&self.plan, &new)));
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
