//! Ratings that are estimates.
//!
//! **Looks at** circuits whose rating rests on stated physics rather than on a
//! published table. **Matters** because an estimate may be off by several
//! percent either way. **Example:** Australian two-core ratings, which do not
//! ship. **Remedy:** the figure from your own copy of the standard, in your
//! own `current_capacity` table. **Source:** table `capacity_law`.

use super::super::context::House;
use super::super::result::Checked;
use crate::plan::{Finding, Severity, Subject};

const CODE: &str = "rating-estimated";

pub(super) fn judge(house: &House<'_>, checked: &mut Checked) {
    let numbers: Vec<String> = checked
        .circuits
        .iter()
        .filter(|(_, figures)| figures.estimated)
        .filter_map(|(id, _)| house.plan.circuits.get(id))
        .map(|circuit| circuit.number.to_string())
        .collect();
    if numbers.is_empty() {
        return;
    }
    let regime = house.regime;
    let mut finding = Finding::new(
        CODE,
        Severity::Note,
        Subject::Plan,
        format!(
            "the cable ratings of circuits {} are estimates by physics, not published values",
            numbers.join(", ")
        ),
        format!(
            "enter the ratings of your own copy of the standard in {regime}/current_capacity.csv"
        ),
    );
    finding.source = format!("table {regime}/capacity_law");
    checked.findings.push(finding);
}
