//! Which rooms make up a dwelling, each with a board of its own.
//!
//! Rooms belong together where a door or an open edge leads from one to the
//! other. Where that leaves two kitchens together, stairs and then the halls
//! with most doors are taken for common parts until each has one.

use std::collections::BTreeMap;

use super::gaps::is_beside;
use super::grid::bounds_of;
use super::join::Sets;
use super::kit::Kit;
use super::outline::{area_m2, bounds, heart};
use super::survey::Survey;
use super::walls_by_level::Walls;
use crate::plan::{BoardId, Room, RoomId, RoomUse, Subject, outline_holds};

/// Rooms behind one board.
#[derive(Clone, Debug, Default)]
pub(super) struct Dwelling {
    pub(super) rooms: Vec<RoomId>,
    /// Whether these are the common parts of several dwellings.
    pub(super) common: bool,
    pub(super) board: Option<BoardId>,
}

/// Finds the dwellings of a plan. Shafts belong to none.
pub(super) fn find(kit: &mut Kit<'_>, survey: &Survey) -> Vec<Dwelling> {
    let rooms: Vec<RoomId> = survey.rooms().filter(|room| !kit.shafts.contains(room)).collect();
    let kitchens = rooms.iter().filter(|room| is_kitchen(&kit.plan.rooms[*room])).count();
    if !kit.plan.boards.is_empty() {
        return vec![Dwelling { rooms, common: false, board: None }];
    }
    if kitchens <= 1 {
        return apart(kit, rooms);
    }
    let links = links(kit, survey, &rooms);
    let mut common: Vec<RoomId> = rooms
        .iter()
        .filter(|room| kit.plan.rooms[*room].usage == RoomUse::Stair)
        .copied()
        .collect();
    let parts = loop {
        let parts = parts(kit, &rooms, &links, &common);
        let crowded = parts
            .iter()
            .find(|part| part.iter().filter(|room| is_kitchen(&kit.plan.rooms[*room])).count() > 1);
        let Some(crowded) = crowded else { break parts };
        let doors = |room: &RoomId| links.iter().filter(|(a, b)| a == room || b == room).count();
        let hall = crowded
            .iter()
            .filter(|room| matches!(kit.plan.rooms[*room].usage, RoomUse::Hall | RoomUse::Other))
            .max_by_key(|room| (doors(room), std::cmp::Reverse(**room)))
            .copied();
        match hall.filter(|hall| doors(hall) > 1) {
            Some(hall) => common.push(hall),
            None => break parts,
        }
    };
    let mut dwellings = sort(kit, parts);
    let shared: Vec<RoomId> = common
        .into_iter()
        .filter(|room| !dwellings.iter().any(|d| d.rooms.contains(room)))
        .collect();
    let homes = dwellings.iter().filter(|dwelling| !dwelling.common).count();
    match dwellings.iter_mut().find(|dwelling| dwelling.common) {
        Some(parts) => parts.rooms.extend(shared),
        None if !shared.is_empty() => {
            dwellings.push(Dwelling { rooms: shared, common: true, board: None });
        }
        None => {}
    }
    take_in(kit, &mut dwellings, &links);
    for dwelling in &mut dwellings {
        dwelling.rooms.sort_unstable();
    }
    if homes > 1 {
        kit.reason(
            Subject::Plan,
            format!("{homes} dwellings, each with a board of its own"),
            format!(
                "{kitchens} kitchens that no door joins; what all share hangs on a board of its own"
            ),
        );
    }
    dwellings
}

/// Buildings that stand apart, each with a board of its own: no cable goes
/// from one to the other but through the ground.
fn apart(kit: &mut Kit<'_>, rooms: Vec<RoomId>) -> Vec<Dwelling> {
    let boxes: Vec<Option<[f64; 4]>> =
        rooms.iter().map(|room| bounds(&kit.plan.rooms[room].outline)).collect();
    let mut sets = Sets::new(rooms.len());
    for (i, a) in boxes.iter().enumerate() {
        for (j, b) in boxes.iter().enumerate().skip(i + 1) {
            let near = match (a, b) {
                (Some(a), Some(b)) => {
                    a[0] - APART < b[2]
                        && b[0] - APART < a[2]
                        && a[1] - APART < b[3]
                        && b[1] - APART < a[3]
                }
                // A room without an outline is anywhere.
                _ => true,
            };
            if near {
                sets.join(i, j);
            }
        }
    }
    let mut blocks: BTreeMap<usize, Vec<RoomId>> = BTreeMap::new();
    for (index, room) in rooms.into_iter().enumerate() {
        blocks.entry(sets.of(index)).or_default().push(room);
    }
    if blocks.len() > 1 {
        kit.reason(
            Subject::Plan,
            format!("{} buildings apart, each with a board of its own", blocks.len()),
            "nothing that cables use joins them; feed one from the other through the ground if wanted",
        );
    }
    blocks.into_values().map(|rooms| Dwelling { rooms, common: false, board: None }).collect()
}

/// Rooms further from each other are in different buildings, mm.
const APART: f64 = 1500.0;

/// Common parts that lead into one home only belong to it: an inner stair.
fn take_in(kit: &Kit<'_>, dwellings: &mut Vec<Dwelling>, links: &[(RoomId, RoomId)]) {
    let Some(common) = dwellings.iter().position(|dwelling| dwelling.common) else { return };
    let rooms = dwellings[common].rooms.clone();
    let mut sets = Sets::new(rooms.len());
    let stacked = |a: &RoomId, b: &RoomId| {
        let (a, b) = (&kit.plan.rooms[a], &kit.plan.rooms[b]);
        a.level != b.level
            && heart(&a.outline)
                .is_some_and(|at| outline_holds(&b.outline, at.x.to_f64(), at.y.to_f64()))
    };
    for (i, a) in rooms.iter().enumerate() {
        for (j, b) in rooms.iter().enumerate().skip(i + 1) {
            if links.contains(&(*a.min(b), *a.max(b))) || stacked(a, b) {
                sets.join(i, j);
            }
        }
    }
    let mut beside: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (index, room) in rooms.iter().enumerate() {
        let homes = beside.entry(sets.of(index)).or_default();
        for (a, b) in links.iter().filter(|(a, b)| a == room || b == room) {
            let other = if a == room { b } else { a };
            let home = dwellings.iter().position(|d| !d.common && d.rooms.contains(other));
            homes.extend(home);
        }
        homes.sort_unstable();
        homes.dedup();
    }
    for (index, room) in rooms.iter().enumerate() {
        if let [home] = beside[&sets.of(index)][..] {
            dwellings[home].rooms.push(*room);
            dwellings[common].rooms.retain(|other| other != room);
        }
    }
    dwellings.retain(|dwelling| !dwelling.rooms.is_empty());
}

fn is_kitchen(room: &Room) -> bool {
    room.usage == RoomUse::Kitchen
}

/// Which rooms lead into which.
fn links(kit: &Kit<'_>, survey: &Survey, rooms: &[RoomId]) -> Vec<(RoomId, RoomId)> {
    let mut links = Vec::new();
    let walls = Walls::of(&kit.plan);
    for room in rooms {
        for door in survey.doors_of(*room) {
            if let Some(beyond) = door.beyond.filter(|beyond| *beyond > *room) {
                links.push((*room, beyond));
            }
        }
        let drawn = &kit.plan.rooms[room];
        for (index, from) in drawn.outline.iter().enumerate() {
            let to = drawn.outline[(index + 1) % drawn.outline.len()];
            let length = from.distance(to);
            if length < 600.0 {
                continue;
            }
            let (dx, dy) = ((to.x - from.x).to_f64() / length, (to.y - from.y).to_f64() / length);
            for off in [-120.0, 120.0] {
                let (x, y) = (
                    from.x.to_f64() + dx * length / 2.0 - dy * off,
                    from.y.to_f64() + dy * length / 2.0 + dx * off,
                );
                let next = survey.room_at(drawn.level, x, y).filter(|next| next != room);
                let near = walls.around(drawn.level, bounds_of((x, y), (x, y), 1000.0));
                let open = !near.iter().any(|(_, wall)| is_beside(wall, x, y));
                if let Some(next) = next.filter(|_| open) {
                    links.push((*room.min(&next), *room.max(&next)));
                }
            }
        }
    }
    links.sort_unstable();
    links.dedup();
    links
}

/// Rooms joined by links, common parts left out.
fn parts(
    kit: &Kit<'_>,
    rooms: &[RoomId],
    links: &[(RoomId, RoomId)],
    common: &[RoomId],
) -> Vec<Vec<RoomId>> {
    let index: BTreeMap<RoomId, usize> = rooms.iter().enumerate().map(|(i, r)| (*r, i)).collect();
    let mut sets = Sets::new(rooms.len());
    for (a, b) in links {
        if let (false, false, Some(a), Some(b)) =
            (common.contains(a), common.contains(b), index.get(a), index.get(b))
        {
            sets.join(*a, *b);
        }
    }
    let mut parts: BTreeMap<usize, Vec<RoomId>> = BTreeMap::new();
    for (room, index) in &index {
        if !common.contains(room) && kit.plan.rooms.contains_key(room) {
            parts.entry(sets.of(*index)).or_default().push(*room);
        }
    }
    parts.into_values().collect()
}

/// Parts with a kitchen are dwellings; upper floors join the dwelling beneath
/// them; what is left is common.
fn sort(kit: &Kit<'_>, parts: Vec<Vec<RoomId>>) -> Vec<Dwelling> {
    let has_kitchen =
        |part: &Vec<RoomId>| part.iter().any(|room| is_kitchen(&kit.plan.rooms[room]));
    let (homes, rest): (Vec<_>, Vec<_>) = parts.into_iter().partition(has_kitchen);
    let ground = homes.clone();
    let mut dwellings: Vec<Dwelling> =
        homes.into_iter().map(|rooms| Dwelling { rooms, common: false, board: None }).collect();
    let mut common = Vec::new();
    for part in rest {
        let lived = part.iter().any(|room| {
            matches!(
                kit.plan.rooms[room].usage,
                RoomUse::Bedroom | RoomUse::Living | RoomUse::Study
            )
        });
        let overlap = |home: &Vec<RoomId>| -> f64 {
            part.iter()
                .filter_map(|room| {
                    let drawn = &kit.plan.rooms[room];
                    let at = heart(&drawn.outline)?;
                    let over = home.iter().any(|under| {
                        let under = &kit.plan.rooms[under];
                        under.level != drawn.level
                            && outline_holds(&under.outline, at.x.to_f64(), at.y.to_f64())
                    });
                    over.then(|| area_m2(&drawn.outline))
                })
                .sum()
        };
        let best = (0..ground.len())
            .map(|index| (overlap(&ground[index]), index))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)));
        match best {
            Some((overlap, index)) if overlap > 0.0 && lived => {
                dwellings[index].rooms.extend(part);
            }
            _ => common.extend(part),
        }
    }
    if !common.is_empty() {
        dwellings.push(Dwelling { rooms: common, common: true, board: None });
    }
    dwellings
}
