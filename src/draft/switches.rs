//! Switches beside doors, and which lights they work.

use super::dwellings::Dwelling;
use super::inner::Inner;
use super::kit::Kit;
use super::lights::clear_place;
use super::spans::{Clear, nearest, seen, usable};
use super::survey::{Door, Survey};
use crate::plan::{
    Face, Family, OpeningKind, PointId, PointKind, Regime, RoomId, RoomUse, Subject, WallId,
};

/// Two doors so near to each other need one switch, mm.
const NEAR: f64 = 2000.0;

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
        let doors = if rooms.len() > 1 {
            survey.doors_of(*room).first().copied().into_iter().collect()
        } else {
            doors_for(kit, survey, *room)
        };
        if doors.is_empty() {
            switches.extend(anywhere(kit, survey, *room));
        }
        for door in doors {
            switches.extend(at_door(kit, survey, *room, &door));
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

/// The doors of a room that want a switch, most important first.
fn doors_for(kit: &Kit<'_>, survey: &Survey, room: RoomId) -> Vec<Door> {
    let usage = |room: Option<RoomId>| room.map(|room| kit.plan.rooms[&room].usage);
    let own = usage(Some(room));
    // From where people come in: lower is likelier.
    let rank = |door: &Door| match usage(door.beyond) {
        Some(RoomUse::Hall) => 0,
        Some(RoomUse::Stair) => 1,
        None if door.kind == OpeningKind::Door => 2,
        Some(RoomUse::Living) => 3,
        Some(RoomUse::Dining | RoomUse::Kitchen | RoomUse::Other) => 4,
        Some(RoomUse::Bedroom | RoomUse::Study) => 5,
        Some(RoomUse::Laundry | RoomUse::Garage) => 6,
        None => 7,
        Some(RoomUse::Bathroom | RoomUse::Toilet | RoomUse::Store) => 8,
        Some(RoomUse::Outdoor) => 9,
    };
    let mut doors: Vec<Door> = survey.doors_of(room).to_vec();
    // Into a hall people come from outdoors first.
    let hall = matches!(own, Some(RoomUse::Hall | RoomUse::Stair));
    doors.sort_by_key(|door| {
        let rank = if hall && door.beyond.is_none() { -1 } else { rank(door) };
        (rank, door.wall, door.from)
    });
    let Some(first) = doors.first().copied() else { return doors };
    let small = matches!(
        own,
        Some(RoomUse::Bathroom | RoomUse::Toilet | RoomUse::Store | RoomUse::Outdoor)
    );
    if small {
        return vec![first];
    }
    let middle = |door: &Door| seen(kit, door.wall, door.face, (door.from + door.to).div_euclid(2));
    let away = |door: &Door| {
        let (a, b) = (middle(&first), middle(door));
        libm::hypot(a.0 - b.0, a.1 - b.1)
    };
    // A second where one walks through: halls to their far end, rooms to
    // another room or outdoors.
    let passes = |door: &&Door| if hall { rank(door) < 9 } else { rank(door) < 5 };
    let second = doors[1..]
        .iter()
        .filter(passes)
        .filter(|door| away(door) > NEAR)
        .max_by(|a, b| away(a).total_cmp(&away(b)));
    std::iter::once(first).chain(second.copied()).collect()
}

/// A switch beside a door, on its handle side.
fn at_door(kit: &mut Kit<'_>, survey: &Survey, room: RoomId, door: &Door) -> Option<PointId> {
    let usage = kit.plan.rooms[&room].usage;
    let wet = matches!(usage, RoomUse::Bathroom);
    if wet && kit.regime == Regime::Bs && kit.ceiling_carries(room) {
        return pull_cord(kit, room, door);
    }
    // Outside a bathroom; on the inner side of a door to the garden.
    let outside = matches!(usage, RoomUse::Bathroom | RoomUse::Outdoor | RoomUse::Store);
    let (room, face) = match door.beyond {
        Some(beyond) if outside => (beyond, other(door.face)),
        _ => (room, door.face),
    };
    let level = kit.plan.rooms[&room].level;
    let height = kit.height(level, "switch");
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

type Found = ((WallId, Face, i64), String);

fn beside(
    kit: &Kit<'_>,
    survey: &Survey,
    room: RoomId,
    door: &Door,
    face: Face,
    height: crate::units::Mm,
) -> Option<Found> {
    let clear = Clear { corner: 60, door: 60, window: 80, at_windows: false };
    let spans = usable(kit, survey, room, height, clear);
    let own: Vec<_> =
        spans.iter().filter(|s| s.wall == door.wall && s.face == face).copied().collect();
    let off = kit.distance("switch_from_door");
    let opening = &kit.plan.openings[&door.opening];
    let free = |along: i64| {
        own.iter().any(|span| span.from <= along && along <= span.to)
            && !kit.is_taken(door.wall, face, along, height.get())
    };
    let at = |near: bool, off: i64| if near { door.from - off } else { door.to + off };
    let wall_left = |near: bool| (0..20).take_while(|step| free(at(near, off + step * 50))).count();
    let (handle_near, known) = match opening.hinge {
        Some(hinge) => (!hinge.at_near_edge, true),
        None => (wall_left(true) >= wall_left(false), false),
    };
    let offsets = [off, 100, 200, 250, 300, 400, 500, 600];
    for (near, handle) in [(handle_near, true), (!handle_near, false)] {
        if let Some(off) = offsets.into_iter().find(|off| free(at(near, *off))) {
            let because = match (handle, known) {
                (true, true) => format!("handle side, {off} mm from the edge"),
                (true, false) => {
                    format!(
                        "{off} mm from the edge; its hinges are not drawn, so the side with more wall"
                    )
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

fn other(face: Face) -> Face {
    match face {
        Face::Left => Face::Right,
        Face::Right => Face::Left,
    }
}

/// On the ceiling inside the door, clear of lights.
fn pull_cord(kit: &mut Kit<'_>, room: RoomId, door: &Door) -> Option<PointId> {
    let outline = kit.plan.rooms[&room].outline.clone();
    let points = kit.added.get(&room).cloned().unwrap_or_default();
    let others: Vec<_> = points
        .iter()
        .filter_map(|id| kit.plan.position(kit.plan.points[id].place.as_ref()?))
        .map(crate::units::Point3::on_floor)
        .collect();
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

/// A room without doors: where it opens to the next one is not known.
fn anywhere(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) -> Option<PointId> {
    let drawn = &kit.plan.rooms[&room];
    let height = kit.height(drawn.level, "switch");
    let clear = Clear { corner: 150, door: 100, window: 100, at_windows: false };
    let spans = usable(kit, survey, room, height, clear);
    let at = spans.first().map(|span| seen(kit, span.wall, span.face, span.from))?;
    let place = nearest(kit, &spans, height, at)?;
    let id = kit.add_on_wall(room, PointKind::Switch, place, height, 1);
    kit.reason(
        Subject::Point(id),
        "switch at the end of a wall",
        "no door into this room is drawn",
    );
    Some(id)
}
