//! Figures as people read them.

use crate::runs::{Heading, Segment, Surrounding};

/// Amperes to one decimal, none where it is nought: `16 A`, `13.5 A`.
pub(super) fn amps(value: f64) -> String {
    format!("{} A", trimmed(value, 1))
}

/// Ohms to three decimals.
pub(super) fn ohms(value: f64) -> String {
    format!("{value:.3} Ω")
}

/// Metres to one decimal.
pub(super) fn metres(value: f64) -> String {
    format!("{value:.1} m")
}

/// Percent to one decimal.
pub(super) fn percent(value: f64) -> String {
    format!("{value:.1} %")
}

/// A number of things as a float, to hold it against a table.
#[expect(clippy::cast_precision_loss, reason = "no plan has 2^53 of anything")]
pub(super) const fn count(things: usize) -> f64 {
    things as f64
}

/// A number without needless noughts.
pub(super) fn trimmed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

/// What a segment runs through, as one says it.
pub(super) const fn through(surrounding: Surrounding) -> &'static str {
    match surrounding {
        Surrounding::RoofSpace => "in the roof space",
        Surrounding::BetweenFloors => "between the floors",
        Surrounding::Subfloor => "under the floor",
        Surrounding::Ground => "in the ground",
        Surrounding::HollowWall => "in a framed wall",
        Surrounding::Chase => "in a chase",
        Surrounding::Cavity => "in a cavity",
        Surrounding::Surface => "on the surface",
        Surrounding::Plate => "through a plate",
        Surrounding::Post => "up a post",
    }
}

/// A stretch in words: `3.2 m across the joists in the roof space, 150 mm of
/// insulation`.
pub(super) fn stretch(segment: &Segment) -> String {
    let way = match segment.heading {
        Heading::Up => "up",
        Heading::Down => "down",
        Heading::Sideways => "sideways",
        Heading::AlongJoists => "along the joists",
        Heading::AcrossJoists => "across the joists",
    };
    let mut words =
        format!("{} {way} {}", metres(segment.length.metres()), through(segment.through));
    if segment.insulation.get() > 0 {
        words.push_str(&format!(", {} of insulation", segment.insulation));
    }
    words
}
