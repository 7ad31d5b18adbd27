//! The way of a leg in words, as one tells it to whoever pulls it.

use crate::plan::{Plan, Plane, VoidId, WallBuild, WallId};
use crate::runs::{Heading, Leg, Segment, Surrounding};
use crate::sheet::house::{figure, metres};
use crate::units::Mm;

/// A part of a way that lies in one plane.
#[derive(Clone, Debug)]
pub(crate) struct Part<'a> {
    /// Where it lies.
    pub(crate) segments: &'a [Segment],
}

/// The parts of a leg, each in one plane.
pub(crate) fn parts(leg: &Leg) -> Vec<Part<'_>> {
    let same = |a: &Segment, b: &Segment| (a.plane, a.through) == (b.plane, b.through);
    leg.route.segments.chunk_by(same).map(|segments| Part { segments }).collect()
}

/// The way from end to end: `up 0.95 in W3 (stud) and through its plate; along
/// the joists 2.30 in the roof space; down 2.20 in W5 (stud) and through its
/// plate`.
pub(crate) fn way(plan: &Plan, leg: &Leg) -> String {
    let is_plate = |part: &Part<'_>| part.segments[0].through == Surrounding::Plate;
    let parts: Vec<Part<'_>> = parts(leg)
        .into_iter()
        .filter(|part| part.segments.iter().any(|one| one.length > Mm::ZERO))
        .collect();
    let mut told: Vec<String> = Vec::new();
    let mut index = 0;
    while index < parts.len() {
        let part = &parts[index];
        let next = parts.get(index + 1).filter(|next| {
            next.segments[0].plane == part.segments[0].plane && part.segments[0].plane.is_some()
        });
        let (wall, plate) = match next {
            Some(next) if is_plate(next) && !is_plate(part) => (part, true),
            Some(next) if is_plate(part) && !is_plate(next) => (next, true),
            _ => (part, false),
        };
        let end = if plate { index + 2 } else { index + 1 };
        let segments: Vec<&Segment> =
            parts[index..end].iter().flat_map(|part| part.segments).collect();
        let inside = inside(plan, &wall.segments[0]);
        let through = if plate { " and through its plate" } else { "" };
        told.push(format!("{} {inside}{through}", moves(&segments)));
        index = end;
    }
    // Every leg has a way: one without length joins boxes back to back.
    if told.is_empty() { "from box to box, back to back".to_owned() } else { told.join("; ") }
}

/// Moves of one direction taken together; small steps to and fro told as one.
fn moves(segments: &[&Segment]) -> String {
    let steps = segments.iter().filter(|one| one.length > Mm::ZERO);
    let mut told: Vec<(Heading, Mm)> = Vec::new();
    for step in steps {
        match told.last_mut() {
            Some((heading, sum)) if *heading == step.heading => *sum += step.length,
            _ => told.push((step.heading, step.length)),
        }
    }
    if told.len() > 5 {
        let all: Mm = told.iter().map(|(_, length)| *length).sum();
        return format!("in {} steps, {} in all,", told.len(), metres(all));
    }
    let words =
        told.iter().map(|(heading, length)| format!("{} {}", go(*heading), figure(*length)));
    words.collect::<Vec<_>>().join(", ")
}

const fn go(heading: Heading) -> &'static str {
    match heading {
        Heading::Up => "up",
        Heading::Down => "down",
        Heading::Sideways => "sideways",
        Heading::AlongJoists => "along the joists",
        Heading::AcrossJoists => "across the joists",
    }
}

fn inside(plan: &Plan, segment: &Segment) -> String {
    match (segment.through, segment.plane) {
        (Surrounding::Plate, Some(Plane::Wall(id))) => format!("through the plate of {id}"),
        (Surrounding::Plate, _) => "through the ceiling or floor".to_owned(),
        (Surrounding::Post, _) => "on the post".to_owned(),
        (Surrounding::Surface, Some(Plane::Wall(id))) => format!("on the face of {id}"),
        (Surrounding::Chase, Some(Plane::Wall(id))) => format!("chased into {}", wall(plan, id)),
        (_, Some(Plane::Wall(id))) => format!("in {}", wall(plan, id)),
        (_, Some(Plane::Void(id))) => format!("in the {}", void(plan, id)),
        (_, None) => "in the open".to_owned(),
    }
}

/// `W3 (stud)`.
pub(crate) fn wall(plan: &Plan, id: WallId) -> String {
    plan.walls
        .get(&id)
        .map_or_else(|| id.to_string(), |wall| format!("{id} ({})", build(wall.build)))
}

/// What people call a void.
pub(crate) fn void(plan: &Plan, id: VoidId) -> String {
    match plan.voids.get(&id) {
        Some(void) if !void.name.is_empty() => void.name.clone(),
        _ => id.to_string(),
    }
}

/// What a wall is made of, in a word or two.
pub(crate) const fn build(build: WallBuild) -> &'static str {
    match build {
        WallBuild::Stud => "stud",
        WallBuild::BrickVeneer => "brick veneer",
        WallBuild::SolidMasonry => "masonry",
        WallBuild::CavityMasonry => "cavity",
        WallBuild::DoubleBrick => "double brick",
        WallBuild::Concrete => "concrete",
        WallBuild::LathAndPlaster => "lath and plaster",
        WallBuild::Screen => "screen",
    }
}
