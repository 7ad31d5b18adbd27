//! From a drawing to the planes that cables run in.

use std::collections::BTreeMap;
use std::sync::Arc;

use geo::orient::Direction;
use geo::{Coord, LineString, MultiPolygon, Orient, Polygon};

use super::bare_wall::Bare;
use super::domain::{cover, settle};
use super::{Barrier, Frame, PercentArea, Rect, Space, Terminal, VoidField, WallField};
use crate::plan::{
    Area, AreaEffect, LevelId, OnLevel, OnPost, Opening, Place, Plan, Plane, Void, VoidId,
    VoidKind, Wall, WallBuild, WallId,
};
use crate::units::{Mm, Point2};

impl Space {
    /// The voids above (or below) a level, by index.
    fn voids_of(&self, plan: &Plan, level: usize, up: bool) -> Vec<usize> {
        let Some((_, level)) = plan.levels.get_index(level) else { return Vec::new() };
        let ids = if up { &level.above } else { &level.below };
        ids.iter().filter_map(|id| plan.voids.get_index_of(id)).collect()
    }

    /// Where a place is in this space. None where its wall or level is not in
    /// the plan, or nothing can run in the wall.
    #[must_use]
    pub fn terminal(&self, plan: &Plan, place: &Place) -> Option<Terminal> {
        let position = plan.position(place)?;
        match place {
            Place::Wall(on) => {
                // In the order of the plan, without those in which nothing can run.
                let last = plan.walls.get_index_of(&on.wall)?.min(self.walls.len().checked_sub(1)?);
                let wall = self.walls[..=last].iter().rposition(|wall| wall.id == on.wall)?;
                Some(Terminal::Wall { wall, along: on.along.get(), z: position.z.get() })
            }
            Place::Ceiling(OnLevel { level, .. }) => {
                let level = plan.levels.get_index_of(level)?;
                Some(Terminal::Upright {
                    place: position,
                    voids: self.voids_of(plan, level, true),
                    up: true,
                    post: false,
                })
            }
            Place::Floor(OnLevel { level, .. }) | Place::Post(OnPost { level, .. }) => {
                let level = plan.levels.get_index_of(level)?;
                Some(Terminal::Upright {
                    place: position,
                    voids: self.voids_of(plan, level, false),
                    up: false,
                    post: matches!(place, Place::Post(_)),
                })
            }
        }
    }
}

/// A void with its areas, in its own frame.
pub(super) fn void_field(plan: &Plan, id: VoidId, void: &Void) -> VoidField {
    let frame = Frame::along(void.direction);
    let mut rings: Vec<Vec<(i64, i64)>> = match &void.outline {
        Some(outline) => vec![ring(frame, outline)],
        None => covered_by_levels(plan, id)
            .0
            .iter()
            .flat_map(|polygon| std::iter::once(polygon.exterior()).chain(polygon.interiors()))
            .map(|line| ring(frame, &places(line)))
            .collect(),
    };
    let areas: Vec<(Vec<(i64, i64)>, AreaEffect)> = plan
        .areas
        .values()
        .filter(|area| area.on == Plane::Void(id))
        .map(|area| (ring(frame, &area.outline), area.effect))
        .collect();
    let mut areas = areas;
    if !frame.is_square() {
        settle_all(&mut rings, &mut areas);
    }
    let base =
        if void.kind == VoidKind::Ground { i64::from(plan.habits.trench_percent) } else { 100 };
    // There are no joists in the ground, whatever is drawn.
    let across = if void.joists.is_some() && void.kind != VoidKind::Ground {
        100 + i64::from(plan.habits.joist_cross_percent)
    } else {
        100
    };
    let mut field = VoidField {
        id,
        kind: void.kind,
        frame,
        z: void.z.get(),
        insulation: void.insulation,
        over: plan.levels.values().any(|level| level.above.contains(&id)),
        under: plan.levels.values().any(|level| level.below.contains(&id)),
        regions: cover(&rings),
        keep_outs: Vec::new(),
        percents: Vec::new(),
        barriers: Vec::new(),
        settled: (Vec::new(), Vec::new()),
        density_u: base,
        density_v: (base * across).div_euclid(100),
    };
    for (outline, effect) in areas {
        add_area(&mut field, &outline, effect);
    }
    field
}

fn add_area(field: &mut VoidField, outline: &[(i64, i64)], effect: AreaEffect) {
    match effect {
        AreaEffect::KeepOut => field.keep_outs.extend(cover(&[outline.to_vec()])),
        AreaEffect::Percent(percent) => {
            field.percents.push(PercentArea { percent, rects: cover(&[outline.to_vec()]) });
        }
        AreaEffect::Barrier(toll) => {
            if let Some(rect) = Rect::around(outline) {
                let along_u = rect.u1 - rect.u0 < rect.v1 - rect.v0;
                field.barriers.push(Barrier::new(rect, along_u, toll.get() * 100));
            }
        }
    }
}

fn settle_all(rings: &mut [Vec<(i64, i64)>], areas: &mut [(Vec<(i64, i64)>, AreaEffect)]) {
    let (mut us, mut vs) = (Vec::new(), Vec::new());
    for (u, v) in rings.iter_mut().flatten().chain(areas.iter_mut().flat_map(|area| &mut area.0)) {
        us.push(u);
        vs.push(v);
    }
    settle(&mut us);
    settle(&mut vs);
}

/// In voids whose frame is turned against the page: the coordinates of their
/// edges, of all columns and of the places on ceilings, floors and posts, those
/// within 1 mm made one.
pub(super) fn settle_voids(plan: &Plan, voids: &mut [VoidField], walls: &[Arc<WallField>]) {
    for (index, void) in voids.iter_mut().enumerate().filter(|(_, void)| !void.frame.is_square()) {
        let near =
            |wall: &&Arc<WallField>| wall.above.contains(&index) || wall.below.contains(&index);
        let columns = walls
            .iter()
            .filter(near)
            .flat_map(|wall| wall.columns.iter().map(|column| wall.page(column.along)));
        let places = plan.points.values().filter_map(|point| match point.place? {
            Place::Ceiling(on) | Place::Floor(on) => Some(on.at),
            Place::Post(on) => Some(on.at),
            Place::Wall(_) => None,
        });
        let spots: Vec<(i64, i64)> =
            columns.chain(places).map(|page| void.frame.frame_from_page(page)).collect();
        let (us, vs) = void.edges();
        let one = |mut edges: Vec<i64>, more: Vec<i64>| {
            edges.sort_unstable();
            edges.dedup();
            let mut more = more;
            more.sort_unstable();
            for at in more {
                let from = edges.partition_point(|line| *line < at - 1);
                if edges.get(from).is_none_or(|line| *line > at + 1) {
                    edges.insert(edges.partition_point(|line| *line < at), at);
                }
            }
            edges
        };
        void.settled = (
            one(us, spots.iter().map(|spot| spot.0).collect()),
            one(vs, spots.iter().map(|spot| spot.1).collect()),
        );
    }
}

fn ring(frame: Frame, outline: &[Point2]) -> Vec<(i64, i64)> {
    outline.iter().map(|place| frame.frame_from_page(*place)).collect()
}

fn places(line: &LineString<f64>) -> Vec<Point2> {
    let round = |value: f64| Mm::from_f64(value).unwrap_or(Mm::ZERO);
    let mut places: Vec<Point2> =
        line.coords().map(|c| Point2 { x: round(c.x), y: round(c.y) }).collect();
    places.pop();
    places
}

/// What the walls (to their outer faces) and rooms of the levels that name a
/// void cover.
fn covered_by_levels(plan: &Plan, id: VoidId) -> MultiPolygon<f64> {
    let named = |level: LevelId| {
        plan.levels
            .get(&level)
            .is_some_and(|level| level.above.contains(&id) || level.below.contains(&id))
    };
    let rooms = || plan.rooms.values().filter(|room| named(room.level));
    let mut shapes: Vec<Polygon<f64>> = rooms()
        .map(|room| polygon(room.outline.iter().map(|p| (p.x.to_f64(), p.y.to_f64()))))
        .chain(plan.walls.values().filter(|wall| named(wall.level)).map(footprint))
        .collect();
    let exact = geo::unary_union(&shapes);
    if exact.0.len() < 2 {
        return exact;
    }
    // A room measured a little short of its walls is no island among them.
    for room in rooms() {
        let sides = room.outline.iter().zip(room.outline.iter().cycle().skip(1));
        shapes.extend(sides.filter(|(a, b)| a != b).map(|(a, b)| band(*a, *b, SLIT)));
    }
    let closed = geo::unary_union(&shapes);
    if closed.0.len() < exact.0.len() { closed } else { exact }
}

/// Rooms that end so little short of their walls touch them, mm.
const SLIT: f64 = 10.0;

fn polygon(places: impl Iterator<Item = (f64, f64)>) -> Polygon<f64> {
    // The union counts windings, so all shapes must turn the same way.
    Polygon::new(places.map(|(x, y)| Coord { x, y }).collect(), Vec::new())
        .orient(Direction::Default)
}

/// A wall from above, its ends squared off by half its thickness so that
/// corners are whole.
fn footprint(wall: &Wall) -> Polygon<f64> {
    band(wall.a, wall.b, wall.thickness.to_f64() / 2.0)
}

/// A line made so wide on both sides, and so much longer at its ends.
fn band(a: Point2, b: Point2, half: f64) -> Polygon<f64> {
    let length = a.distance(b).max(1.0);
    let (dx, dy) = ((b.x - a.x).to_f64() / length, (b.y - a.y).to_f64() / length);
    let (ax, ay) = (a.x.to_f64() - dx * half, a.y.to_f64() - dy * half);
    let (bx, by) = (b.x.to_f64() + dx * half, b.y.to_f64() + dy * half);
    let (nx, ny) = (-dy * half, dx * half);
    let corners = [(ax - nx, ay - ny), (bx - nx, by - ny), (bx + nx, by + ny), (ax + nx, ay + ny)];
    polygon(corners.into_iter())
}

/// The walls in which anything can run.
pub(super) fn wall_fields(plan: &Plan) -> Vec<Bare> {
    let mut fields = Vec::new();
    let on_walls = OnWalls::of(plan);
    for (index, (id, wall)) in plan.walls.iter().enumerate() {
        let Some(level) = plan.levels.get_full(&wall.level) else { continue };
        if wall.build == WallBuild::Screen || wall.a == wall.b {
            continue;
        }
        let indices = |ids: &[VoidId]| {
            ids.iter().filter_map(|id| plan.voids.get_index_of(id)).collect::<Vec<_>>()
        };
        let mut field = WallField {
            id: *id,
            build: wall.build,
            insulation: if wall.insulated { wall.thickness } else { Mm::ZERO },
            a: wall.a,
            b: wall.b,
            length: Mm::from_f64(wall.length()).unwrap_or(Mm::ZERO).get(),
            floor: level.2.floor.get(),
            ceiling: level.2.ceiling().get(),
            blocked: Vec::new(),
            columns: Vec::new(),
            rows: Vec::new(),
            sideways: i64::from(sideways_percent(plan, wall.build)),
            above: indices(&level.2.above),
            below: indices(&level.2.below),
        };
        block(plan, &on_walls, &mut field);
        field.rows.push(field.ceiling - plan.habits.zones.strip.half().get());
        fields.push(Bare::new(index, level.0, field));
    }
    fields
}

fn sideways_percent(plan: &Plan, build: WallBuild) -> u16 {
    match build {
        WallBuild::Stud
        | WallBuild::BrickVeneer
        | WallBuild::LathAndPlaster
        | WallBuild::Screen => plan.habits.stud_percent,
        WallBuild::SolidMasonry
        | WallBuild::CavityMasonry
        | WallBuild::DoubleBrick
        | WallBuild::Concrete => plan.habits.chase_percent,
    }
}

/// What is on each wall, looked up once for all of them.
#[derive(Default)]
struct OnWalls<'a> {
    openings: BTreeMap<WallId, Vec<&'a Opening>>,
    keep_outs: BTreeMap<WallId, Vec<&'a Area>>,
}

impl<'a> OnWalls<'a> {
    fn of(plan: &'a Plan) -> Self {
        let mut on_walls = Self::default();
        for opening in plan.openings.values() {
            on_walls.openings.entry(opening.wall).or_default().push(opening);
        }
        for area in plan.areas.values() {
            if let (Plane::Wall(wall), AreaEffect::KeepOut) = (area.on, area.effect) {
                on_walls.keep_outs.entry(wall).or_default().push(area);
            }
        }
        on_walls
    }
}

/// Openings, grown by the clearance, and keep-outs on the wall.
fn block(plan: &Plan, on_walls: &OnWalls<'_>, field: &mut WallField) {
    let clearance = plan.habits.opening_clearance.get();
    for opening in on_walls.openings.get(&field.id).into_iter().flatten() {
        let (from, to) = (opening.from.get(), (opening.from + opening.width).get());
        let (sill, head) = (opening.sill.get(), opening.head.get());
        field
            .blocked
            .push(Rect::new(from, field.floor + sill, to, field.floor + head).grown(clearance));
    }
    for area in on_walls.keep_outs.get(&field.id).into_iter().flatten() {
        let outline: Vec<(i64, i64)> =
            area.outline.iter().map(|p| (p.x.get(), field.floor + p.y.get())).collect();
        field.blocked.extend(cover(&[outline]));
    }
}
