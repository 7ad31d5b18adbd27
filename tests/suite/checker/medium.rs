//! What a segment runs in, made out from where it is and what is next to it.

use wirewend::plan::{Place, Plan, Plane, VoidId, WallId};
use wirewend::runs::{Leg, Segment, Surrounding};
use wirewend::units::Mm;

use super::house::{covers, level_with, wall_of};
use super::shape::{NEAR, Spot};

/// What a segment runs in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Medium {
    /// In or on a wall.
    Wall(WallId),
    /// Across a void.
    Void(VoidId),
    /// Through the plate between a wall and a void.
    Plate(WallId, VoidId),
    /// From a point on a ceiling or a floor straight into a void.
    Passage(VoidId),
    /// In a riser from void to void.
    Riser(VoidId, VoidId),
    /// On a post.
    Post,
    /// Through a ceiling or a floor beyond which the level names no void.
    Concrete,
    /// Said to be a plate, but it joins nothing.
    BadPlate,
    /// In no plane and nothing that explains it.
    Unknown,
}

impl Medium {
    pub(crate) fn of(plan: &Plan, leg: &Leg, at: usize) -> Self {
        let segment = &leg.route.segments[at];
        let upright = Spot::under(segment.from).distance(Spot::under(segment.to)) <= NEAR;
        match (segment.through, segment.plane) {
            (Surrounding::Post, _) => Self::Post,
            (Surrounding::Plate, _) => upright_medium(plan, leg, at).unwrap_or(Self::BadPlate),
            (_, Some(Plane::Wall(wall))) => Self::Wall(wall),
            (_, Some(Plane::Void(_))) if upright && riser(plan, segment).is_some() => {
                riser(plan, segment).unwrap_or(Self::Unknown)
            }
            (_, Some(Plane::Void(void))) => Self::Void(void),
            (Surrounding::Ground, None) if upright && ends_on_post(plan, leg, at) => Self::Post,
            (_, None) if upright => upright_medium(plan, leg, at).unwrap_or(Self::Unknown),
            (_, None) => Self::Unknown,
        }
    }

    /// Whether it lies in this void, or comes out into it.
    pub(crate) fn opens_into(self, void: VoidId) -> bool {
        match self {
            Self::Void(one) | Self::Plate(_, one) | Self::Passage(one) => one == void,
            Self::Riser(one, other) => one == void || other == void,
            _ => false,
        }
    }

    /// Whether nothing can be said about how it joins its neighbours.
    pub(crate) fn is_wrong(self) -> bool {
        matches!(self, Self::Concrete | Self::BadPlate | Self::Unknown)
    }
}

/// The places of the leg's ends that this segment begins or ends at, each with
/// the height at the segment's other end.
fn end_places(plan: &Plan, leg: &Leg, at: usize) -> Vec<(Place, Mm)> {
    let segment = &leg.route.segments[at];
    let first = (at == 0).then(|| plan.place_of(leg.from)).flatten();
    let last = (at + 1 == leg.route.segments.len()).then(|| plan.place_of(leg.to)).flatten();
    let first = first.map(|place| (place, segment.to.z));
    first.into_iter().chain(last.map(|place| (place, segment.from.z))).collect()
}

fn ends_on_post(plan: &Plan, leg: &Leg, at: usize) -> bool {
    end_places(plan, leg, at).iter().any(|(place, _)| matches!(place, Place::Post(_)))
        || at
            .checked_sub(1)
            .is_some_and(|before| leg.route.segments[before].through == Surrounding::Post)
        || leg.route.segments.get(at + 1).is_some_and(|next| next.through == Surrounding::Post)
}

fn upright_medium(plan: &Plan, leg: &Leg, at: usize) -> Option<Medium> {
    let segment = &leg.route.segments[at];
    let found = [passage(plan, leg, at), plate(plan, leg, at), riser(plan, segment)];
    let mut found = found.into_iter().flatten();
    // Concrete is what remains when no other reading makes sense.
    let first = found.next()?;
    if first == Medium::Concrete { Some(found.next().unwrap_or(first)) } else { Some(first) }
}

/// From a ceiling or a floor point straight into a void.
fn passage(plan: &Plan, leg: &Leg, at: usize) -> Option<Medium> {
    end_places(plan, leg, at).into_iter().find_map(|(place, z)| {
        let (on, beyond) = match place {
            Place::Ceiling(on) => (on, &plan.levels.get(&on.level)?.above),
            Place::Floor(on) => (on, &plan.levels.get(&on.level)?.below),
            _ => return None,
        };
        void_among(plan, beyond, z, Spot::of(on.at)).map(|found| found.passage())
    })
}

/// Between the top or foot of a wall and a void.
fn plate(plan: &Plan, leg: &Leg, at: usize) -> Option<Medium> {
    let segments = &leg.route.segments;
    let segment = &segments[at];
    let wall_in = |neighbour: Option<&Segment>| match neighbour?.plane? {
        Plane::Wall(wall) if neighbour?.through != Surrounding::Plate => Some(wall),
        _ => None,
    };
    let before = match at.checked_sub(1) {
        Some(before) => wall_in(segments.get(before)),
        None => wall_of(plan.place_of(leg.from)),
    };
    let after = match segments.get(at + 1) {
        Some(_) => wall_in(segments.get(at + 1)),
        None => wall_of(plan.place_of(leg.to)),
    };
    // A plate after a plate has no wall beside it but the one that it names.
    let own = match segment.plane {
        Some(Plane::Wall(wall)) => Some(wall),
        _ => None,
    };
    let (up, down) = ((segment.from.z, segment.to.z), (segment.to.z, segment.from.z));
    let trials = [(before, up), (after, down), (own, up), (own, down)];
    let trials = trials.map(|(wall, (wall_z, void_z))| (wall, wall_z, void_z));
    // Of two voids at one height the one that the leg goes on in.
    let next_to = [at.checked_sub(1), Some(at + 1)].into_iter().flatten().find_map(|beside| {
        match segments.get(beside)?.plane? {
            Plane::Void(void) => Some(void),
            Plane::Wall(_) => None,
        }
    });
    let mut concrete = None;
    for (wall, wall_z, void_z) in trials {
        let Some(id) = wall else { continue };
        let level = plan.walls.get(&id).and_then(|wall| plan.levels.get(&wall.level))?;
        let beyond = if level_with(wall_z, level.ceiling()) {
            &level.above
        } else if level_with(wall_z, level.floor) {
            &level.below
        } else {
            continue;
        };
        let is_there = |void: &VoidId| {
            beyond.contains(void)
                && plan.voids.get(void).is_some_and(|drawn| level_with(drawn.z, void_z))
        };
        if let Some(void) = next_to.filter(is_there) {
            return Some(Medium::Plate(id, void));
        }
        match void_among(plan, beyond, void_z, Spot::under(segment.from)) {
            Some(Beyond::Void(void)) => return Some(Medium::Plate(id, void)),
            Some(Beyond::Concrete) => concrete = Some(Medium::Concrete),
            None => {}
        }
    }
    concrete
}

/// In a riser.
fn riser(plan: &Plan, segment: &Segment) -> Option<Medium> {
    let place = Spot::under(segment.from);
    plan.risers.values().filter(|riser| Spot::of(riser.at).distance(place) <= NEAR).find_map(
        |riser| {
            let at = |z| match void_among(plan, &riser.voids, z, place)? {
                Beyond::Void(void) => Some(void),
                Beyond::Concrete => None,
            };
            let (from, to) = (at(segment.from.z)?, at(segment.to.z)?);
            (from != to).then_some(Medium::Riser(from, to))
        },
    )
}

/// What lies beyond a ceiling or a floor.
enum Beyond {
    Void(VoidId),
    Concrete,
}

impl Beyond {
    fn passage(self) -> Medium {
        match self {
            Self::Void(void) => Medium::Passage(void),
            Self::Concrete => Medium::Concrete,
        }
    }
}

/// The void at a height, of two at one height the one that covers the place.
fn void_among(plan: &Plan, voids: &[VoidId], z: Mm, place: Spot) -> Option<Beyond> {
    if voids.is_empty() {
        return Some(Beyond::Concrete);
    }
    let at_height = |id: &&VoidId| plan.voids.get(*id).is_some_and(|void| level_with(void.z, z));
    let mut found = voids.iter().filter(at_height);
    let covering = found.clone().find(|id| covers(plan, **id, place));
    covering.or_else(|| found.next()).map(|id| Beyond::Void(*id))
}
