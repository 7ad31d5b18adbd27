//! A circuit keeps to the ways that it may take.

use wirewend::plan::{Place, VoidId, VoidKind, WallId, Way};
use wirewend::runs::{Heading, Surrounding};

use super::complaint::{Code, Complaints};
use super::house::{allows, levels_of, may_enter};
use super::joints::flush;
use super::medium::Medium;
use super::walk::Walk;

pub(crate) fn judge(walk: &Walk, book: &mut Complaints) {
    for (at, segment, medium) in walk.pieces() {
        let allowed = match medium {
            Medium::Wall(_) if segment.through == Surrounding::Surface => {
                allows(walk.circuit, Way::Surface)
            }
            Medium::Wall(_) if segment.heading == Heading::Sideways => {
                allows(walk.circuit, Way::InWall)
            }
            Medium::Plate(wall, void) => may_pass(walk, wall, void),
            Medium::Passage(void) => passage_allowed(walk, at, void),
            Medium::Void(void) => may_use(walk, void),
            Medium::Riser(one, other) => may_use(walk, one) && may_use(walk, other),
            Medium::Post => allows(walk.circuit, Way::Underground),
            _ => true,
        };
        if !allowed {
            let text = format!("{medium:?} {:?} is no way of this circuit", segment.heading);
            book.segment(Code::Way, walk.leg, at, text);
        }
    }
    for (at, [one, _], media) in walk.pairs() {
        let ([Medium::Wall(wall), Medium::Void(void)] | [Medium::Void(void), Medium::Wall(wall)]) =
            media
        else {
            continue;
        };
        if flush(walk, one.to, wall, void) && !may_pass(walk, wall, void) {
            let text = format!("between {wall} and {void} is no way of this circuit");
            book.segment(Code::Way, walk.leg, at + 1, text);
        }
    }
}

fn may_pass(walk: &Walk, wall: WallId, void: VoidId) -> bool {
    let level = walk.plan.walls.get(&wall).and_then(|wall| walk.plan.levels.get(&wall.level));
    let space = walk.plan.voids.get(&void);
    level.zip(space).is_none_or(|(level, space)| may_enter(walk.circuit, level, void, space))
}

/// A ceiling point takes the way overhead, a floor point the one underfloor.
fn passage_allowed(walk: &Walk, at: usize, void: VoidId) -> bool {
    let end = if at == 0 { walk.leg.from } else { walk.leg.to };
    if walk.plan.voids.get(&void).is_some_and(|void| void.kind == VoidKind::Ground) {
        return allows(walk.circuit, Way::Underground);
    }
    match walk.plan.place_of(end) {
        Some(Place::Ceiling(_)) => allows(walk.circuit, Way::Overhead),
        Some(Place::Floor(_)) => allows(walk.circuit, Way::Underfloor),
        _ => true,
    }
}

/// Whether any level gives the circuit a way into a void. One that no level
/// names is reached by risers alone, and no way shuts it.
fn may_use(walk: &Walk, void: VoidId) -> bool {
    let Some(space) = walk.plan.voids.get(&void) else { return true };
    let mut levels = levels_of(walk.plan, void).map(|(_, level)| level).peekable();
    if levels.peek().is_none() {
        return space.kind != VoidKind::Ground || allows(walk.circuit, Way::Underground);
    }
    levels.any(|level| may_enter(walk.circuit, level, void, space))
}
