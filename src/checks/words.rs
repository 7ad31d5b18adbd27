//! Figures as people read them.

use crate::runs::{Heading, Segment, Surrounding};
pub(super) use crate::wording::{amps, metres_about as metres, ohms, percent, short};

/// A number of things as a float, to hold it against a table.
#[expect(clippy::cast_precision_loss, reason = "no plan has 2^53 of anything")]
pub(super) const fn count(things: usize) -> f64 {
    things as f64
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
