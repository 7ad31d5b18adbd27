//! Of which revision a list is.

use std::collections::BTreeSet;

use super::table::{Row, Table};
use crate::plan::Plan;

/// What is to be said where a list is not, or not surely, of the revision that
/// the plan is at. The rows are held against the plan one by one all the same.
pub(super) fn note<const N: usize>(
    table: &Table<'_, N>,
    column: usize,
    plan: &Plan,
) -> Option<String> {
    let now = &plan.project.revision;
    if !table.has(column) {
        return Some(
            "the list does not say its revision; its rows were held against the plan".into(),
        );
    }
    let said: BTreeSet<String> =
        table.rows().map(|row: Row<'_, N>| row.field(column).to_owned()).collect();
    let others: Vec<String> = said.iter().filter(|one| *one != now).map(|one| named(one)).collect();
    if others.is_empty() {
        return None;
    }
    let issued =
        |one: &&String| *one != now && !plan.kept.issues.iter().any(|it| it.revision == **one);
    let never: Vec<String> = said.iter().filter(issued).map(|one| named(one)).collect();
    let never = if never.is_empty() || plan.kept.issues.is_empty() {
        String::new()
    } else {
        format!("; no issue of {} is on record", never.join(", "))
    };
    Some(format!(
        "the list is of {}, the plan of {}{never}; every filled row agrees with the plan",
        others.join(", "),
        named(now)
    ))
}

fn named(revision: &str) -> String {
    if revision.is_empty() { "no revision".to_owned() } else { format!("revision {revision}") }
}
