//! What papers say is kept in the plan that they come from.

use std::path::Path;

use wirewend::plan::Plan;
use wirewend::runs::{self, Runs};
use wirewend::store::Journal;

use super::keep::{self, Source};

/// Keeps the marks and numbers that papers of a plan are about to say in its
/// file. A line about it; nothing where the file has all of them.
pub(super) fn keep(path: &Path, (drawn, source): (Plan, &Source), runs: &Runs) -> String {
    let Some(edit) = runs::issue(&drawn, runs) else { return String::new() };
    let kept = journal(path).and_then(|journal| {
        let mut plan = drawn;
        plan.apply(edit).map_err(|error| error.to_string())?;
        keep::write(&plan, path, Some(source), false)?;
        if let Some(journal) = journal {
            journal.drop_all();
        }
        Ok(())
    });
    let file = path.display();
    match kept {
        Ok(()) => format!("the marks and numbers of this issue are kept in {file}\n"),
        Err(why) => format!(
            "the marks and numbers of this issue are NOT kept in {file}: {why}; what is changed \
             there later may be called as something else is here\n"
        ),
    }
}

/// The journal beside a plan, if there is one: held, so that no window opens
/// the plan meanwhile, and empty.
fn journal(path: &Path) -> Result<Option<Journal>, String> {
    if !Journal::path_of(path).exists() {
        return Ok(None);
    }
    match Journal::open(path) {
        Ok((journal, waiting)) if waiting.is_empty() => Ok(Some(journal)),
        Ok(_) => Err("edits that were never saved wait beside it: open it and save".to_owned()),
        Err(error) => Err(error.to_string()),
    }
}
