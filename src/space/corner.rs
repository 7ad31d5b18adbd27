//! Where walls meet: corner strips, their columns, and the turns between them.

use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use super::bare_wall::Bare;
use super::{Column, Meet, Rect, WallField};
use crate::plan::Plan;
use crate::units::Point2;

/// How near a wall's end must be to another's centre line or end to meet it,
/// mm, beyond the other's half thickness: drawings are never quite exact.
const NEAR: f64 = 20.0;

/// The corner strips of all walls, and where these meet.
pub(super) struct Corners {
    /// For every wall, the columns in the middle of its strips.
    pub(super) columns: Vec<Vec<Column>>,
    pub(super) pairs: Vec<Pair>,
}

/// Two walls that meet.
#[derive(Debug)]
pub(super) struct Pair {
    pub(super) one: usize,
    pub(super) other: usize,
    at: Point2,
    /// How far along each of them that is.
    along: [i64; 2],
    /// From which columns cables can turn into which.
    pub(super) meets: Vec<Meet>,
}

impl Corners {
    pub(super) fn of(plan: &Plan, walls: &[Bare]) -> Self {
        let strip = plan.habits.zones.strip.get();
        let half = |wall: &Bare| {
            plan.walls.get(&wall.field.id).map_or(0.0, |drawn| drawn.thickness.to_f64() / 2.0)
        };
        let halves: Vec<f64> = walls.iter().map(half).collect();
        let boxes: Vec<Rect> =
            walls.iter().zip(&halves).map(|(wall, half)| around(&wall.field, *half)).collect();
        // For every wall, the places along it where others touch it.
        let mut touches: Vec<Vec<Touch>> = vec![Vec::new(); walls.len()];
        let mut pairs = Vec::new();
        let numbered = boxes
            .iter()
            .enumerate()
            .map(|(number, rect)| GeomWithData::new(Rectangle::from_aabb(envelope(rect)), number));
        let tree = RTree::bulk_load(numbered.collect());
        for one in 0..walls.len() {
            let near = tree.locate_in_envelope_intersecting(envelope(&boxes[one]));
            let mut near: Vec<usize> = near.map(|other| other.data).filter(|o| *o > one).collect();
            near.sort_unstable();
            for other in near.into_iter().filter(|other| walls[one].level == walls[*other].level) {
                let (field, met) = (&walls[one].field, &walls[other].field);
                if let Some(at) = meeting(field, met, halves[one], halves[other]) {
                    let along = [along(field, at), along(met, at)];
                    touches[one].push(Touch { along: along[0], half: halves[other] });
                    touches[other].push(Touch { along: along[1], half: halves[one] });
                    pairs.push(Pair { one, other, at, along, meets: Vec::new() });
                }
            }
        }
        let strips = walls.iter().zip(&touches);
        let columns =
            strips.map(|(wall, touches)| corner_columns(wall.field.length, strip, touches));
        Self { columns: columns.collect(), pairs }
    }
}

impl Pair {
    /// Finds the columns from which cables can turn, as the walls are furnished.
    pub(super) fn meet(&mut self, walls: &[Bare]) {
        let from = beside(&walls[self.one], self.along[0]);
        let to = beside(&walls[self.other], self.along[1]);
        let both = from.iter().flat_map(|from| to.iter().map(move |to| (*from, *to)));
        let (one, other, at) = (self.one, self.other, self.at);
        let meet = |(from, to)| Meet { one: (one, from), other: (other, to), at };
        self.meets = both.map(meet).collect();
    }
}

/// A box that holds all that a wall can meet.
fn around(wall: &WallField, half: f64) -> Rect {
    #[expect(clippy::cast_possible_truncation, reason = "half a wall's thickness")]
    let reach = libm::ceil(half + NEAR) as i64 + 1;
    Rect::new(wall.a.x.get(), wall.a.y.get(), wall.b.x.get(), wall.b.y.get()).grown(reach)
}

fn envelope(rect: &Rect) -> AABB<[i64; 2]> {
    AABB::from_corners([rect.u0, rect.v0], [rect.u1, rect.v1])
}

#[derive(Clone, Copy)]
struct Touch {
    along: i64,
    half: f64,
}

/// The middles of the corner strips of a wall: beside each of its ends and on
/// both sides of every wall that touches it.
fn corner_columns(length: i64, strip: i64, touches: &[Touch]) -> Vec<Column> {
    let half = |at: i64| {
        let near = touches.iter().filter(|touch| (touch.along - at).abs() <= 30);
        #[expect(clippy::cast_possible_truncation, reason = "half a wall's thickness")]
        near.map(|touch| libm::ceil(touch.half) as i64).max().unwrap_or(0)
    };
    let middle = strip.div_euclid(2);
    let mut columns = vec![half(0) + middle, length - half(length) - middle];
    for touch in touches {
        columns.push(touch.along - half(touch.along) - middle);
        columns.push(touch.along + half(touch.along) + middle);
    }
    let mut columns: Vec<Column> = columns
        .into_iter()
        .filter(|along| (0..=length).contains(along))
        .map(|along| Column { along, through: true })
        .collect();
    columns.sort_unstable();
    columns.dedup();
    columns
}

/// The columns from which a cable can turn at a place along a wall: on either
/// side the middle of the strip, and the accessories between it and the corner.
fn beside(wall: &Bare, at: i64) -> Vec<i64> {
    let strips = || wall.corners.iter().map(|column| column.along);
    let before = strips().filter(|along| *along < at).max();
    let after = strips().filter(|along| *along > at).min();
    let near = before.unwrap_or(at)..=after.unwrap_or(at);
    let hung = wall.hung.iter().map(|(along, _)| *along);
    let mut columns: Vec<i64> = strips().chain(hung).filter(|along| near.contains(along)).collect();
    columns.sort_unstable();
    columns.dedup();
    columns
}

/// Where an end of one wall touches the other, if it does.
fn meeting(one: &WallField, other: &WallField, half_one: f64, half_other: f64) -> Option<Point2> {
    let ends = [(one.a, other, half_other), (one.b, other, half_other)];
    let back = [(other.a, one, half_one), (other.b, one, half_one)];
    ends.into_iter()
        .chain(back)
        .find(|(end, wall, half)| gap(*end, wall) <= half + NEAR)
        .map(|(end, _, _)| end)
}

/// From a place to the nearest place on a wall's centre line.
fn gap(place: Point2, wall: &WallField) -> f64 {
    let nearest = wall.page(along(wall, place));
    place.distance(nearest)
}

/// How far along a wall the place nearest to another place is.
fn along(wall: &WallField, place: Point2) -> i64 {
    let step = wall.b - wall.a;
    let (dx, dy) = (step.x.to_f64(), step.y.to_f64());
    let length = libm::hypot(dx, dy);
    if length == 0.0 {
        return 0;
    }
    let from = place - wall.a;
    let along = (from.x.to_f64() * dx + from.y.to_f64() * dy) / length;
    #[expect(clippy::cast_possible_truncation, reason = "no longer than the plan is wide")]
    let along = libm::round(along) as i64;
    along.clamp(0, wall.length)
}
