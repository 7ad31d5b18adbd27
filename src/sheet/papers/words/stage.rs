//! A leg in stages: what lies in one wall, one void, on a post or straight
//! through a ceiling, with the gates between them.

use crate::plan::{Plan, Plane, VoidId, VoidKind, WallId};
use crate::runs::{Heading, Leg, Segment, Surrounding};
use crate::units::Mm;

/// What a stage lies in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Within {
    Wall(WallId),
    Void(VoidId),
    Post,
    /// Straight through a ceiling, a floor or a riser.
    Passage,
}

/// How a cable comes into a wall from a void, or leaves it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Gate {
    Top,
    Foot,
    Ground,
}

/// A part of a way within one thing and one surrounding, passages through
/// plates counted to their walls.
#[derive(Clone, Debug)]
pub(super) struct Stage<'a> {
    pub(super) within: Within,
    /// None: it passes the plates of a wall and nothing between them.
    pub(super) through: Option<Surrounding>,
    /// Its segments, with their places in the route.
    pub(super) segments: Vec<(usize, &'a Segment)>,
    pub(super) enters: Option<Gate>,
    pub(super) leaves: Option<Gate>,
}

/// The stages of a leg, in its order.
pub(super) fn stages<'a>(plan: &Plan, leg: &'a Leg) -> Vec<Stage<'a>> {
    let mut stages: Vec<Stage<'a>> = Vec::new();
    // Whether the last stage was left through a plate.
    let mut is_left = false;
    for one in leg.route.segments.iter().enumerate().filter(|(_, one)| one.length > Mm::ZERO) {
        let segment = one.1;
        let within = match segment.plane {
            Some(Plane::Wall(id)) => Within::Wall(id),
            Some(Plane::Void(id)) => Within::Void(id),
            None if segment.through == Surrounding::Post => Within::Post,
            None => Within::Passage,
        };
        let is_plate = matches!(within, Within::Wall(_)) && segment.through == Surrounding::Plate;
        let through = (!is_plate).then_some(segment.through);
        let last = stages.last_mut().filter(|last| last.within == within && !is_left);
        match last {
            Some(last) if is_plate => {
                is_left = last.through.is_some();
                last.segments.push(one);
            }
            Some(last) if last.through.is_none() || last.through == through => {
                last.through = through;
                last.segments.push(one);
            }
            _ => {
                is_left = false;
                let segments = vec![one];
                stages.push(Stage { within, through, segments, enters: None, leaves: None });
            }
        }
    }
    let voids: Vec<Option<VoidId>> = stages.iter().map(Stage::void).collect();
    for (index, stage) in stages.iter_mut().enumerate() {
        let before = index.checked_sub(1).and_then(|at| voids[at]);
        let after = voids.get(index + 1).copied().flatten();
        stage.enters = before.and_then(|void| stage.gate(plan, void, true));
        stage.leaves = after.and_then(|void| stage.gate(plan, void, false));
    }
    stages
}

impl Stage<'_> {
    const fn void(&self) -> Option<VoidId> {
        match self.within {
            Within::Void(id) => Some(id),
            _ => None,
        }
    }

    /// The gate between it and a void.
    fn gate(&self, plan: &Plan, void: VoidId, is_first: bool) -> Option<Gate> {
        let at_end = if is_first { self.segments.first() } else { self.segments.last() };
        let (_, segment) = at_end?;
        match self.within {
            Within::Void(_) | Within::Passage => return None,
            Within::Wall(_) | Within::Post => {}
        }
        if plan.voids.get(&void)?.kind == VoidKind::Ground {
            return Some(Gate::Ground);
        }
        // It comes down from above, and leaves upwards.
        let over = if is_first { Heading::Down } else { Heading::Up };
        Some(if segment.heading == over { Gate::Top } else { Gate::Foot })
    }
}
