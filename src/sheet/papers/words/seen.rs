//! From where one looks at a wall that a leg passes.

use super::along;
use super::fixed::on;
use super::in_void::on_sheet;
use super::stage::{Stage, Within};
use crate::plan::{End, Face, Place, WallId};
use crate::runs::Leg;
use crate::sheet::house::House;
use crate::units::Mm;

/// A side of a wall as one looks at it.
#[derive(Clone, Debug)]
pub(super) struct Seen {
    pub(super) side: Face,
    /// What drawings call the face.
    pub(super) name: String,
    /// The room from which one looks, or `outside`.
    pub(super) room: String,
}

/// The side from which a stage in a wall is told: that of the end in it, else
/// that of the room of either end, else that of any room.
pub(super) fn seen(
    house: &House<'_>,
    leg: &Leg,
    stages: &[Stage<'_>],
    at: usize,
    wall: WallId,
) -> Seen {
    let is_last = at + 1 == stages.len();
    let ends = [(leg.from, at == 0), (leg.to, is_last)];
    let own = ends.into_iter().filter(|(_, is_here)| *is_here).find_map(|(end, _)| {
        let Some(Place::Wall(place)) = house.plan.place_of(end) else { return None };
        (place.wall == wall).then_some(place)
    });
    if let Some(place) = own {
        let room = room_at(house, &place).unwrap_or_default();
        return told(house, &place, room);
    }
    let middle = stages.get(at).map_or(Mm::ZERO, |stage| middle(house, stage, wall));
    let sides = [Face::Right, Face::Left].map(|side| {
        let place = on(wall, side, middle);
        let room = room_at(house, &place).unwrap_or_default();
        (place, room)
    });
    let rooms = [leg.from, leg.to].map(|end: End| house.room_of(end));
    let wanted = rooms.into_iter().filter(|room| !room.is_empty());
    let of_room = wanted.filter_map(|room| sides.iter().find(|side| side.1 == room)).next();
    let any = || sides.iter().find(|side| !side.1.is_empty());
    let chosen = of_room.or_else(any).unwrap_or(&sides[0]);
    told(house, &chosen.0, chosen.1.clone())
}

fn told(house: &House<'_>, place: &crate::plan::OnWall, room: String) -> Seen {
    let found = house.faces().nearest(place);
    // Where both faces look alike there, by a room that only this one sees.
    let plan = house.plan;
    let face = if place.face == Face::Left { Face::Right } else { Face::Left };
    let behind = crate::plan::OnWall { face, ..*place };
    let here = |place| plan.room_of(&Place::Wall(place)).and_then(|id| plan.rooms.get(&id));
    let alike = here(*place).map(|room| &room.name) == here(behind).map(|room| &room.name);
    let names = |place| -> Vec<&String> {
        let found = house.faces().nearest(place).into_iter();
        let rooms = found.flat_map(|(piece, _)| &piece.rooms);
        rooms.filter_map(|id| plan.rooms.get(id)).map(|room| &room.name).collect()
    };
    let theirs = names(&behind);
    let own = || names(place).into_iter().find(|name| !theirs.contains(name));
    let own = if alike { own() } else { Some(&room) };
    let room = own.cloned().or_else(|| {
        let wall = house.plan.walls.get(&place.wall)?;
        Some(format!("the {} side on the floor sheet", on_sheet(wall.normal(place.face))))
    });
    let room = room.filter(|room| !room.is_empty()).unwrap_or_else(|| "outside".to_owned());
    let name = found.map_or_else(|| place.wall.to_string(), |(piece, _)| piece.name.clone());
    Seen { side: place.face, name, room }
}

/// The name of the room before a face: at the place itself, or where it lies
/// within another wall at the nearest place that can be seen.
fn room_at(house: &House<'_>, place: &crate::plan::OnWall) -> Option<String> {
    let plan = house.plan;
    let room = plan.room_of(&Place::Wall(*place)).or_else(|| {
        let (piece, _) = house.faces().nearest(place)?;
        if house.faces().place(place).is_some() { None } else { piece.room() }
    });
    room.and_then(|id| plan.rooms.get(&id)).map(|room| room.name.clone())
}

/// The middle of what a stage covers of a wall, along it.
fn middle(house: &House<'_>, stage: &Stage<'_>, id: WallId) -> Mm {
    let (Within::Wall(_), Some(wall)) = (stage.within, house.plan.walls.get(&id)) else {
        return Mm::ZERO;
    };
    let (first, last) = (stage.segments.first(), stage.segments.last());
    let (Some((_, first)), Some((_, last))) = (first, last) else { return Mm::ZERO };
    let (from, to) = (along(wall, first.from), along(wall, last.to));
    (from + to).half()
}
