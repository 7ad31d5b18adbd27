//! What things that cables pass are called.

use super::stage::Gate;
use crate::plan::{Plan, VoidId, WallBuild};

/// Framed walls have plates; masonry has a top and a foot.
const fn is_framed(build: WallBuild) -> bool {
    matches!(
        build,
        WallBuild::Stud | WallBuild::BrickVeneer | WallBuild::LathAndPlaster | WallBuild::Screen
    )
}

/// How a cable comes into a wall, before what it comes into.
pub(super) const fn entry(build: WallBuild, gate: Gate) -> &'static str {
    match (gate, is_framed(build)) {
        (Gate::Ground, _) => "out of the ground ",
        (Gate::Top, true) => "through the top plate ",
        (Gate::Foot, true) => "through the bottom plate ",
        (Gate::Top, false) => "from above ",
        (Gate::Foot, false) => "from below ",
    }
}

/// How it leaves a wall.
pub(super) const fn exit(build: WallBuild, gate: Gate) -> &'static str {
    match (gate, is_framed(build)) {
        (Gate::Ground, _) => "into the ground",
        (Gate::Top, true) => "out through its top plate",
        (Gate::Foot, true) => "out through its bottom plate",
        (Gate::Top, false) => "out at its top",
        (Gate::Foot, false) => "out at its foot",
    }
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
