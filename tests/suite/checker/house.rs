//! What the plan says about walls and voids, looked up anew.

use wirewend::plan::{
    Circuit, Level, LevelId, OnWall, Place, Plan, Plane, Void, VoidId, VoidKind, Wall, WallId, Way,
};
use wirewend::units::{Mm, Point3};

use super::shape::{Spot, deep_inside, distance_to, edge_distance, gaps, holds, stretches};
use super::strips::corner_strips;
use super::walk::Walk;

/// How far beyond the walls and rooms under it a void without an outline may
/// reach, mm: roundings, and the corner beyond two walls' ends.
const COVER_MARGIN: f64 = 60.0;

/// Whether the circuit may take a way.
pub(crate) fn allows(circuit: &Circuit, way: Way) -> bool {
    match &circuit.ways {
        Some(ways) => ways.contains(&way),
        None => way != Way::Surface,
    }
}

/// Whether the circuit may go from a level into a void that it names.
pub(crate) fn may_enter(circuit: &Circuit, level: &Level, id: VoidId, void: &Void) -> bool {
    if void.kind == VoidKind::Ground {
        return allows(circuit, Way::Underground);
    }
    (level.above.contains(&id) && allows(circuit, Way::Overhead))
        || (level.below.contains(&id) && allows(circuit, Way::Underfloor))
}

/// The levels that name a void.
pub(crate) fn levels_of(plan: &Plan, void: VoidId) -> impl Iterator<Item = (LevelId, &Level)> {
    plan.levels
        .iter()
        .filter(move |(_, level)| level.above.contains(&void) || level.below.contains(&void))
        .map(|(id, level)| (*id, level))
}

/// Whether two heights are one.
pub(crate) fn level_with(one: Mm, other: Mm) -> bool {
    (one - other).abs() <= Mm::new(1)
}

/// Where a place is from a wall's end `a`: along it, and to its left.
pub(crate) fn along_and_across(wall: &Wall, place: Spot) -> (f64, f64) {
    let (dx, dy) = wall.direction();
    let step = place.minus(Spot::of(wall.a));
    (step.x * dx + step.y * dy, step.y * dx - step.x * dy)
}

/// A place on a wall, as (along, height above its floor).
pub(crate) fn on_wall(plan: &Plan, wall: &Wall, place: Point3) -> Spot {
    let floor = plan.levels.get(&wall.level).map_or(Mm::ZERO, |level| level.floor);
    Spot::new(along_and_across(wall, Spot::under(place)).0, (place.z - floor).to_f64())
}

/// The wall that a place is on, if it is on one.
pub(crate) fn wall_of(place: Option<Place>) -> Option<WallId> {
    match place {
        Some(Place::Wall(OnWall { wall, .. })) => Some(wall),
        _ => None,
    }
}

/// Everything on a wall that shows: (along, height) of its points and boards.
pub(crate) fn accessories(plan: &Plan, wall: WallId) -> Vec<Spot> {
    let points = plan.points.values().map(|point| point.place);
    let boards = plan.boards.values().map(|board| board.place);
    points
        .chain(boards)
        .filter_map(|place| match place {
            Some(Place::Wall(on)) if on.wall == wall => {
                Some(Spot::new(on.along.to_f64(), on.height.to_f64()))
            }
            _ => None,
        })
        .collect()
}

/// The ground that a wall stands on, made longer by so much at either end.
pub(crate) fn footprint(wall: &Wall, longer: f64) -> Vec<Spot> {
    let (dx, dy) = wall.direction();
    let half = wall.thickness.to_f64() / 2.0;
    let (a, b) = (Spot::of(wall.a), Spot::of(wall.b));
    let corner = |end: Spot, ahead: f64, left: f64| {
        Spot::new(end.x + dx * ahead - dy * left, end.y + dy * ahead + dx * left)
    };
    vec![
        corner(a, -longer, -half),
        corner(b, longer, -half),
        corner(b, longer, half),
        corner(a, -longer, half),
    ]
}

/// What a void covers, and how far beyond it a cable may still lie.
fn cover(plan: &Plan, id: VoidId) -> (Vec<Vec<Spot>>, f64) {
    let Some(void) = plan.voids.get(&id) else { return (Vec::new(), 0.0) };
    if let Some(outline) = &void.outline {
        return (vec![outline.iter().map(|corner| Spot::of(*corner)).collect()], COVER_MARGIN);
    }
    let mut shapes: Vec<Vec<Spot>> = Vec::new();
    for (level, _) in levels_of(plan, id) {
        let walls = plan.walls.values().filter(|wall| wall.level == level);
        shapes.extend(walls.map(|wall| footprint(wall, wall.thickness.to_f64() / 2.0)));
        let rooms = plan.rooms.values().filter(|room| room.level == level);
        shapes.extend(
            rooms.map(|room| room.outline.iter().map(|corner| Spot::of(*corner)).collect()),
        );
    }
    (shapes, COVER_MARGIN)
}

/// Whether a void covers a place.
pub(crate) fn covers(plan: &Plan, id: VoidId, place: Spot) -> bool {
    let (shapes, margin) = cover(plan, id);
    shapes.iter().any(|shape| distance_to(shape, place) <= margin)
}

/// Whether a void covers all of a straight line: exactly where it lies inside
/// a shape, and every 10 mm where it lies in the margin between shapes.
pub(crate) fn covers_line(plan: &Plan, id: VoidId, a: Spot, b: Spot) -> bool {
    let (shapes, margin) = cover(plan, id);
    let inside = shapes.iter().flat_map(|shape| stretches(shape, a, b)).collect();
    let near = |place: Spot| shapes.iter().any(|shape| distance_to(shape, place) <= margin);
    gaps(inside).into_iter().all(|(from, to)| {
        let step = 10.0 / a.distance(b).max(10.0);
        let mut share = from;
        while share < to {
            if !near(a.towards(b, share)) {
                return false;
            }
            share += step;
        }
        near(a.towards(b, to))
    })
}

/// Whether a void covers a place beyond doubt: well inside, if it is drawn.
fn well_covers(plan: &Plan, id: VoidId, place: Spot) -> bool {
    let outline = plan.voids.get(&id).and_then(|void| void.outline.as_ref());
    outline.map_or_else(
        || covers(plan, id, place),
        |outline| {
            let outline: Vec<Spot> = outline.iter().map(|corner| Spot::of(*corner)).collect();
            holds(&outline, place) && edge_distance(&outline, place) > COVER_MARGIN
        },
    )
}

/// The keep-outs on a plane.
pub(crate) fn keep_outs(plan: &Plan, on: Plane) -> Vec<Vec<Spot>> {
    plan.areas
        .values()
        .filter(|area| area.on == on && area.effect == wirewend::plan::AreaEffect::KeepOut)
        .map(|area| area.outline.iter().map(|corner| Spot::of(*corner)).collect())
        .collect()
}

/// Whether a place in a void is inside a keep-out.
pub(crate) fn kept_out(plan: &Plan, void: VoidId, place: Spot) -> bool {
    keep_outs(plan, Plane::Void(void)).iter().any(|area| deep_inside(area, place))
}

/// Whether a column of a wall, that nothing blocks at the top or the foot,
/// reaches a void that the circuit can use.
pub(crate) fn reaches_void(walk: &Walk, id: WallId, wall: &Wall) -> bool {
    let (plan, circuit) = (walk.plan, walk.circuit);
    let Some(level) = plan.levels.get(&wall.level) else { return false };
    let (a, b) = (Spot::of(wall.a), Spot::of(wall.b));
    let mut columns: Vec<f64> = accessories(plan, id).iter().map(|seen| seen.x).collect();
    for (from, to) in corner_strips(plan, id) {
        let middle = plan.habits.zones.strip.to_f64() / 2.0;
        columns.extend([from + middle, to - middle]);
    }
    let clearance = plan.habits.opening_clearance.to_f64();
    let open = |along: f64, height: f64| {
        plan.openings.values().filter(|opening| opening.wall == id).all(|opening| {
            let (from, width) = (opening.from.to_f64(), opening.width.to_f64());
            let (sill, head) = (opening.sill.to_f64(), opening.head.to_f64());
            along <= from - clearance
                || along >= from + width + clearance
                || height <= sill - clearance
                || height >= head + clearance
        })
    };
    let sides = [(&level.above, level.height.to_f64() - 1.0), (&level.below, 1.0)];
    sides.into_iter().any(|(voids, height)| {
        voids.iter().any(|void| {
            plan.voids.get(void).is_some_and(|drawn| may_enter(circuit, level, *void, drawn))
                && columns.iter().any(|along| {
                    (0.0..=wall.length()).contains(along)
                        && open(*along, height)
                        && well_covers(plan, *void, a.towards(b, along / wall.length()))
                        && !kept_out(plan, *void, a.towards(b, along / wall.length()))
                })
        })
    })
}
