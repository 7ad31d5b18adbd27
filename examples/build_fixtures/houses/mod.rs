//! The houses, and the text of their files.

mod build;
mod cottage;
mod cottage_points;
mod flat;
mod half_drawn;
mod shop;
mod terrace;
mod text;
mod townhouse;
mod townhouse_points;

use wirewend::plan::Plan;
use wirewend::runs::{self, chain::Effort};
use wirewend::space::Space;

pub(crate) use text::text;

/// Every house with the name of its file.
pub(crate) fn all() -> Vec<(&'static str, Plan)> {
    vec![
        ("cottage.wend", issued(cottage::plan())),
        ("flat.wend", issued(flat::plan())),
        ("half_drawn.wend", issued(half_drawn::plan())),
        ("terrace.wend", issued(terrace::plan())),
        ("townhouse.wend", issued(townhouse::plan())),
    ]
}

/// A house whose papers went out: their marks and numbers are kept in it, so
/// that writing them again leaves its file alone.
fn issued(mut plan: Plan) -> Plan {
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    if let Some(edit) = runs::issue(&plan, &runs) {
        plan.apply(edit).expect("an invented house holds together");
    }
    plan
}
