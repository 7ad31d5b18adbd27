//! Socket-outlets, spread over the free walls of a room.

use super::kit::Kit;
use super::kitchen;
use super::numbers::real;
use super::spans::{Clear, STANDS, is_near_area, seen, usable};
use super::survey::{Span, Survey};
use crate::plan::{Face, Family, PointKind, RoomId, RoomUse, Subject, WallId};
use crate::rules::words::{ClearanceOf, MountedAt, PlacingOf};
use crate::units::Mm;

/// Sets the sockets of a room that has none.
pub(super) fn set(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) {
    if kit.has_drawn(room, Family::Sockets) {
        return;
    }
    let outdoors = kit.plan.rooms[&room].usage == RoomUse::Outdoor;
    let (mounted, kind) = if outdoors {
        (MountedAt::WeatherproofSocket, PointKind::WeatherproofSocket)
    } else {
        (MountedAt::Socket, PointKind::Socket)
    };
    let (wanted, credit) = if kit.plan.rooms[&room].usage == RoomUse::Kitchen {
        kitchen::asked(kit, survey, room)
    } else {
        kit.count(room, kind)
    };
    // A kitchen has had those above its bench.
    let had = kit.added_of(room, Family::Sockets).len();
    let wanted = wanted.saturating_sub(had);
    if wanted == 0 {
        return;
    }
    let level = kit.plan.rooms[&room].level;
    let height = kit.height(level, mounted);
    let clear = Clear {
        corner: kit.distance(PlacingOf::Corner),
        door: kit.distance(PlacingOf::Door),
        window: kit.distance(PlacingOf::Window),
        at_windows: false,
    };
    let mut places = spread(kit, survey, room, height, clear, wanted);
    if places.len() < wanted {
        let under = Clear { at_windows: true, corner: 150, ..clear };
        let more = spread(kit, survey, room, height, under, wanted);
        if more.len() > places.len() {
            places = more;
        }
    }
    let placed = places.len();
    for place in places {
        kit.add_on_wall(room, kind, place, height, if outdoors { 1 } else { 2 });
    }
    let name = kit.plan.rooms[&room].name.clone();
    let short = if placed < wanted {
        format!("; {wanted} are asked for, the free walls hold no more")
    } else {
        String::new()
    };
    let what = if outdoors { "weatherproof sockets" } else { "double sockets" };
    kit.reason(
        Subject::Room(room),
        format!("{placed} {what} in {name}, spread over its free walls, {height} up"),
        format!("{credit}{short}"),
    );
}

/// Places for so many, by the lengths of the free pieces.
fn spread(
    kit: &Kit<'_>,
    survey: &Survey,
    room: RoomId,
    height: Mm,
    clear: Clear,
    wanted: usize,
) -> Vec<(WallId, Face, i64)> {
    let level = kit.plan.rooms[&room].level;
    let spacing = kit.distance(PlacingOf::SocketSpacing).max(1);
    let wet = kit.clearance(ClearanceOf::BathSocket);
    let sink = kit.clearance(ClearanceOf::SinkSocket);
    let pieces: Vec<Span> = usable(kit, survey, room, height, clear)
        .into_iter()
        .filter(|span| {
            let middle = (span.from + span.to).div_euclid(2);
            let at = seen(kit, span.wall, span.face, middle);
            !is_near_area(kit, level, at, &["bath", "shower"], wet)
        })
        .collect();
    // One more goes to the piece that has the most wall for each.
    let mut counts = vec![0_i64; pieces.len()];
    for _ in 0..wanted {
        let worth = |index: &usize| {
            let length = pieces[*index].to - pieces[*index].from;
            let room_for = counts[*index] == 0 || length >= spacing * counts[*index];
            if room_for { (length + 300).div_euclid(counts[*index] * 2 + 1) } else { 0 }
        };
        let best = (0..pieces.len()).max_by_key(|index| (worth(index), std::cmp::Reverse(*index)));
        match best {
            Some(index) if worth(&index) > 0 => counts[index] += 1,
            _ => break,
        }
    }
    let (apart, least) =
        (kit.distance(PlacingOf::SocketApart), kit.distance(PlacingOf::SocketApartLeast));
    let mut places: Vec<(WallId, Face, i64)> = Vec::new();
    for (span, count) in pieces.iter().zip(&counts) {
        for index in 0..*count {
            let ideal = ideal(kit, &places, span, *count, index);
            // Not beside one around the corner, where the wall allows it.
            let along = [apart, least]
                .into_iter()
                .find_map(|off| free(kit, span, ideal, height, (wet, sink), (&places, off)));
            if let Some(along) = along {
                places.push((span.wall, span.face, along));
            }
        }
    }
    places
}

/// Evenly; a single one on a long wall goes to the end that is further from
/// the others, so that furniture in the middle does not hide it.
fn ideal(
    kit: &Kit<'_>,
    others: &[(WallId, Face, i64)],
    span: &Span,
    count: i64,
    index: i64,
) -> i64 {
    let length = span.to - span.from;
    if count > 1 || length < 1000 {
        return span.from + (length * (2 * index + 1)).div_euclid(2 * count);
    }
    let ends =
        [span.from + length.min(1200).div_euclid(4), span.to - length.min(1200).div_euclid(4)];
    let far = |along: i64| {
        let here = seen(kit, span.wall, span.face, along);
        let to = |other: &(WallId, Face, i64)| {
            let there = seen(kit, other.0, other.1, other.2);
            libm::hypot(here.0 - there.0, here.1 - there.1)
        };
        others.iter().map(to).fold(f64::INFINITY, f64::min)
    };
    if far(ends[1]) > far(ends[0]) { ends[1] } else { ends[0] }
}

/// The free place nearest to the ideal one, on whole 10 mm.
fn free(
    kit: &Kit<'_>,
    span: &Span,
    ideal: i64,
    height: Mm,
    (wet, sink): (i64, i64),
    (others, apart): (&[(WallId, Face, i64)], i64),
) -> Option<i64> {
    let is_apart = |at: (f64, f64)| {
        others.iter().all(|other| {
            let there = seen(kit, other.0, other.1, other.2);
            libm::hypot(at.0 - there.0, at.1 - there.1) >= real(apart)
        })
    };
    let ideal = ideal.div_euclid(10) * 10;
    let level = kit.plan.rooms[&span.room].level;
    (0..60).flat_map(|step| [ideal + step * 50, ideal - step * 50]).find(|along| {
        let at = seen(kit, span.wall, span.face, *along);
        (span.from..=span.to).contains(along)
            && !kit.is_taken(span.wall, span.face, *along, height.get())
            && !is_near_area(kit, level, at, &["bath", "shower"], wet)
            && !is_near_area(kit, level, at, &["sink", "basin", "tub"], sink)
            && !is_near_area(kit, level, at, &STANDS, 0)
            && is_apart(at)
    })
}
