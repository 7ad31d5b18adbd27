//! Switches beside doors, and which lights they work.

use super::dwellings::Dwelling;
use super::gaps::Gap;
use super::inner::Inner;
use super::kit::Kit;
use super::lights::clear_place;
use super::spans::{Clear, dry, nearest, seen, usable};
use super::survey::{Door, Survey};
use super::ways_in::{self, WayIn};
use crate::plan::{
    Face, Family, OpeningKind, PointId, PointKind, RoomId, RoomUse, Subject, WallId,
};
use crate::rules::words::{CustomOf, MountedAt, PlacingOf};
use crate::units::{Point2, Point3};

/// Switches for the lights of every room that the draft lit.
pub(super) fn set(kit: &mut Kit<'_>, survey: &Survey, dwellings: &[Dwelling]) {
    for dwelling in dwellings {
        let mut done: Vec<RoomId> = Vec::new();
        for room in &dwelling.rooms {
            if done.contains(room) {
                continue;
            }
            let stair = kit.plan.rooms[room].usage == RoomUse::Stair;
            let flight = if stair { flight(kit, *room, &dwelling.rooms) } else { vec![*room] };
            done.extend(&flight);
            switch(kit, survey, &flight);
        }
    }
}

/// A stair with the stairs straight over and under it.
fn flight(kit: &Kit<'_>, room: RoomId, rooms: &[RoomId]) -> Vec<RoomId> {
    let mut flight = vec![room];
    let Some(at) = super::outline::heart(&kit.plan.rooms[&room].outline) else { return flight };
    for other in rooms {
        let drawn = &kit.plan.rooms[other];
        let over = crate::plan::outline_holds(&drawn.outline, at.x.to_f64(), at.y.to_f64());
        if *other != room
            && drawn.usage == RoomUse::Stair
            && over
            && drawn.level != kit.plan.rooms[&room].level
        {
            flight.push(*other);
        }
    }
    flight
}

/// One control for the lights (and the fan) of some rooms.
fn switch(kit: &mut Kit<'_>, survey: &Survey, rooms: &[RoomId]) {
    let mut lights: Vec<PointId> = Vec::new();
    for room in rooms {
        lights.extend(kit.added_of(*room, Family::Lights));
        lights.extend(
            kit.added_of(*room, Family::Fixed)
                .into_iter()
                .filter(|id| kit.plan.points[id].kind == PointKind::ExhaustFan),
        );
    }
    if lights.is_empty() {
        return;
    }
    let mut switches: Vec<PointId> = Vec::new();
    for room in rooms {
        let mut ways = ways_in::of(kit, survey, *room);
        if rooms.len() > 1 {
            ways.truncate(1);
        }
        if ways.is_empty() {
            switches.extend(anywhere(kit, survey, *room));
        }
        for way in ways {
            switches.extend(match way {
                WayIn::Door(door) => at_door(kit, survey, *room, &door),
                WayIn::Gap(gap) => at_gap(kit, survey, *room, &gap),
            });
        }
    }
    let subject = Subject::Room(rooms[0]);
    let name = kit.plan.rooms[&rooms[0]].name.clone();
    if switches.is_empty() {
        kit.reason(
            subject,
            format!("no switch in {name}"),
            "no free wall beside its doors; place one by hand",
        );
        return;
    }
    let because = match switches.len() {
        1 => "one way in that matters",
        2 => "two ways in: two-way",
        _ => "several ways in: two-way with intermediate switches",
    };
    let plural = if switches.len() == 1 { "" } else { "es" };
    kit.reason(subject, format!("{} switch{plural} for {name}", switches.len()), because);
    kit.control(lights, switches);
}

/// A switch beside a door, on its handle side.
fn at_door(kit: &mut Kit<'_>, survey: &Survey, room: RoomId, door: &Door) -> Option<PointId> {
    let usage = kit.plan.rooms[&room].usage;
    let wet = matches!(usage, RoomUse::Bathroom);
    let by_cord = kit.tables().custom.has(CustomOf::PullCordInBathroom);
    if wet && by_cord && kit.ceiling_carries(room) {
        return pull_cord(kit, room, door);
    }
    // Outside a bathroom; on the inner side of a door to the garden.
    let outside = matches!(usage, RoomUse::Bathroom | RoomUse::Outdoor | RoomUse::Store);
    let (room, face) = match door.beyond {
        Some(beyond) if outside => (beyond, other(door.face)),
        _ => (room, door.face),
    };
    let level = kit.plan.rooms[&room].level;
    let height = kit.height(level, MountedAt::Switch);
    let place = beside(kit, survey, room, door, face, height)?;
    let id = kit.add_on_wall(room, PointKind::Switch, place.0, height, 1);
    let mut because = place.1;
    if outside && room != door.beyond.map_or(room, |_| room) {
        because.push_str("; outside");
    }
    if wet {
        because.push_str("; outside the bathroom, clear of its zones");
    }
    kit.reason(Subject::Point(id), format!("switch by the door {}", door.opening), because);
    Some(id)
}

pub(super) type Found = ((WallId, Face, i64), String);

/// The place of a switch beside a door on one face of its wall, and why.
pub(super) fn beside(
    kit: &Kit<'_>,
    survey: &Survey,
    room: RoomId,
    door: &Door,
    face: Face,
    height: crate::units::Mm,
) -> Option<Found> {
    let clear = Clear { corner: 60, door: 60, window: 80, at_windows: false };
    let spans = dry(kit, room, usable(kit, survey, room, height, clear));
    let own: Vec<_> =
        spans.iter().filter(|s| s.wall == door.wall && s.face == face).copied().collect();
    let off = kit.distance(PlacingOf::SwitchFromDoor);
    let opening = &kit.plan.openings[&door.opening];
    let is_wall = |along: i64| own.iter().any(|span| span.from <= along && along <= span.to);
    let free = |along: i64| is_wall(along) && !kit.is_taken(door.wall, face, along, height.get());
    let at = |near: bool, off: i64| if near { door.from - off } else { door.to + off };
    let wall_left =
        |near: bool| (0..20).take_while(|step| is_wall(at(near, off + step * 50))).count();
    let (handle_near, known) = match opening.hinge {
        Some(hinge) => (!hinge.at_near_edge, true),
        None => (wall_left(true) >= wall_left(false), false),
    };
    let offsets = [off, 100, 200, 250, 300, 400, 500, 600];
    for (near, handle) in [(handle_near, true), (!handle_near, false)] {
        if let Some(off) = offsets.into_iter().find(|off| free(at(near, *off))) {
            let because = match (handle, known) {
                (true, true) => format!("handle side, {off} mm from the edge"),
                (true, false) if opening.kind == OpeningKind::Door => {
                    let known = "its hinges are not drawn, so the side with more wall";
                    format!("{off} mm from the edge; {known}")
                }
                (true, false) => {
                    format!("{off} mm from the edge; no leaf swings here: the side with more wall")
                }
                (false, _) => format!("no wall on the handle side: {off} mm on the other"),
            };
            return Some(((door.wall, face, at(near, off)), because));
        }
    }
    let middle = seen(kit, door.wall, face, (door.from + door.to).div_euclid(2));
    let place = nearest(kit, &spans, height, middle)?;
    Some((place, "no wall beside the door: the nearest free place".to_owned()))
}

pub(super) const fn other(face: Face) -> Face {
    match face {
        Face::Left => Face::Right,
        Face::Right => Face::Left,
    }
}

/// On the ceiling inside the door, clear of lights.
fn pull_cord(kit: &mut Kit<'_>, room: RoomId, door: &Door) -> Option<PointId> {
    let outline = kit.plan.rooms[&room].outline.clone();
    let others = others(kit, room);
    let middle = seen(kit, door.wall, door.face, (door.from + door.to).div_euclid(2));
    let (nx, ny) = kit.plan.walls[&door.wall].normal(door.face);
    let at = super::outline::place(middle.0 + nx * 450.0, middle.1 + ny * 450.0)
        .filter(|at| super::outline::depth(&outline, at.x.to_f64(), at.y.to_f64()) > 150.0)
        .filter(|at| others.iter().all(|other| other.distance(*at) > 300.0))
        .or_else(|| clear_place(&outline, &others, &Inner::of(kit, room), 200.0, 400.0))?;
    let id = kit.add_on_ceiling(room, PointKind::PullCord, at);
    kit.reason(
        Subject::Point(id),
        "pull cord inside the bathroom door",
        "no wall switch within reach of a bath or shower",
    );
    Some(id)
}

/// On the ceiling of a bathroom that has no free wall outside its zones; in any
/// other room nothing.
fn cord_instead(kit: &mut Kit<'_>, room: RoomId) -> Option<PointId> {
    let drawn = &kit.plan.rooms[&room];
    if drawn.usage != RoomUse::Bathroom || !kit.ceiling_carries(room) {
        return None;
    }
    let outline = drawn.outline.clone();
    let at = clear_place(&outline, &others(kit, room), &Inner::of(kit, room), 200.0, 400.0)?;
    let id = kit.add_on_ceiling(room, PointKind::PullCord, at);
    kit.reason(
        Subject::Point(id),
        "pull cord in the bathroom",
        "no free wall outside the zones of its bath and shower",
    );
    Some(id)
}

/// Where the points are that were added in a room.
fn others(kit: &Kit<'_>, room: RoomId) -> Vec<Point2> {
    let points = kit.added.get(&room).into_iter().flatten();
    let places = points.filter_map(|id| kit.plan.points[id].place);
    places.filter_map(|place| kit.plan.position(&place)).map(Point3::on_floor).collect()
}

/// On the wall nearest to either end of an open side.
fn at_gap(kit: &mut Kit<'_>, survey: &Survey, room: RoomId, gap: &Gap) -> Option<PointId> {
    let height = kit.height(kit.plan.rooms[&room].level, MountedAt::Switch);
    let clear = Clear { corner: 100, door: 100, window: 100, at_windows: false };
    let spans = dry(kit, room, usable(kit, survey, room, height, clear));
    let off = |end: (f64, f64)| {
        let place = nearest(kit, &spans, height, end)?;
        let (x, y) = seen(kit, place.0, place.1, place.2);
        Some((libm::hypot(x - end.0, y - end.1), place))
    };
    let found = gap.ends.into_iter().filter_map(off);
    let Some((_, place)) = found.min_by(|one, two| one.0.total_cmp(&two.0)) else {
        return cord_instead(kit, room);
    };
    let id = kit.add_on_wall(room, PointKind::Switch, place, height, 1);
    let beyond = kit.plan.rooms[&gap.beyond].name.clone();
    kit.reason(
        Subject::Point(id),
        "switch by the open side",
        format!("no wall between it and {}: the wall nearest to that side", shown(&beyond)),
    );
    Some(id)
}

fn shown(name: &str) -> &str {
    if name.is_empty() { "the next room" } else { name }
}

/// A room without doors: where it opens to the next one is not known.
fn anywhere(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) -> Option<PointId> {
    let drawn = &kit.plan.rooms[&room];
    let height = kit.height(drawn.level, MountedAt::Switch);
    let clear = Clear { corner: 150, door: 100, window: 100, at_windows: false };
    let spans = dry(kit, room, usable(kit, survey, room, height, clear));
    let first = spans.first().map(|span| seen(kit, span.wall, span.face, span.from));
    let Some(place) = first.and_then(|at| nearest(kit, &spans, height, at)) else {
        return cord_instead(kit, room);
    };
    let id = kit.add_on_wall(room, PointKind::Switch, place, height, 1);
    kit.reason(
        Subject::Point(id),
        "switch at the end of a wall",
        "no door and no open side of this room is drawn",
    );
    Some(id)
}
