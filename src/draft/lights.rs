//! Lights: on ceilings in the middle or in a grid, on walls where no cable
//! reaches the ceiling; and fans.

use super::inner::Inner;
use super::kit::Kit;
use super::outline::{area_m2, bounds, depth, direction, heart, place};
use super::spans::{Clear, nearest, seen, usable};
use super::survey::{Survey, real};
use crate::plan::{Family, PointId, PointKind, RoomId, RoomUse, Subject};
use crate::units::Point2;

/// Hangs the lights of a room that has none, and its fan.
pub(super) fn hang(kit: &mut Kit<'_>, survey: &Survey, room: RoomId) {
    if !kit.has_drawn(room, Family::Lights) {
        let (downlights, credit) = kit.count(room, "downlight");
        let (count, kind, credit) = if downlights > 0 {
            (downlights, PointKind::Downlight, credit)
        } else {
            let (luminaires, credit) = kit.count(room, "luminaire");
            (luminaires, PointKind::Luminaire, credit)
        };
        if count > 0 {
            ceiling(kit, survey, room, kind, count, &credit);
        }
        let (count, credit) = kit.count(room, "wall_light");
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
    let margin = real(kit.distance("light_from_wall"));
    let inner = Inner::of(kit, room);
    let places: Vec<Point2> = grid(&drawn.outline, count, margin)
        .into_iter()
        .map(|at| inner.moved(&drawn.outline, at))
        .collect();
    let how = if places.len() == 1 { "in the middle" } else { "in a grid" };
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
        format!("{area:.1} m²; {credit}"),
    );
}

/// Places for so many lights: rows and columns along the longest wall.
pub(super) fn grid(outline: &[Point2], count: usize, margin: f64) -> Vec<Point2> {
    let (dx, dy) = direction(outline);
    let turned: Vec<Point2> = outline
        .iter()
        .filter_map(|corner| {
            let (x, y) = (corner.x.to_f64(), corner.y.to_f64());
            place_exact(x * dx + y * dy, y * dx - x * dy)
        })
        .collect();
    let Some([u0, v0, u1, v1]) = bounds(&turned) else { return Vec::new() };
    let inside = |u: f64, v: f64, off: f64| {
        let (x, y) = (u * dx - v * dy, u * dy + v * dx);
        (depth(outline, x, y) >= off).then(|| place(x, y)).flatten()
    };
    let middle = || heart(outline).into_iter().collect();
    let (wide, high) = ((u1 - u0).max(1.0), (v1 - v0).max(1.0));
    if count == 1 {
        let (u, v) = (f64::midpoint(u0, u1), f64::midpoint(v0, v1));
        // The middle of a plain room; the roomiest place of an angled one.
        let full = area_m2(outline) * 1.0e6 > 0.9 * wide * high;
        return match inside(u, v, margin.min(high.min(wide) / 3.0)) {
            Some(at) if full => vec![at],
            _ => middle(),
        };
    }
    let mut best: Option<(usize, f64, Vec<Point2>)> = None;
    for columns in 1..=count + 2 {
        for rows in 1..=count + 2 {
            if columns * rows < count || columns * rows > 3 * count {
                continue;
            }
            let (step_u, step_v) = (wide / float(columns), high / float(rows));
            let mut places = Vec::new();
            for (row, column) in
                (0..rows).flat_map(|row| (0..columns).map(move |column| (row, column)))
            {
                let u = u0 + step_u * (float(column) + 0.5);
                let v = v0 + step_v * (float(row) + 0.5);
                places.extend(inside(u, v, margin.min(step_u.min(step_v) / 2.5)));
            }
            if places.len() < count.min(2) {
                continue;
            }
            let uneven = (step_u / step_v).max(step_v / step_u);
            let off = places.len().abs_diff(count);
            // As many as asked for, in squares rather than in slabs.
            if best.as_ref().is_none_or(|best| float(off) + uneven < float(best.0) + best.1 - 1e-9)
            {
                best = Some((off, uneven, places));
            }
        }
    }
    best.map_or_else(middle, |best| best.2)
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
    let height = kit.height(level, "wall_light");
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
    for (item, kind) in [
        ("exhaust_fan", PointKind::ExhaustFan),
        ("air_conditioner", PointKind::AirConditioner),
        ("door_motor", PointKind::DoorMotor),
    ] {
        let (count, credit) = kit.count(room, item);
        if count == 0 {
            continue;
        }
        let drawn = kit.plan.rooms[&room].clone();
        let id = if kind == PointKind::ExhaustFan && kit.ceiling_carries(room) {
            fan_place(kit, room, &drawn.outline).map(|at| kit.add_on_ceiling(room, kind, at))
        } else {
            let height = kit.height(drawn.level, item);
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
            kit.reason(Subject::Point(id), format!("{} in {}", kind.name(), drawn.name), credit);
        }
    }
}

/// Away from the door and the lights: where the steam is.
fn fan_place(kit: &Kit<'_>, room: RoomId, outline: &[Point2]) -> Option<Point2> {
    let lights: Vec<Point2> = kit
        .added_of(room, Family::Lights)
        .iter()
        .filter_map(|id| kit.plan.position(kit.plan.points[id].place.as_ref()?))
        .map(crate::units::Point3::on_floor)
        .collect();
    clear_place(outline, &lights, &Inner::of(kit, room), 250.0, 450.0)
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
            let far = heart.distance(at);
            if room_left && best.is_none_or(|best| far < best.0 - 1e-6) {
                best = Some((far, at));
            }
        }
    }
    best.map(|best| best.1)
}
