//! Outside the doors to the open: a light beside each, and a socket by the
//! entrance. Balconies and gardens that are drawn have theirs as rooms.

use super::beyond::{Beyond, beyond};
use super::board::entrance;
use super::dwellings::Dwelling;
use super::grid::bounds_of;
use super::kit::Kit;
use super::spans::seen;
use super::standard;
use super::survey::{Door, Survey};
use super::switches::{beside, other};
use super::walls_by_level::Walls;
use crate::plan::{
    Face, Family, OpeningKind, Place, Plan, PointKind, RoomId, RoomUse, Subject, WallBuild, WallId,
};
use crate::rules::words::{MountedAt, PlacingOf, RoomOrEntrance};
use crate::units::Mm;

/// What hangs so near to a door was drawn for it, mm.
const OWN: i64 = 2500;
/// From a box outside to the end of its wall, to openings and to other walls, mm.
const CLEAR: i64 = 100;

/// Lights and sockets outside the doors to the open of every dwelling.
pub(super) fn furnish(kit: &mut Kit<'_>, survey: &Survey, dwellings: &[Dwelling]) {
    let mut todo: Vec<(RoomId, Door, PointKind, String)> = Vec::new();
    for dwelling in dwellings {
        let doors = open_doors(kit, survey, dwellings, dwelling);
        let by = (kit.tables(), kit.options.standard);
        for kind in [PointKind::WallLight, PointKind::WeatherproofSocket] {
            let (count, credit) = standard::count(by, RoomOrEntrance::Entrance, kind, 0.0);
            let wanted = doors.iter().take(count);
            todo.extend(wanted.map(|(room, door)| (*room, *door, kind, credit.clone())));
        }
    }
    let drawn = kit.plan.clone();
    let walls = Walls::of(&drawn);
    for (room, door, kind, credit) in todo {
        if !has(&drawn, &door, kind.family()) {
            one(kit, survey, &walls, room, &door, kind, &credit);
        }
    }
}

/// The doors to the open, the entrance first. Those that lead elsewhere are
/// told, where they would have had something.
fn open_doors(
    kit: &mut Kit<'_>,
    survey: &Survey,
    dwellings: &[Dwelling],
    dwelling: &Dwelling,
) -> Vec<(RoomId, Door)> {
    let mut doors = doors_out(kit, survey, dwelling);
    doors.retain(|(room, door)| match beyond(kit, survey, dwellings, dwelling, (*room, door)) {
        Beyond::Open => true,
        Beyond::NotOpen(why) => {
            let chosen = format!("no outdoor points by the door {}", door.opening);
            kit.reason(Subject::Opening(door.opening), chosen, why);
            false
        }
    });
    doors
}

/// The doors without a room beyond them, the entrance first.
fn doors_out(kit: &Kit<'_>, survey: &Survey, dwelling: &Dwelling) -> Vec<(RoomId, Door)> {
    let mut doors: Vec<(RoomId, Door)> = Vec::new();
    for room in dwelling.rooms.iter().filter(|r| kit.plan.rooms[*r].usage != RoomUse::Outdoor) {
        let leads_out = |door: &&Door| {
            door.beyond.is_none()
                && door.kind != OpeningKind::Plain
                && kit.plan.walls[&door.wall].build != WallBuild::Screen
        };
        doors.extend(survey.doors_of(*room).iter().filter(leads_out).map(|door| (*room, *door)));
    }
    let main = entrance(kit, survey, &dwelling.rooms).map(|(_, door)| door.opening);
    doors.sort_by_key(|(_, door)| {
        (Some(door.opening) != main, door.kind != OpeningKind::Door, door.wall, door.from)
    });
    doors
}

/// Whether there is something of a family outside a door.
fn has(plan: &Plan, door: &Door, family: Family) -> bool {
    plan.points.values().any(|point| match point.place {
        Some(Place::Wall(on)) => {
            on.wall == door.wall
                && on.face == other(door.face)
                && point.kind.family() == family
                && door.from - OWN <= on.along.get()
                && on.along.get() <= door.to + OWN
        }
        _ => false,
    })
}

fn one(
    kit: &mut Kit<'_>,
    survey: &Survey,
    walls: &Walls<'_>,
    room: RoomId,
    door: &Door,
    kind: PointKind,
    credit: &str,
) {
    let level = kit.plan.rooms[&room].level;
    let is_light = kind == PointKind::WallLight;
    let mounted = if is_light { MountedAt::WallLight } else { MountedAt::WeatherproofSocket };
    let height = kit.height(level, mounted);
    let subject = Subject::Opening(door.opening);
    let Some(along) = outside(kit, survey, walls, door, height) else {
        let chosen = format!("no {} outside the door {}", kind.name(), door.opening);
        kit.reason(subject, chosen, "no free wall beside it outside; place one by hand");
        return;
    };
    let place = (door.wall, other(door.face), along);
    if !is_light {
        let id = kit.add_on_wall(room, kind, place, height, 1);
        let chosen = format!("{} outside the door {}", kind.name(), door.opening);
        kit.reason(Subject::Point(id), chosen, format!("{WHY}; {credit}"));
        return;
    }
    let reach = kit.height(level, MountedAt::Switch);
    let Some((at, why)) = beside(kit, survey, room, door, door.face, reach) else {
        let chosen = format!("no outside light by the door {}", door.opening);
        kit.reason(subject, chosen, "no free wall inside for its switch; place both by hand");
        return;
    };
    let light = kit.add_on_wall(room, kind, place, height, 1);
    let chosen = format!("outside light by the door {}", door.opening);
    kit.reason(Subject::Point(light), chosen, format!("{WHY}; {credit}"));
    let switch = kit.add_on_wall(room, PointKind::Switch, at, reach, 1);
    let chosen = format!("its switch inside by the door {}", door.opening);
    kit.reason(Subject::Point(switch), chosen, why);
    kit.control(vec![light], vec![switch]);
}

const WHY: &str = "nothing is drawn beyond the door: taken for the open; \
                   if there is a landing, draw it as a hall and draft again";

/// Where beside a door outside something can hang: the handle side first.
fn outside(
    kit: &Kit<'_>,
    survey: &Survey,
    walls: &Walls<'_>,
    door: &Door,
    height: Mm,
) -> Option<i64> {
    let face = other(door.face);
    let near_first = kit.plan.openings[&door.opening].hinge.is_none_or(|h| !h.at_near_edge);
    let off = kit.distance(PlacingOf::EntranceLight);
    let at = |near: bool, off: i64| if near { door.from - off } else { door.to + off };
    for reach in [off..off + 500, off.div_euclid(2)..off, off + 500..off + 1500] {
        for near in [near_first, !near_first] {
            let mut offs = reach.clone().step_by(50).map(|off| at(near, off));
            let free =
                offs.find(|along| is_free(kit, survey, walls, (door.wall, face), *along, height));
            if free.is_some() {
                return free;
            }
        }
    }
    None
}

/// Whether a place on the outside of a wall is free and in the open.
fn is_free(
    kit: &Kit<'_>,
    survey: &Survey,
    walls: &Walls<'_>,
    (wall, face): (WallId, Face),
    along: i64,
    height: Mm,
) -> bool {
    let drawn = &kit.plan.walls[&wall];
    let length = super::numbers::whole(drawn.length());
    let in_opening = survey.openings_of(wall).iter().any(|id| {
        let opening = &kit.plan.openings[id];
        let level =
            opening.sill - Mm::new(CLEAR) < height && height < opening.head + Mm::new(CLEAR);
        let (from, to) = (opening.from.get(), (opening.from + opening.width).get());
        (level || opening.kind != OpeningKind::Window) && from - CLEAR < along && along < to + CLEAR
    });
    if along < CLEAR || along > length - CLEAR || in_opening {
        return false;
    }
    let (x, y) = seen(kit, wall, face, along);
    let (nx, ny) = drawn.normal(face);
    let (x, y) = (x + nx * 100.0, y + ny * 100.0);
    let near = walls.around(drawn.level, bounds_of((x, y), (x, y), 1000.0));
    let hits = near.iter().any(|(id, other)| {
        let (dx, dy) = other.direction();
        let (px, py) = (x - other.a.x.to_f64(), y - other.a.y.to_f64());
        let past = (px * dx + py * dy).clamp(0.0, other.length());
        let far = libm::hypot(px - past * dx, py - past * dy);
        *id != wall && far < other.thickness.to_f64() / 2.0 + 100.0
    });
    !hits
        && survey.room_at(drawn.level, x, y).is_none()
        && !kit.is_taken(wall, face, along, height.get())
}
