//! Smoke and heat alarms.

use super::dwellings::Dwelling;
use super::inner::Inner;
use super::kit::Kit;
use super::lights::clear_place_by;
use super::numbers::real;
use super::outline::heart;
use super::spans::{Clear, seen, usable};
use super::survey::Survey;
use crate::plan::{Family, LevelId, PointKind, RoomId, RoomUse, Subject};
use crate::rules::words::{MountedAt, PlacingOf};
use crate::units::Point2;

/// Alarms by the standard, and at least one on every storey of a dwelling.
pub(super) fn hang(kit: &mut Kit<'_>, survey: &Survey, dwellings: &[Dwelling]) {
    for dwelling in dwellings {
        if dwelling.common {
            continue;
        }
        let mut storeys: Vec<(LevelId, bool)> = Vec::new();
        for room in &dwelling.rooms {
            let level = kit.plan.rooms[room].level;
            let had = kit.has_drawn(*room, Family::Alarms);
            let hung = !had && furnish(kit, survey, *room);
            match storeys.iter_mut().find(|storey| storey.0 == level) {
                Some(storey) => storey.1 |= had || hung,
                None => storeys.push((level, had || hung)),
            }
        }
        for (level, has) in storeys {
            if !has {
                storey(kit, survey, &dwelling.rooms, level);
            }
        }
    }
}

fn furnish(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) -> bool {
    let mut any = false;
    for kind in [PointKind::SmokeAlarm, PointKind::HeatAlarm] {
        let (count, credit) = kit.count(room, kind);
        for _ in 0..count {
            any |= one(kit, survey, room, kind, &credit);
        }
    }
    any
}

/// No storey without one: where people pass.
fn storey(kit: &mut Kit<'_>, survey: &Survey, rooms: &[RoomId], level: LevelId) {
    let rank = |room: &RoomId| match kit.plan.rooms[room].usage {
        RoomUse::Hall => 0,
        RoomUse::Stair => 1,
        RoomUse::Living | RoomUse::Bedroom => 2,
        RoomUse::Other | RoomUse::Dining | RoomUse::Study => 3,
        _ => 9,
    };
    let best = rooms
        .iter()
        .filter(|room| kit.plan.rooms[*room].level == level && rank(room) < 9)
        .min_by_key(|room| (rank(room), **room))
        .copied();
    if let Some(room) = best {
        one(kit, survey, room, PointKind::SmokeAlarm, "one on every storey (common practice)");
    }
}

fn one(kit: &mut Kit<'_>, survey: &Survey, room: RoomId, kind: PointKind, credit: &str) -> bool {
    let drawn = kit.plan.rooms[&room].clone();
    let others: Vec<Point2> = kit
        .added
        .get(&room)
        .into_iter()
        .flatten()
        .filter_map(|id| kit.plan.position(kit.plan.points[id].place.as_ref()?))
        .map(crate::units::Point3::on_floor)
        .collect();
    let off = (
        real(kit.distance(PlacingOf::AlarmFromWall)),
        real(kit.distance(PlacingOf::AlarmFromLight)) + 150.0,
    );
    let mut near = None;
    let id = if kit.ceiling_carries(room) {
        let middle = heart(&drawn.outline);
        let sources = sources_beside(kit, survey, room, kind);
        let lack = |at: Point2| sources.iter().map(|source| source.lack(at)).fold(0.0, f64::max);
        let worth = |at: Point2| {
            // Clear of cooking and steam first, then in the middle.
            100.0 * lack(at) + middle.map_or(0.0, |middle| middle.distance(at))
        };
        let place = clear_place_by(&drawn.outline, &others, &Inner::of(kit, room), off, worth);
        near = place.and_then(|at| sources.iter().find(|source| source.lack(at) > 0.0)).copied();
        place.map(|at| kit.add_on_ceiling(room, kind, at))
    } else {
        let below = kit.height(drawn.level, MountedAt::BelowCeiling);
        let height = kit.plan.levels[&drawn.level].height - below;
        let clear = Clear { corner: 300, door: 0, window: 150, at_windows: true };
        let mut spans = usable(kit, survey, room, height, clear);
        spans.sort_by_key(|span| (span.from - span.to, span.wall, span.face, span.from));
        let place = spans.first().map(|s| (s.wall, s.face, (s.from + s.to).div_euclid(20) * 10));
        let place = place.filter(|p| !kit.is_taken(p.0, p.1, p.2, height.get()));
        place.map(|place| kit.add_on_wall(room, kind, place, height, 1))
    };
    match id {
        Some(id) => {
            let chosen = format!("{} in {}, clear of walls and lights", kind.name(), drawn.name);
            let mut because = credit.to_owned();
            if let Some(near) = near {
                because.push_str("; ");
                because.push_str(&near.told());
            }
            kit.reason(Subject::Point(id), chosen, because);
            true
        }
        None => {
            let chosen = format!("no {} in {}", kind.name(), drawn.name);
            kit.reason(
                Subject::Room(room),
                chosen,
                "no place keeps clear of walls and lights; place it by hand",
            );
            false
        }
    }
}

/// What sets off a smoke alarm that is no fire.
#[derive(Clone, Copy, Debug)]
struct Source {
    at: (f64, f64),
    off: f64,
    what: &'static str,
}

impl Source {
    /// How much a place is too near, mm.
    fn lack(&self, at: Point2) -> f64 {
        (self.off - libm::hypot(at.x.to_f64() - self.at.0, at.y.to_f64() - self.at.1)).max(0.0)
    }

    fn told(&self) -> String {
        let Self { what, off, .. } = self;
        format!(
            "nearer than {off:.0} mm to {what}: no place in the room is further, so expect false alarms"
        )
    }
}

/// Cooktops in the room and beyond its doors and open sides, and the doors of
/// bathrooms.
fn sources_beside(kit: &Kit<'_>, survey: &Survey, room: RoomId, kind: PointKind) -> Vec<Source> {
    if kind != PointKind::SmokeAlarm {
        return Vec::new();
    }
    let beyond = survey.doors_of(room).iter().filter_map(|door| door.beyond);
    let open = survey.gaps_of(room).iter().map(|gap| gap.beyond);
    let mut rooms: Vec<RoomId> = beyond.chain(open).chain([room]).collect();
    rooms.sort_unstable();
    rooms.dedup();
    let mut sources = Vec::new();
    let cooking = real(kit.distance(PlacingOf::SmokeFromCooking));
    for room in rooms {
        let cooktops = kit.added_of(room, Family::Fixed).into_iter();
        for id in cooktops.filter(|id| kit.plan.points[id].kind == PointKind::Cooktop) {
            let place = kit.plan.points[&id].place.as_ref();
            if let Some(at) = place.and_then(|place| kit.plan.position(place)) {
                let at = (at.x.to_f64(), at.y.to_f64());
                sources.push(Source { at, off: cooking, what: "the cooktop" });
            }
        }
    }
    let steam = real(kit.distance(PlacingOf::SmokeFromBathroom));
    for door in survey.doors_of(room) {
        let bath = door.beyond.is_some_and(|room| kit.plan.rooms[&room].usage == RoomUse::Bathroom);
        if bath {
            let at = seen(kit, door.wall, door.face, (door.from + door.to).div_euclid(2));
            sources.push(Source { at, off: steam, what: "the door of a bathroom" });
        }
    }
    sources
}
