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

pub(crate) use text::text;

/// Every house with the name of its file.
pub(crate) fn all() -> Vec<(&'static str, Plan)> {
    vec![
        ("cottage.wend", cottage::plan()),
        ("flat.wend", flat::plan()),
        ("half_drawn.wend", half_drawn::plan()),
        ("terrace.wend", terrace::plan()),
        ("townhouse.wend", townhouse::plan()),
    ]
}
