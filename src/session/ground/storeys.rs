//! Levels that are stacked, and the voids above, between and below them.

use std::collections::BTreeSet;

use crate::plan::{
    Access, Area, AreaId, Backdrop, Change, Edit, Joists, Level, LevelId, Place, Plan, Plane,
    Riser, RiserId, Room, RoomId, Subject, Void, VoidId, VoidKind,
};
use crate::session::ground::remove;
use crate::units::{Angle, Mm};

/// Joists as they come with a new void: common practice, to be edited.
const JOISTS: Joists =
    Joists { spacing: Mm::new(450), depth: Mm::new(200), thickness: Mm::new(45) };
/// From a ceiling to the floor above it, mm: common practice.
const BETWEEN: Mm = Mm::new(300);
/// Floor to ceiling of a level that nothing says more about.
pub const HEIGHT: Mm = Mm::new(2400);

/// The level whose floor is the next lower.
pub fn below(plan: &Plan, level: LevelId) -> Option<LevelId> {
    next(plan, level, false)
}

fn next(plan: &Plan, level: LevelId, up: bool) -> Option<LevelId> {
    let floor = plan.levels.get(&level)?.floor;
    let beyond = plan
        .levels
        .iter()
        .filter(|(_, other)| if up { other.floor > floor } else { other.floor < floor });
    let far = |other: &Level| (other.floor - floor).abs();
    beyond.min_by_key(|(id, other)| (far(other), **id)).map(|(id, _)| *id)
}

/// A void of a kind at a height, with joists where it has any.
fn void(name: &str, kind: VoidKind, z: Mm, depth: Mm) -> Void {
    Void {
        name: name.to_owned(),
        kind,
        z,
        depth,
        direction: Angle::from_millidegrees(90_000),
        joists: (kind != VoidKind::Ground).then_some(JOISTS),
        insulation: Mm::ZERO,
        access: if kind == VoidKind::BetweenFloors { Access::Closed } else { Access::Crawl },
        outline: None,
    }
}

/// A level over another: what was above that one rises, and a void comes
/// between them. None where a level is there already.
pub fn add_above(plan: &Plan, under: LevelId) -> Option<(LevelId, Edit)> {
    let lower = plan.levels.get(&under).filter(|_| next(plan, under, true).is_none())?;
    let (id, between) = (LevelId(plan.fresh_id()), VoidId(plan.fresh_id() + 1));
    let floor = lower.ceiling() + BETWEEN;
    let rise = floor - lower.floor;
    let mut edits: Vec<Edit> = Vec::new();
    for above in &lower.above {
        if let Some(void) = plan.voids.get(above) {
            edits.push(Change::Put(*above, Void { z: void.z + rise, ..void.clone() }).into());
        }
    }
    let space =
        void("Between floors", VoidKind::BetweenFloors, lower.ceiling() + BETWEEN.half(), BETWEEN);
    edits.push(Change::Put(between, space).into());
    edits.push(Change::Put(under, Level { above: vec![between], ..lower.clone() }).into());
    let level = Level {
        name: name_above(plan, floor),
        floor,
        height: lower.height,
        above: lower.above.clone(),
        below: vec![between],
    };
    edits.push(Change::Put(id, level).into());
    Some((id, Edit::Many(edits)))
}

/// A level under the lowest one, with a void between them.
pub fn add_below(plan: &Plan, over: LevelId) -> Option<(LevelId, Edit)> {
    let upper = plan.levels.get(&over).filter(|_| next(plan, over, false).is_none())?;
    let (id, between) = (LevelId(plan.fresh_id()), VoidId(plan.fresh_id() + 1));
    let floor = upper.floor - BETWEEN - HEIGHT;
    let space =
        void("Between floors", VoidKind::BetweenFloors, upper.floor - BETWEEN.half(), BETWEEN);
    let level = Level {
        name: free_name(plan, "Basement"),
        floor,
        height: HEIGHT,
        above: vec![between],
        below: upper.below.clone(),
    };
    let mut edits: Vec<Edit> = Vec::new();
    for below in &upper.below {
        if let Some(void) = plan.voids.get(below) {
            let z = void.z - (upper.floor - floor);
            edits.push(Change::Put(*below, Void { z, ..void.clone() }).into());
        }
    }
    edits.push(Change::Put(between, space).into());
    edits.push(Change::Put(over, Level { below: vec![between], ..upper.clone() }).into());
    edits.push(Change::Put(id, level).into());
    Some((id, Edit::Many(edits)))
}

fn name_above(plan: &Plan, floor: Mm) -> String {
    let under = plan.levels.values().filter(|level| level.floor < floor).count();
    let base = plan.levels.values().filter(|level| level.floor < Mm::ZERO).count();
    match under - base.min(under) {
        1 => free_name(plan, "Upper floor"),
        count => free_name(plan, &format!("Level {count}")),
    }
}

fn free_name(plan: &Plan, wanted: &str) -> String {
    let taken = |name: &str| plan.levels.values().any(|level| level.name == name);
    let numbered = (2..).map(|count| format!("{wanted} {count}"));
    let mut names = std::iter::once(wanted.to_owned()).chain(numbered);
    names.find(|name| !taken(name)).unwrap_or_default()
}

/// Takes a level away with its walls, openings, rooms and points, and the
/// voids that then belong to no level.
pub fn removed(plan: &Plan, id: LevelId) -> Edit {
    let on = |place: Option<Place>| place.and_then(|place| plan.level_of(&place)) == Some(id);
    let mut things: BTreeSet<Subject> = BTreeSet::new();
    things
        .extend(plan.walls.iter().filter(|(_, w)| w.level == id).map(|(id, _)| Subject::Wall(*id)));
    things
        .extend(plan.points.iter().filter(|(_, p)| on(p.place)).map(|(id, _)| Subject::Point(*id)));
    things
        .extend(plan.boards.iter().filter(|(_, b)| on(b.place)).map(|(id, _)| Subject::Board(*id)));
    let mut edits = remove::all(plan, &things);
    for room in plan.rooms.iter().filter(|(_, room)| room.level == id).map(|(id, _)| *id) {
        edits.push(Change::<RoomId, Room>::Remove(room).into());
    }
    if plan.backdrops.contains_key(&id) {
        edits.push(Edit::Backdrop(Change::<LevelId, Backdrop>::Remove(id)));
    }
    edits.push(Change::<LevelId, Level>::Remove(id).into());
    let named = |void: &VoidId| {
        let others = plan.levels.iter().filter(|(other, _)| **other != id);
        others.into_iter().any(|(_, l)| l.above.contains(void) || l.below.contains(void))
    };
    let level = plan.levels.get(&id);
    let voids = level.into_iter().flat_map(|level| level.above.iter().chain(&level.below));
    for void in voids.filter(|void| !named(void)) {
        edits.extend(void_gone(plan, *void));
    }
    Edit::Many(edits)
}

/// Takes a void away with its areas, from its levels and from pins and risers.
pub fn void_gone(plan: &Plan, id: VoidId) -> Vec<Edit> {
    let mut edits: Vec<Edit> = Vec::new();
    for (area, _) in plan.areas.iter().filter(|(_, area)| area.on == Plane::Void(id)) {
        edits.push(Change::<AreaId, Area>::Remove(*area).into());
    }
    for (riser_id, riser) in plan.risers.iter().filter(|(_, riser)| riser.voids.contains(&id)) {
        let voids: Vec<VoidId> = riser.voids.iter().copied().filter(|void| *void != id).collect();
        edits.push(if voids.len() < 2 {
            Change::<RiserId, Riser>::Remove(*riser_id).into()
        } else {
            Change::Put(*riser_id, Riser { voids, ..riser.clone() }).into()
        });
    }
    for (circuit_id, circuit) in &plan.circuits {
        let mut with = circuit.clone();
        with.pins.retain(|pin| pin.through.iter().all(|place| place.void != id));
        if with != *circuit {
            edits.push(Change::Put(*circuit_id, with).into());
        }
    }
    edits.push(Change::<VoidId, Void>::Remove(id).into());
    edits
}

/// A void more over or under a level. A level without one on that side has
/// concrete there.
pub fn add_void(plan: &Plan, level_id: LevelId, overhead: bool) -> Option<(VoidId, Edit)> {
    let level = plan.levels.get(&level_id)?;
    let id = VoidId(plan.fresh_id());
    let (beyond, new, mut with) = (next(plan, level_id, overhead), id, level.clone());
    let space = match (overhead, beyond) {
        (true, None) => {
            void("Roof space", VoidKind::RoofSpace, level.ceiling() + Mm::new(100), Mm::new(1400))
        }
        (true, Some(_)) => void(
            "Between floors",
            VoidKind::BetweenFloors,
            level.ceiling() + BETWEEN.half(),
            BETWEEN,
        ),
        (false, None) => void("Subfloor", VoidKind::Subfloor, level.floor - BETWEEN, Mm::new(500)),
        (false, Some(_)) => {
            void("Between floors", VoidKind::BetweenFloors, level.floor - BETWEEN.half(), BETWEEN)
        }
    };
    let side = if overhead { &mut with.above } else { &mut with.below };
    side.push(new);
    let mut edits: Vec<Edit> =
        vec![Change::Put(id, space).into(), Change::Put(level_id, with).into()];
    // What is over one level is under the next.
    if let Some((other_id, other)) = beyond.and_then(|id| Some((id, plan.levels.get(&id)?))) {
        let mut other = other.clone();
        if overhead {
            other.below.push(new)
        } else {
            other.above.push(new)
        }
        edits.push(Change::Put(other_id, other).into());
    }
    Some((id, Edit::Many(edits)))
}

/// What of the chosen is not the business of `remove`: rooms, areas, voids and
/// pictures.
pub fn others_gone(plan: &Plan, chosen: &BTreeSet<Subject>) -> Vec<Edit> {
    let mut edits: Vec<Edit> = Vec::new();
    for subject in chosen {
        match subject {
            Subject::Room(id) if plan.rooms.contains_key(id) => {
                edits.push(Change::<RoomId, Room>::Remove(*id).into());
            }
            Subject::Area(id) if plan.areas.contains_key(id) => {
                edits.push(Change::<AreaId, Area>::Remove(*id).into());
            }
            Subject::Void(id) if plan.voids.contains_key(id) => {
                for (level_id, level) in &plan.levels {
                    let mut with = level.clone();
                    with.above.retain(|void| void != id);
                    with.below.retain(|void| void != id);
                    if with != *level {
                        edits.push(Change::Put(*level_id, with).into());
                    }
                }
                edits.extend(void_gone(plan, *id));
            }
            Subject::Level(id) if plan.backdrops.contains_key(id) => {
                edits.push(Edit::Backdrop(Change::<LevelId, Backdrop>::Remove(*id)));
            }
            _ => {}
        }
    }
    edits
}
