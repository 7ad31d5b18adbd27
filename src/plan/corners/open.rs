//! Where two walls come near each other and do not meet.
//!
//! A corner is open where the end of a wall touches no other wall and another
//! stands a little way off, across its way: at that wall's face, or where that
//! wall ends as well. What runs beside each other, what is shorter than thick
//! (a column, a pier) and what carries nothing (a screen, a railing) is left
//! as it is: it may be meant so.

use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use super::body::{Body, Spot, cross, dot, from_to};
use crate::plan::{LevelId, Plan, WallBuild, WallId};
use crate::units::{Mm, Point2};

/// The least clear distance that is a gap, mm: 5 to the nearest millimetre; less
/// is how drawings are rounded.
const GAP_MIN: f64 = 4.5;
/// The largest clear distance that is taken for an oversight, mm: 400 to the
/// nearest millimetre; what is wider may be a way through. *Common practice.*
const GAP_MAX: f64 = 400.5;
/// Walls cross each other where the sine of the angle between them is no less.
const SINE_MIN: f64 = 0.2;
/// A wall that is no longer than so many times its thickness is a pier.
const PIER: f64 = 1.5;
/// What of a wall sticks out no further behind one that it passes through is no
/// wall towards the next, mm. *Common practice.*
const STUB: f64 = 60.0;
/// As far as an end may be from another's line and still lie on it, mm: half
/// the diagonal of a millimetre, on both, and a little.
const ON: f64 = 2.0;

/// A corner that does not meet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct OpenCorner {
    /// The wall whose end is open, and whether that is its end `a`.
    pub wall: (WallId, bool),
    /// The wall that it does not meet.
    pub other: WallId,
    /// Where that one ends short as well, whether at its end `a`. None: the
    /// first ends before its face.
    pub other_end: Option<bool>,
    /// The clear distance between them, mm.
    pub gap: Mm,
    /// Where their centre lines cross.
    pub meets: Point2,
    /// The middle of the gap.
    pub middle: Point2,
    /// Their level.
    pub level: LevelId,
}

/// Every corner of a plan that does not meet, in the order of its walls.
#[must_use]
pub fn open_corners(plan: &Plan) -> Vec<OpenCorner> {
    let floor = Floor::of(plan);
    let mut open: Vec<OpenCorner> = Vec::new();
    for (index, stood) in floor.walls.iter().enumerate() {
        if stood.body.length <= PIER * 2.0 * stood.body.half {
            continue;
        }
        for end in [0, 1] {
            let near = floor.near(index, end);
            if floor.is_met(index, end, &near) {
                continue;
            }
            let corners = near.iter().filter_map(|other| floor.corner(index, end, *other));
            let nearest = corners.min_by_key(|corner| (corner.gap, corner.other));
            // The other end of the same corner comes to the same.
            let known = |corner: &OpenCorner| open.iter().any(|one| one.is_back(corner));
            open.extend(nearest.filter(|corner| !known(corner)));
        }
    }
    open
}

impl OpenCorner {
    fn is_back(&self, other: &Self) -> bool {
        self.other_end.is_some_and(|is_a| {
            (self.other, is_a) == other.wall
                && (other.other, other.other_end) == (self.wall.0, Some(self.wall.1))
        })
    }
}

/// A wall that stands somewhere.
struct Stood {
    id: WallId,
    level: LevelId,
    body: Body,
}

/// The walls that can meet, and which of them are near a place.
struct Floor {
    walls: Vec<Stood>,
    tree: RTree<GeomWithData<Rectangle<[f64; 2]>, usize>>,
}

impl Floor {
    fn of(plan: &Plan) -> Self {
        let carries = plan.walls.iter().filter(|(_, wall)| wall.build != WallBuild::Screen);
        let walls: Vec<Stood> = carries
            .filter_map(|(id, wall)| {
                Some(Stood { id: *id, level: wall.level, body: Body::of(wall)? })
            })
            .collect();
        let boxes = walls.iter().enumerate().map(|(index, stood)| {
            let ([a, b], [c, d]) = (stood.body.cap(0), stood.body.cap(1));
            GeomWithData::new(Rectangle::from_aabb(around(&[a, b, c, d], 0.0)), index)
        });
        let tree = RTree::bulk_load(boxes.collect());
        Self { walls, tree }
    }

    /// The other walls of the level that may be near an end, in their order.
    fn near(&self, index: usize, end: usize) -> Vec<usize> {
        let stood = &self.walls[index];
        let here = around(&stood.body.cap(end), GAP_MAX);
        let near = self.tree.locate_in_envelope_intersecting(here).map(|one| one.data);
        let mut near: Vec<usize> = near
            .filter(|other| *other != index && self.walls[*other].level == stood.level)
            .collect();
        near.sort_unstable();
        near
    }

    /// Whether an end of a wall touches another wall, or comes out of one.
    fn is_met(&self, index: usize, end: usize, near: &[usize]) -> bool {
        let body = &self.walls[index].body;
        let (from, out) = (body.ends[end], body.out(end));
        let back = (from.0 - out.0 * STUB, from.1 - out.1 * STUB);
        near.iter().map(|other| &self.walls[*other].body).any(|other| {
            let across = cross(out, other.way).abs() >= SINE_MIN;
            other.distance(body.cap(end)) < GAP_MIN || (across && other.distance([from, back]) < ON)
        })
    }

    /// The corner that an end of a wall leaves open towards another wall.
    fn corner(&self, index: usize, end: usize, other: usize) -> Option<OpenCorner> {
        let (own, met) = (&self.walls[index], &self.walls[other]);
        let (from, out) = (own.body.ends[end], own.body.out(end));
        let sine = cross(out, met.body.way);
        if sine.abs() < SINE_MIN {
            return None;
        }
        let off = from_to(from, met.body.ends[0]);
        // How far on their centre lines cross, and how far along the other.
        let on = cross(off, met.body.way) / sine;
        let meets = (from.0 + out.0 * on, from.1 + out.1 * on);
        let along = dot(from_to(met.body.ends[0], meets), met.body.way);
        // An end that is where it belongs is not what leaves the corner open:
        // that is the other wall's to tell.
        if on <= ON {
            return None;
        }
        let other_end = if along < -ON {
            Some(0)
        } else if along > met.body.length + ON {
            Some(1)
        } else {
            None
        };
        let mut gap = met.body.distance(own.body.cap(end));
        if let Some(far) = other_end {
            // It runs on only where nothing holds it.
            if met.body.length <= PIER * 2.0 * met.body.half
                || self.is_met(other, far, &self.near(other, far))
            {
                return None;
            }
            gap = gap.min(own.body.distance(met.body.cap(far)));
        }
        let nearer = other_end.map_or(meets, |far| met.body.ends[far]);
        let middle = (f64::midpoint(from.0, nearer.0), f64::midpoint(from.1, nearer.1));
        let corner = OpenCorner {
            wall: (own.id, end == 0),
            other: met.id,
            other_end: other_end.map(|far| far == 0),
            gap: Mm::from_f64(gap).ok()?,
            meets: place(meets)?,
            middle: place(middle)?,
            level: own.level,
        };
        (gap <= GAP_MAX).then_some(corner)
    }
}

fn place((x, y): Spot) -> Option<Point2> {
    Some(Point2 { x: Mm::from_f64(x).ok()?, y: Mm::from_f64(y).ok()? })
}

fn around(spots: &[Spot], reach: f64) -> AABB<[f64; 2]> {
    let corners: Vec<[f64; 2]> =
        spots.iter().flat_map(|(x, y)| [[x - reach, y - reach], [x + reach, y + reach]]).collect();
    AABB::from_points(&corners)
}
