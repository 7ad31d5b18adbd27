//! Baths and showers: how far sockets and switches keep away.
//!
//! **Looks at** sockets and switches in rooms with a bath or a shower, against
//! the bath, the shower, or the electric shower that is drawn there.
//! **Matters** because wet skin conducts. **Example:** a socket 400 mm from
//! the bath. **Remedy:** move it, or out of the room; a pull cord for the
//! light. **Source:** table `clearance`; walls and partitions end the zones (IEC
//! 60364-7-701, from memory).

use super::super::context::House;
use crate::plan::{
    Area, End, Family, Finding, LevelId, OpeningKind, Place, Plane, PointKind, Room, RoomId,
    RoomUse, Severity, Subject, Wall, WallBuild, outline_holds,
};
use crate::rules::words::ClearanceOf;
use crate::units::{Point2, Point3};

const CODE: &str = "wet-zone";

pub(super) fn judge(house: &House<'_>, findings: &mut Vec<Finding>) {
    for (id, room) in &house.plan.rooms {
        if room.usage == RoomUse::Bathroom {
            judge_room(house, *id, room, findings);
        }
    }
}

fn judge_room(house: &House<'_>, id: RoomId, room: &Room, findings: &mut Vec<Finding>) {
    let fixtures = fixtures(house, id, room);
    let mut unchecked = Vec::new();
    for (point_id, point) in &house.plan.points {
        let what = match (point.kind.family(), point.kind) {
            (_, PointKind::PullCord) => continue,
            (Family::Sockets, _) => ClearanceOf::BathSocket,
            (Family::Switches, _) => ClearanceOf::BathSwitch,
            _ => continue,
        };
        let Some(place) = point.place else { continue };
        if house.plan.room_of(&place) != Some(id) {
            continue;
        }
        let end = End::Point(*point_id);
        let Some(seen) = house.plan.position_on_face(&place) else { continue };
        let row = house.tables().clearance.row(what);
        let clear = row.distance.exact();
        let nearest = fixtures
            .iter()
            .filter(|fixture| !is_walled_off(house, room, fixture, seen))
            .map(|fixture| (fixture.distance(seen), fixture))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((distance, fixture)) = nearest else {
            unchecked.push(house.label(end).to_owned());
            continue;
        };
        if distance >= clear {
            continue;
        }
        let message = format!(
            "{} ({}) is too near the {} in {}",
            house.label(end),
            point.kind.name(),
            fixture.name,
            room.name
        );
        let remedy = format!("move it {:.0} mm further away, or out of the room", clear - distance);
        findings.push(
            Finding::new(CODE, Severity::Fault, Subject::Point(*point_id), message, remedy)
                .at(seen)
                .against(format!("{distance:.0} mm"), format!("{} mm", clear), row.credit()),
        );
    }
    if !unchecked.is_empty() {
        findings.push(super::not_in_plan(
            CODE,
            Subject::Room(id),
            &format!("{}: distance of {} from bath and shower", room.name, unchecked.join(", ")),
            "neither is drawn there",
            "draw an area named bath or shower where it stands",
        ));
    }
}

/// Something wet.
pub(super) struct Fixture {
    /// What it is called.
    pub(super) name: String,
    shape: Shape,
}

enum Shape {
    /// An outline on the floor.
    Outline(Vec<Point2>),
    /// A water outlet, with the radius that it wets.
    Outlet(Point2, f64),
}

impl Fixture {
    /// How far from its edge a place is, seen from above, mm.
    pub(super) fn distance(&self, seen: Point3) -> f64 {
        let at = seen.on_floor();
        match &self.shape {
            Shape::Outlet(outlet, radius) => (outlet.distance(at) - radius).max(0.0),
            Shape::Outline(outline) => to_outline(outline, at),
        }
    }
}

/// An area whose name says that it is one of these things.
pub(super) fn named(area: &Area, words: &[&str]) -> bool {
    let name = area.name.to_lowercase();
    words.iter().any(|word| name.contains(word))
}

/// Where an area lies, seen from above.
pub(super) fn on_floor(house: &House<'_>, area: &Area) -> Vec<Point2> {
    match area.on {
        Plane::Void(_) => area.outline.clone(),
        Plane::Wall(id) => house.plan.walls.get(&id).map_or_else(Vec::new, |wall| {
            area.outline.iter().map(|corner| wall.at(corner.x.to_f64())).collect()
        }),
    }
}

/// The level of an area on a wall; None where it may be any.
pub(super) fn level_of(house: &House<'_>, area: &Area) -> Option<LevelId> {
    match area.on {
        Plane::Void(_) => None,
        Plane::Wall(id) => house.plan.walls.get(&id).map(|wall| wall.level),
    }
}

/// A fixture from an area.
pub(super) fn of_area(house: &House<'_>, area: &Area) -> Fixture {
    Fixture { name: area.name.clone(), shape: Shape::Outline(on_floor(house, area)) }
}

fn fixtures(house: &House<'_>, id: RoomId, room: &Room) -> Vec<Fixture> {
    let mut fixtures: Vec<Fixture> = house
        .plan
        .areas
        .values()
        .filter(|area| named(area, &["bath", "shower"]))
        .filter(|area| is_in(house, area, room))
        .map(|area| of_area(house, area))
        .collect();
    let radius = house.tables().clearance.row(ClearanceOf::ShowerRadius).distance.exact();
    for point in house.plan.points.values().filter(|point| point.kind == PointKind::Shower) {
        let in_room = |place: &Place| house.plan.room_of(place) == Some(id);
        if let Some(at) = point.place.filter(in_room).and_then(|p| house.plan.position_on_face(&p))
        {
            let shape = Shape::Outlet(at.on_floor(), radius);
            fixtures.push(Fixture { name: "electric shower".to_owned(), shape });
        }
    }
    fixtures
}

/// Whether an area lies in a room, or on a wall around it.
fn is_in(house: &House<'_>, area: &Area, room: &Room) -> bool {
    if level_of(house, area).is_some_and(|level| level != room.level) {
        return false;
    }
    let outline = on_floor(house, area);
    outline.iter().any(|corner| {
        let (x, y) = (corner.x.to_f64(), corner.y.to_f64());
        outline_holds(&room.outline, x, y) || to_outline(&room.outline, *corner) <= 200.0
    })
}

/// Whether something stands in the next room and walls part all of it from a
/// place, which ends its zones.
fn is_walled_off(house: &House<'_>, room: &Room, fixture: &Fixture, seen: Point3) -> bool {
    let Shape::Outline(outline) = &fixture.shape else { return false };
    let Some((x, y)) = middle(outline) else { return false };
    let mut next = house.plan.rooms.values().filter(|other| other.level == room.level);
    let is_beyond = !outline_holds(&room.outline, x, y)
        && next.any(|other| outline_holds(&other.outline, x, y));
    is_beyond && outline.iter().all(|corner| is_parted(house, room, seen.on_floor(), *corner))
}

/// The middle of the corners of an outline.
fn middle(outline: &[Point2]) -> Option<(f64, f64)> {
    let count = f64::from(u32::try_from(outline.len()).ok().filter(|count| *count > 0)?);
    let sum = |of: fn(&Point2) -> f64| outline.iter().map(of).sum::<f64>();
    Some((sum(|at| at.x.to_f64()) / count, sum(|at| at.y.to_f64()) / count))
}

/// Whether a wall stands on the straight way between two places: a screen is
/// none, nor is an open passage in one.
fn is_parted(house: &House<'_>, room: &Room, from: Point2, to: Point2) -> bool {
    let walls = house.plan.walls.iter().filter(|(_, wall)| wall.level == room.level);
    walls.filter(|(_, wall)| wall.build != WallBuild::Screen).any(|(id, wall)| {
        let Some(along) = crossing(wall, from, to) else { return false };
        let mut openings = house.plan.openings.values().filter(|one| one.wall == *id);
        !openings.any(|one| {
            one.kind == OpeningKind::Plain
                && (one.from.to_f64()..=(one.from + one.width).to_f64()).contains(&along)
        })
    })
}

/// How far along a wall its centre line crosses the way between two places.
fn crossing(wall: &Wall, from: Point2, to: Point2) -> Option<f64> {
    let (dx, dy) = wall.direction();
    let off = |at: Point2| {
        let (x, y) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
        (x * dx + y * dy, dx * y - dy * x)
    };
    let ((a, left), (b, right)) = (off(from), off(to));
    let share = left / (left - right);
    let along = a + (b - a) * share;
    (left * right < 0.0 && (0.0..=wall.length()).contains(&along)).then_some(along)
}

/// How far a place is from an outline; nothing inside it.
pub(super) fn to_outline(outline: &[Point2], at: Point2) -> f64 {
    if outline.len() > 2 && outline_holds(outline, at.x.to_f64(), at.y.to_f64()) {
        return 0.0;
    }
    (0..outline.len())
        .map(|index| to_side(outline[index], outline[(index + 1) % outline.len()], at))
        .fold(f64::INFINITY, f64::min)
}

fn to_side(a: Point2, b: Point2, at: Point2) -> f64 {
    let (sx, sy) = ((b.x - a.x).to_f64(), (b.y - a.y).to_f64());
    let (px, py) = ((at.x - a.x).to_f64(), (at.y - a.y).to_f64());
    let square = sx * sx + sy * sy;
    let share = if square > 0.0 { ((px * sx + py * sy) / square).clamp(0.0, 1.0) } else { 0.0 };
    libm::hypot(px - sx * share, py - sy * share)
}
