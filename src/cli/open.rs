//! `wirewend open`, and `wirewend` alone: the window, where there can be one.

use std::path::Path;

use super::own_rules::OwnRules;
use super::sample;

/// Opens the window on a plan, or on the sample house. Without a screen the
/// sample's papers are written instead; a plan that was asked for is an error.
#[cfg(feature = "window")]
pub(super) fn run(
    plan: Option<&Path>,
    rules: &OwnRules,
    fallback: &Path,
) -> Result<String, String> {
    if crate::app::has_display() {
        return crate::app::run(plan, sample::plan()?, rules.book()?).map(|()| String::new());
    }
    without(plan, fallback, "no screen here (neither DISPLAY nor WAYLAND_DISPLAY is set)")
}

/// This build has no window.
#[cfg(not(feature = "window"))]
pub(super) fn run(plan: Option<&Path>, _: &OwnRules, fallback: &Path) -> Result<String, String> {
    without(plan, fallback, "this build has no window")
}

fn without(plan: Option<&Path>, fallback: &Path, why: &str) -> Result<String, String> {
    match plan {
        Some(plan) => Err(format!(
            "{why}, so {} cannot be shown; wirewend runs PLAN and wirewend sheet PLAN need none",
            plan.display()
        )),
        None => sample::run(fallback, why, false)
            .map_err(|error| format!("{error}: wirewend sample --replace, or --to FOLDER")),
    }
}
