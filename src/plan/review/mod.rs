//! Everything that is missing or odd in a drawing.
//!
//! A plan can be held however unfinished; what a person should look at comes
//! out here. Each concern is a file, each question a function. Nothing here is
//! a rule of a regime: that is a matter for the checks.

mod boards;
mod books;
mod circuits;
mod controls;
mod corners;
mod levels;
mod openings;
mod outline;
mod places;
mod points;
mod rooms;
mod walls;

use indexmap::IndexMap;

use super::{CircuitId, End, Finding, Labels, OpeningId, Plan, RoomId, WallId, labels};

/// Everything that is missing or odd in the drawing, in the order of its parts
/// and of drawing.
#[must_use]
pub fn review(plan: &Plan) -> Vec<Finding> {
    let mut openings: IndexMap<WallId, Vec<OpeningId>> = IndexMap::new();
    for (id, opening) in &plan.openings {
        openings.entry(opening.wall).or_default().push(*id);
    }
    let drawing = &Drawing { plan, marks: labels(plan), openings };
    let mut findings = Vec::new();
    for concern in [
        levels::review,
        walls::review,
        corners::review,
        openings::review,
        rooms::review,
        boards::review,
        circuits::review,
        points::review,
        places::review,
        controls::review,
        books::review,
    ] {
        concern(drawing, &mut findings);
    }
    findings
}

/// A plan with the marks by which findings name its parts.
struct Drawing<'a> {
    plan: &'a Plan,
    marks: Labels,
    /// The openings of each wall, in drawing order.
    openings: IndexMap<WallId, Vec<OpeningId>>,
}

impl Drawing<'_> {
    /// A point or a board by its mark.
    fn end(&self, end: End) -> &str {
        self.marks.end(end)
    }

    /// A circuit by its number and name.
    fn circuit(&self, id: CircuitId) -> String {
        self.plan.circuits.get(&id).map_or_else(
            || format!("circuit {id}"),
            |circuit| match circuit.name.as_str() {
                "" => format!("circuit {}", circuit.number),
                name => format!("circuit {} \"{name}\"", circuit.number),
            },
        )
    }

    /// A room by its name.
    fn room(&self, id: RoomId) -> String {
        let name = self.plan.rooms.get(&id).map_or("", |room| room.name.as_str());
        named("room", name, id)
    }
}

/// A thing by its name, or by its id where it has none.
fn named(noun: &str, name: &str, id: impl std::fmt::Display) -> String {
    if name.is_empty() { format!("{noun} {id}") } else { format!("{noun} \"{name}\"") }
}
