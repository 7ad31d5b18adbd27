//! Walls: one clean outline for all that meet, hatched by what they are made
//! of.

use core::f64::consts::PI;

use geo::orient::{Direction, Orient as _};
use geo::{Area as _, BooleanOps, LineString, MultiPolygon, Polygon, unary_union};
use kurbo::{BezPath, Point, Rect, Vec2};

use super::hatch::Hatch;
use super::view::View;
use crate::plan::{LevelId, Plan, Wall, WallBuild};
use crate::sheet::scene::{Group, Item, Layer, LinePattern, Mark, Stroke};
use crate::sheet::{Ink, pen};

/// Heaviest first: where walls meet, the heavier one's hatching goes through.
pub(super) const BUILDS: [WallBuild; 7] = [
    WallBuild::Concrete,
    WallBuild::SolidMasonry,
    WallBuild::DoubleBrick,
    WallBuild::CavityMasonry,
    WallBuild::BrickVeneer,
    WallBuild::LathAndPlaster,
    WallBuild::Stud,
];

/// The width of wall outlines, mm: the heaviest line inside the frame.
pub(super) const OUTLINE: f64 = 0.5;

/// The walls of a level on paper.
#[derive(Debug)]
pub(super) struct Walls {
    /// What they cover, openings taken out.
    pub(super) all: MultiPolygon<f64>,
    /// What they cover, openings and all.
    pub(super) closed: MultiPolygon<f64>,
    /// The same by build; no place is in two of them.
    by_build: Vec<(WallBuild, MultiPolygon<f64>)>,
    /// Fences and railings: outlines only.
    screens: Vec<BezPath>,
    /// The slant of hatching lines, radians: half a right angle to the longest
    /// wall, so that a house that stands askew is hatched like any other.
    slant: f64,
}

impl Walls {
    /// Those of one level.
    pub(super) fn of(plan: &Plan, level: LevelId, view: &View) -> Self {
        let walls: Vec<&Wall> =
            plan.walls.values().filter(|wall| wall.level == level && wall.length() > 0.0).collect();
        let holes = holes(plan, level, view);
        let mut taken = MultiPolygon::new(Vec::new());
        let mut by_build = Vec::new();
        for build in BUILDS {
            let parts = footprints(&walls, build, view);
            if parts.is_empty() {
                continue;
            }
            let whole = unary_union(&parts);
            by_build.push((build, whole.difference(&taken).difference(&holes)));
            taken = taken.union(&whole);
        }
        let screens = walls
            .iter()
            .filter(|wall| wall.build == WallBuild::Screen)
            .map(|wall| pen::polygon(&corners(wall, view)))
            .collect();
        let (all, slant) = (taken.difference(&holes), slant(&walls));
        Self { all, closed: taken, by_build, screens, slant }
    }

    /// Their hatching.
    pub(super) fn hatching(&self) -> Item {
        let hatched = self.by_build.iter();
        let items = hatched.flat_map(|(build, area)| Hatch::of(*build).fill(area, self.slant));
        Group::new(Layer::Walls, items.collect()).into()
    }

    /// Their outlines.
    pub(super) fn draw(&self) -> Item {
        let mut items: Vec<Item> = Vec::new();
        if !self.all.0.is_empty() {
            let outline = Stroke::solid(Ink::BLACK, OUTLINE);
            items.push(Mark::line(path_of(&self.all), outline).into());
        }
        let screen = Stroke { ink: Ink::BLACK, width: 0.25, pattern: LinePattern::Dashed };
        items.extend(self.screens.iter().map(|path| Mark::line(path.clone(), screen).into()));
        Group::new(Layer::Walls, items).into()
    }

    /// The box around each block of walls that hang together, paper mm.
    pub(super) fn blocks(&self) -> Vec<Rect> {
        let boxes = self.all.iter().filter_map(geo::BoundingRect::bounding_rect);
        boxes.map(|one| Rect::new(one.min().x, one.min().y, one.max().x, one.max().y)).collect()
    }

    /// Every line that lettering must keep clear of.
    pub(super) fn outlines(&self) -> Vec<BezPath> {
        let mut outlines = vec![path_of(&self.all)];
        outlines.extend(self.screens.iter().cloned());
        outlines
    }
}

/// The walls of one build as polygons, with the wedges that close their
/// corners.
fn footprints(walls: &[&Wall], build: WallBuild, view: &View) -> Vec<Polygon<f64>> {
    let mut parts: Vec<Polygon<f64>> = walls
        .iter()
        .filter(|wall| wall.build == build)
        .map(|wall| polygon_of(&corners(wall, view)))
        .collect();
    parts.extend(wedges(walls, build, view));
    parts
}

/// The four corners of a wall on paper.
pub(super) fn corners(wall: &Wall, view: &View) -> [Point; 4] {
    let (a, b) = (view.point(wall.a), view.point(wall.b));
    let along = pen::unit(b - a);
    let half = pen::square_to(along) * (view.length(wall.thickness.to_f64()) / 2.0);
    [a + half, b + half, b - half, a - half]
}

/// Where walls end at one place, what is missing outside the bend between two
/// neighbours.
fn wedges(walls: &[&Wall], build: WallBuild, view: &View) -> Vec<Polygon<f64>> {
    let mut wedges = Vec::new();
    let mut seen: Vec<crate::units::Point2> = Vec::new();
    for place in walls.iter().flat_map(|wall| [wall.a, wall.b]) {
        if seen.contains(&place) {
            continue;
        }
        seen.push(place);
        let mut arms: Vec<Arm> = walls
            .iter()
            .filter(|wall| wall.build != WallBuild::Screen)
            .filter(|wall| wall.a == place || wall.b == place)
            .map(|wall| Arm::from(wall, place, view))
            .collect();
        arms.sort_by(|one, other| one.angle.total_cmp(&other.angle));
        for (index, arm) in arms.iter().enumerate() {
            let next = &arms[(index + 1) % arms.len()];
            let gap = (next.angle - arm.angle).rem_euclid(2.0 * PI);
            let heavier = rank(arm.build).min(rank(next.build));
            if arms.len() > 1 && gap > PI + 0.01 && heavier == rank(build) {
                wedges.push(wedge(view.point(place), arm, next));
            }
        }
    }
    wedges
}

fn rank(build: WallBuild) -> usize {
    BUILDS.iter().position(|one| *one == build).unwrap_or(BUILDS.len())
}

/// A wall seen from one of its ends.
struct Arm {
    along: Vec2,
    angle: f64,
    half: f64,
    build: WallBuild,
}

impl Arm {
    fn from(wall: &Wall, place: crate::units::Point2, view: &View) -> Self {
        let far = if wall.a == place { wall.b } else { wall.a };
        let along = pen::unit(view.point(far) - view.point(place));
        Self {
            along,
            angle: libm::atan2(along.y, along.x),
            half: view.length(wall.thickness.to_f64()) / 2.0,
            build: wall.build,
        }
    }
}

/// The wedge between two arms that leave more than half a turn between them:
/// a mitre, cut off where it would stick out far.
fn wedge(at: Point, arm: &Arm, next: &Arm) -> Polygon<f64> {
    let side = pen::square_to(arm.along) * arm.half;
    let other = pen::square_to(next.along) * -next.half;
    let (p, q) = (at + side, at + other);
    // It reaches a little into both walls: edges that only touch leave slits.
    let (into, into_next) = (arm.along * (arm.half / 2.0), next.along * (next.half / 2.0));
    let mut outline = vec![at + into + into_next, p + into];
    let cross = arm.along.cross(next.along);
    let reach = (q - p).cross(next.along) / cross;
    let tip = p + arm.along * reach;
    if cross.abs() > 0.05 && pen::length(tip - at) <= 4.0 * arm.half.max(next.half) {
        outline.push(tip);
    } else {
        outline.extend([p, q]);
    }
    outline.push(q + into_next);
    polygon_of(&outline)
}

/// What openings cut out.
fn holes(plan: &Plan, level: LevelId, view: &View) -> MultiPolygon<f64> {
    let parts: Vec<Polygon<f64>> = plan
        .openings
        .values()
        .filter_map(|opening| {
            let wall = plan.walls.get(&opening.wall).filter(|wall| wall.level == level)?;
            let span = Span::of(wall, opening.from.to_f64(), opening.width.to_f64(), view)?;
            Some(polygon_of(&span.corners(1.02)))
        })
        .collect();
    if parts.is_empty() { MultiPolygon::new(Vec::new()) } else { unary_union(&parts) }
}

/// A piece of a wall on paper.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span {
    /// Its ends on the centre line, nearer to the wall's end `a` first.
    pub(super) near: Point,
    /// The other end.
    pub(super) far: Point,
    /// Half across the wall, towards its left face.
    pub(super) left: Vec2,
}

impl Span {
    /// So much of a wall from so far along it. None for a wall without length.
    pub(super) fn of(wall: &Wall, from: f64, width: f64, view: &View) -> Option<Self> {
        let (a, b) = (view.point(wall.a), view.point(wall.b));
        let along = pen::unit(b - a);
        if pen::length(along) < 0.5 {
            return None;
        }
        // Up the page is down the paper: the left face turns the other way.
        let left = -pen::square_to(along) * (view.length(wall.thickness.to_f64()) / 2.0);
        let near = a + along * view.length(from);
        Some(Self { near, far: near + along * view.length(width), left })
    }

    /// Its corners, across the wall this much of it.
    pub(super) fn corners(&self, across: f64) -> [Point; 4] {
        let left = self.left * across;
        [self.near + left, self.far + left, self.far - left, self.near - left]
    }
}

/// Half a right angle to the longest wall, radians.
fn slant(walls: &[&Wall]) -> f64 {
    let longest = walls.iter().max_by(|one, other| one.length().total_cmp(&other.length()));
    let turn = longest.map_or(0.0, |wall| {
        let (x, y) = wall.direction();
        libm::atan2(-y, x)
    });
    turn.rem_euclid(PI / 2.0) - PI / 4.0
}

/// A polygon for the area operations, turned the way they expect.
pub(super) fn polygon_of(corners: &[Point]) -> Polygon<f64> {
    let ring: Vec<(f64, f64)> = corners.iter().map(|corner| (corner.x, corner.y)).collect();
    Polygon::new(LineString::from(ring), Vec::new()).orient(Direction::Default)
}

/// Polygons as a path, specks left out.
pub(super) fn path_of(area: &MultiPolygon<f64>) -> BezPath {
    let mut path = BezPath::new();
    for polygon in area.0.iter().filter(|polygon| polygon.unsigned_area() > 1e-3) {
        for ring in std::iter::once(polygon.exterior()).chain(polygon.interiors()) {
            let places: Vec<Point> =
                ring.coords().skip(1).map(|place| Point::new(place.x, place.y)).collect();
            path.extend(pen::polygon(&places));
        }
    }
    path
}
