//! Lights: on ceilings in the middle or in a grid, on walls where no cable
//! reaches the ceiling; and fans.

use super::bodies::{self, Body};
use super::inner::Inner;
use super::kit::Kit;
use super::numbers::real;
use super::outline::{area_m2, bounds, depth, direction, heart, place};
use super::spans::{Clear, nearest, seen, usable};
use super::survey::Survey;
use crate::plan::{Family, Plane, PointId, PointKind, RoomId, RoomUse, Subject};
use crate::rules::words::{MountedAt, PlacingOf};
use crate::units::Point2;

/// Hangs the lights of a room that has none, and its fan.
pub(super) fn hang(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) {
    if !kit.has_drawn(room, Family::Lights) {
        let (downlights, credit) = kit.count(room, PointKind::Downlight);
        let (count, kind, credit) = if downlights > 0 {
            (downlights, PointKind::Downlight, credit)
        } else {
            let (luminaires, credit) = kit.count(room, PointKind::Luminaire);
            (luminaires, PointKind::Luminaire, credit)
        };
        if count > 0 {
            ceiling(kit, survey, room, kind, count, &credit);
        }
        let (count, credit) = kit.count(room, PointKind::WallLight);
        if count > 0 {
            on_walls(kit, survey, room, count, &credit);
        }
    }
    fixed(kit, survey, room);
}

fn ceiling(
    kit: &mut Kit<'_>,
    survey: &Survey,
    room: RoomId,
    kind: PointKind,
    count: usize,
    credit: &str,
) {
    if !kit.ceiling_carries(room) {
        let why = format!("no cable reaches the concrete ceiling; {credit}");
        on_walls(kit, survey, room, count.div_ceil(2), &why);
        return;
    }
    let drawn = kit.plan.rooms[&room].clone();
    let margin = real(kit.distance(PlacingOf::LightFromWall));
    let inner = Inner::of(kit, room);
    let mut places: Vec<Point2> = Vec::new();
    for at in grid(&drawn.outline, count, margin) {
        let to = inner.moved(&drawn.outline, at);
        // What gave way to a wall, or hangs in an arm, may come beside another.
        if places.iter().all(|other| other.distance(to) >= CROWDED) {
            places.push(to);
        }
    }
    let how = if places.len() == 1 { "in the middle" } else { "spread over its body" };
    for at in &places {
        kit.add_on_ceiling(room, kind, *at);
    }
    let area = area_m2(&drawn.outline);
    kit.reason(
        Subject::Room(room),
        format!(
            "{} {}{} {how} of {}",
            places.len(),
            kind.name(),
            if places.len() == 1 { "" } else { "s" },
            drawn.name
        ),
        format!("{}; {credit}", crate::wording::square_metres(area)),
    );
}

/// Lights nearer to each other than this are one too many, mm.
const CROWDED: f64 = 800.0;
/// One light leaves the ends of a passage dark that is longer, mm.
const LONG: f64 = 4500.0;

/// Places for so many lights: rows and columns along the longest wall, in each
/// body of an angled room.
pub(super) fn grid(outline: &[Point2], count: usize, margin: f64) -> Vec<Point2> {
    let (dx, dy) = direction(outline);
    let turned: Vec<Point2> = outline
        .iter()
        .filter_map(|corner| {
            let (x, y) = (corner.x.to_f64(), corner.y.to_f64());
            place_exact(x * dx + y * dy, y * dx - x * dy)
        })
        .collect();
    let Some(whole) = bounds(&turned) else { return Vec::new() };
    let inside = |u: f64, v: f64, off: f64| {
        let (x, y) = (u * dx - v * dy, u * dy + v * dx);
        (depth(outline, x, y) >= off).then(|| place(x, y)).flatten()
    };
    let is_plain = area_m2(outline) > 0.9 * bodies::area_m2(&whole);
    let bodies = if is_plain { vec![whole] } else { bodies::bodies(&turned) };
    let mut places = Vec::new();
    for (body, share) in bodies.iter().zip(bodies::shares(&bodies, count)) {
        places.extend(rows(body, share, margin, inside));
    }
    if places.is_empty() {
        places.extend(heart(outline));
    }
    places
}

/// Rows and columns in one body.
fn rows(
    [u0, v0, u1, v1]: &Body,
    count: usize,
    margin: f64,
    inside: impl Fn(f64, f64, f64) -> Option<Point2>,
) -> Vec<Point2> {
    let (wide, high) = ((u1 - u0).max(1.0), (v1 - v0).max(1.0));
    let (long, short) = (wide.max(high), wide.min(high));
    if count == 1 && (long < LONG || long < 3.0 * short) {
        let (u, v) = (f64::midpoint(*u0, *u1), f64::midpoint(*v0, *v1));
        return inside(u, v, margin.min(short / 3.0)).into_iter().collect();
    }
    let mut best: Option<(f64, Vec<Point2>)> = None;
    for (columns, rows) in
        (1..=count + 2).flat_map(|columns| (1..=count + 2).map(move |rows| (columns, rows)))
    {
        if columns * rows < count || columns * rows > (3 * count).max(1) {
            continue;
        }
        let (step_u, step_v) = (wide / float(columns), high / float(rows));
        let mut places = Vec::new();
        for (row, column) in (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column)))
        {
            let u = u0 + step_u * (float(column) + 0.5);
            let v = v0 + step_v * (float(row) + 0.5);
            places.extend(inside(u, v, margin.min(step_u.min(step_v) / 2.5)));
        }
        if places.len() < count.min(2) {
            continue;
        }
        let uneven = (step_u / step_v).max(step_v / step_u);
        let off = float(places.len().abs_diff(count)) + uneven;
        // As many as asked for, in squares rather than in slabs.
        if best.as_ref().is_none_or(|best| off < best.0 - 1e-9) {
            best = Some((off, places));
        }
    }
    best.map_or_else(Vec::new, |best| best.1)
}

fn place_exact(x: f64, y: f64) -> Option<Point2> {
    let mm = |value: f64| crate::units::Mm::from_f64(value).ok();
    Some(Point2 { x: mm(x)?, y: mm(y)? })
}

#[expect(clippy::cast_precision_loss, reason = "few lights")]
const fn float(count: usize) -> f64 {
    count as f64
}

/// On walls: outdoors beside the door, indoors spread out.
fn on_walls(kit: &mut Kit<'_>, survey: &Survey, room: RoomId, count: usize, credit: &str) {
    let level = kit.plan.rooms[&room].level;
    let height = kit.height(level, MountedAt::WallLight);
    let clear = Clear { corner: 300, door: 200, window: 150, at_windows: false };
    let spans = usable(kit, survey, room, height, clear);
    let door = survey.doors_of(room).first().copied();
    let mut placed: Vec<PointId> = Vec::new();
    let mut pieces = spans.clone();
    pieces.sort_by_key(|span| (span.from - span.to, span.wall, span.face, span.from));
    for index in 0..count {
        let place = match (door, index) {
            (Some(door), 0) if kit.plan.rooms[&room].usage == RoomUse::Outdoor => {
                let at = seen(kit, door.wall, door.face, (door.from + door.to).div_euclid(2));
                nearest(kit, &spans, height, at)
            }
            _ => pieces
                .get(index.rem_euclid(pieces.len().max(1)))
                .map(|span| (span.wall, span.face, (span.from + span.to).div_euclid(20) * 10)),
        };
        let Some(place) = place.filter(|p| !kit.is_taken(p.0, p.1, p.2, height.get())) else {
            continue;
        };
        placed.push(kit.add_on_wall(room, PointKind::WallLight, place, height, 1));
    }
    let name = kit.plan.rooms[&room].name.clone();
    kit.reason(
        Subject::Room(room),
        format!("{} wall lights in {name}", placed.len()),
        credit.to_owned(),
    );
}

/// Fans, air conditioners, door motors.
fn fixed(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) {
    if kit.has_drawn(room, Family::Fixed) {
        return;
    }
    for (mounted, kind) in [
        (MountedAt::ExhaustFan, PointKind::ExhaustFan),
        (MountedAt::AirConditioner, PointKind::AirConditioner),
        (MountedAt::DoorMotor, PointKind::DoorMotor),
    ] {
        let (count, credit) = kit.count(room, kind);
        if count == 0 {
            continue;
        }
        let drawn = kit.plan.rooms[&room].clone();
        let mut why = String::new();
        let id = if kind == PointKind::ExhaustFan && kit.ceiling_carries(room) {
            let found = fan_place(kit, survey, room);
            if let Some((_, because)) = found {
                why = format!("{because}; ");
            }
            found.map(|(at, _)| kit.add_on_ceiling(room, kind, at))
        } else {
            let height = kit.height(drawn.level, mounted);
            let clear = Clear { corner: 300, door: 200, window: 150, at_windows: false };
            let mut spans = usable(kit, survey, room, height, clear);
            spans.sort_by_key(|span| (span.from - span.to, span.wall, span.face, span.from));
            let place = spans
                .first()
                .map(|span| (span.wall, span.face, (span.from + span.to).div_euclid(20) * 10));
            let place = place.filter(|p| !kit.is_taken(p.0, p.1, p.2, height.get()));
            place.map(|place| kit.add_on_wall(room, kind, place, height, 1))
        };
        if let Some(id) = id {
            let chosen = format!("{} in {}", kind.name(), drawn.name);
            kit.reason(Subject::Point(id), chosen, format!("{why}{credit}"));
        }
    }
}

/// Over the bath or shower where one is drawn, or else far from the door, as
/// air comes in under it; clear of the lights.
fn fan_place(kit: &Kit<'_>, survey: &Survey, room: RoomId) -> Option<(Point2, &'static str)> {
    let outline = &kit.plan.rooms[&room].outline;
    let lights: Vec<Point2> = kit
        .added_of(room, Family::Lights)
        .iter()
        .filter_map(|id| kit.plan.position(kit.plan.points[id].place.as_ref()?))
        .map(crate::units::Point3::on_floor)
        .collect();
    let doors: Vec<(f64, f64)> = survey
        .doors_of(room)
        .iter()
        .map(|door| seen(kit, door.wall, door.face, (door.from + door.to).div_euclid(2)))
        .collect();
    let from_door = |at: Point2| {
        let off = |door: &(f64, f64)| libm::hypot(at.x.to_f64() - door.0, at.y.to_f64() - door.1);
        doors.iter().map(off).fold(f64::INFINITY, f64::min)
    };
    let inside = |corner: &Point2| depth(outline, corner.x.to_f64(), corner.y.to_f64()) > 0.0;
    let baths: Vec<&[Point2]> = kit
        .plan
        .areas
        .values()
        .filter(|area| matches!(area.on, Plane::Void(_)) && area.outline.iter().any(inside))
        .filter(|area| {
            let name = area.name.to_lowercase();
            name.contains("bath") || name.contains("shower")
        })
        .map(|area| area.outline.as_slice())
        .collect();
    let wet = |at: Point2| baths.iter().any(|bath| depth(bath, at.x.to_f64(), at.y.to_f64()) > 0.0);
    let heart = heart(outline)?;
    let worth = |at: Point2| {
        let far = from_door(at);
        let off = if far.is_finite() { -far } else { heart.distance(at) };
        if wet(at) { off - 1.0e6 } else { off }
    };
    let inner = Inner::of(kit, room);
    let at = [(400.0, 600.0), (250.0, 450.0), (150.0, 300.0)]
        .into_iter()
        .find_map(|off| clear_place_by(outline, &lights, &inner, off, worth))?;
    let why = match (wet(at), doors.is_empty()) {
        (true, _) => "over the bath or shower",
        (false, true) => "clear of the lights",
        (false, false) => "far from the door, as air comes in under it",
    };
    Some((at, why))
}

/// The place that is at least so far from walls and so far from others, the
/// nearest to the roomiest place.
pub(super) fn clear_place(
    outline: &[Point2],
    others: &[Point2],
    inner: &Inner,
    from_wall: f64,
    from_others: f64,
) -> Option<Point2> {
    let heart = heart(outline)?;
    clear_place_by(outline, others, inner, (from_wall, from_others), |at| heart.distance(at))
}

/// The same, by what is least.
pub(super) fn clear_place_by(
    outline: &[Point2],
    others: &[Point2],
    inner: &Inner,
    (from_wall, from_others): (f64, f64),
    worth: impl Fn(Point2) -> f64,
) -> Option<Point2> {
    let [x0, y0, x1, y1] = bounds(outline)?;
    let mut best: Option<(f64, Point2)> = None;
    for i in 0..=30 {
        for j in 0..=30 {
            let (x, y) =
                (x0 + (x1 - x0) * f64::from(i) / 30.0, y0 + (y1 - y0) * f64::from(j) / 30.0);
            let Some(at) = place(x, y) else { continue };
            let room_left = depth(outline, x, y) >= from_wall
                && inner.leaves(at)
                && others.iter().all(|other| other.distance(at) >= from_others);
            if !room_left {
                continue;
            }
            let far = worth(at);
            if best.is_none_or(|best| far < best.0 - 1e-6) {
                best = Some((far, at));
            }
        }
    }
    best.map(|best| best.1)
}
