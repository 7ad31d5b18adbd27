//! The bench of a kitchen: cooktop, oven, hood, and sockets above it.

use super::kit::Kit;
use super::outline::area_m2;
use super::spans::{Clear, is_near_area, marked, seen, usable};
use super::survey::{Span, Survey};
use crate::plan::{Family, PointKind, RoomId, RoomUse, Subject};
use crate::rules::words::{ClearanceOf, MountedAt, PlacingOf};

/// Furnishes a kitchen: the wall with the bench, where one is drawn, or else
/// its longest free wall is taken for it.
pub(super) fn furnish(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) {
    let drawn = &kit.plan.rooms[&room];
    if drawn.usage != RoomUse::Kitchen {
        return;
    }
    let (level, name) = (drawn.level, drawn.name.clone());
    let height = kit.height(level, MountedAt::BenchSocket);
    let clear = Clear {
        corner: kit.distance(PlacingOf::Corner),
        door: kit.distance(PlacingOf::Door),
        window: kit.distance(PlacingOf::Window),
        at_windows: false,
    };
    let mut walls = usable(kit, survey, room, height, clear);
    let drawn = |span: &Span| marked(kit, span, BENCH).map_or(0, |(from, to)| to - from);
    walls.sort_by_key(|span| (-drawn(span), span.from - span.to, span.wall, span.face, span.from));
    let Some(bench) = walls.first().copied().filter(|span| span.to - span.from >= 900) else {
        kit.reason(
            Subject::Room(room),
            format!("no bench in {name}"),
            "no free wall is 0.9 m long",
        );
        return;
    };
    let cooktop = if kit.has_drawn(room, Family::Fixed) { None } else { cook(kit, room, bench) };
    if !kit.has_drawn(room, Family::Sockets) {
        above_bench(kit, survey, room, &walls, (bench, cooktop));
    }
}

/// What a layout calls the bench.
const BENCH: &str = "kitchen bench";

/// Cooktop, oven under it and hood over it; where along the wall.
fn cook(kit: &mut Kit<'_>, room: RoomId, bench: Span) -> Option<i64> {
    let level = kit.plan.rooms[&room].level;
    let (has, credit) = kit.count(room, PointKind::Cooktop);
    if has == 0 {
        return None;
    }
    let corner = kit.distance(PlacingOf::CooktopFromCorner);
    let length = bench.to - bench.from;
    // A third along, so that there is bench on both sides of it.
    let along = if length > 2 * corner {
        bench.from + length.div_euclid(3).max(corner)
    } else {
        bench.from + length.div_euclid(2)
    };
    // In the middle of the bench where that is drawn.
    let marks = [marked(kit, &bench, "cooktop"), marked(kit, &bench, BENCH)];
    let is_drawn = marks[1].is_some();
    let along = match marks.into_iter().flatten().next() {
        Some((from, to)) => (from + to).div_euclid(2),
        None => along,
    };
    let along = along.div_euclid(10) * 10;
    let beside = if along + 250 <= bench.to { along + 250 } else { along - 250 };
    let items = [
        (MountedAt::Cooktop, PointKind::Cooktop, along),
        (MountedAt::Oven, PointKind::Oven, beside),
        (MountedAt::RangeHood, PointKind::RangeHood, along),
    ];
    for (mounted, kind, at) in items {
        let (count, _) = kit.count(room, kind);
        if count > 0 {
            let height = kit.height(level, mounted);
            let id = kit.add_on_wall(room, kind, (bench.wall, bench.face, at), height, 1);
            let why = if kind == PointKind::Cooktop {
                let why = if is_drawn {
                    "the bench is drawn there"
                } else {
                    "the longest free wall is taken for the bench"
                };
                format!("{why}; {credit}")
            } else {
                "where the cooktop is".to_owned()
            };
            kit.reason(Subject::Point(id), format!("{} on {}", kind.name(), bench.wall), why);
        }
    }
    Some(along)
}

/// A kitchen with less floor is a small one, m²: *common practice*.
const SMALL: f64 = 5.0;
/// No kitchen has fewer double sockets.
const LEAST: usize = 2;

/// How many double sockets a kitchen gets, and why: in a small one no more
/// than its free walls hold without crowding.
pub(super) fn asked(kit: &Kit<'_>, survey: &Survey, room: RoomId) -> (usize, String) {
    let (wanted, credit) = kit.count(room, PointKind::Socket);
    let drawn = &kit.plan.rooms[&room];
    let clear = Clear {
        corner: kit.distance(PlacingOf::Corner),
        door: kit.distance(PlacingOf::Door),
        window: kit.distance(PlacingOf::Window),
        at_windows: false,
    };
    let height = kit.height(drawn.level, MountedAt::BenchSocket);
    let walls = usable(kit, survey, room, height, clear);
    let free: i64 = walls.iter().map(|span| span.to - span.from).sum();
    let each = kit.distance(PlacingOf::SmallKitchenSpacing).max(1);
    let most = usize::try_from(free.div_euclid(each)).unwrap_or(0).max(LEAST);
    if area_m2(&drawn.outline) >= SMALL || wanted <= most {
        return (wanted, credit);
    }
    let why = format!(
        "{credit}; {wanted} are asked for, {most} put: one for every {each} mm of the {free} mm of free wall"
    );
    (most, why)
}

/// Most of the sockets go above the bench, clear of the cooktop and sinks.
fn above_bench(
    kit: &mut Kit<'_>,
    survey: &Survey,
    room: RoomId,
    walls: &[Span],
    (bench, cooktop): (Span, Option<i64>),
) {
    let (wanted, credit) = asked(kit, survey, room);
    // A third stays low: refrigerator, dishwasher, what stands on the floor.
    let high = (wanted * 2).div_ceil(3);
    let level = kit.plan.rooms[&room].level;
    let height = kit.height(level, MountedAt::BenchSocket);
    let spacing = kit.distance(PlacingOf::BenchSpacing).max(1);
    let half =
        kit.distance(PlacingOf::CooktopHalfWidth) + kit.clearance(ClearanceOf::CooktopSocket) + 20;
    let sink = kit.clearance(ClearanceOf::SinkSocket);
    let mut pieces = Vec::new();
    match cooktop {
        Some(at) => {
            for (from, to) in [(bench.from, at - half), (at + half, bench.to)] {
                if to >= from {
                    pieces.push(Span { from, to, ..bench });
                }
            }
        }
        None => pieces.push(bench),
    }
    // The bench may turn a corner onto the next longest wall.
    pieces.extend(walls.iter().skip(1).take(1).filter(|span| span.to - span.from >= 600));
    let mut candidates = Vec::new();
    for piece in &pieces {
        let length = piece.to - piece.from;
        let count = (length.div_euclid(spacing) + 1).max(1);
        for index in 0..count {
            let along = piece.from + (length * (2 * index + 1)).div_euclid(2 * count);
            let along = along.div_euclid(10) * 10;
            let at = seen(kit, piece.wall, piece.face, along);
            if !is_near_area(kit, level, at, &["sink", "basin", "tub"], sink)
                && !is_near_area(kit, level, at, &["cooktop", "hob"], half)
                && !kit.is_taken(piece.wall, piece.face, along, height.get())
            {
                candidates.push((piece.wall, piece.face, along));
            }
        }
    }
    // Evenly among them.
    let count = candidates.len();
    let take = high.min(count);
    for index in 0..take {
        let place =
            candidates[(index * count + count.div_euclid(2)).div_euclid(take).min(count - 1)];
        if !kit.is_taken(place.0, place.1, place.2, height.get()) {
            kit.add_on_wall(room, PointKind::Socket, place, height, 2);
        }
    }
    let name = kit.plan.rooms[&room].name.clone();
    let placed = kit.added_of(room, Family::Sockets).len();
    kit.reason(
        Subject::Room(room),
        format!("{placed} double sockets above the bench of {name}, {height} up, {half} mm clear of the cooktop's middle"),
        format!("{credit}; where the sink will be is not known unless it is drawn"),
    );
}
