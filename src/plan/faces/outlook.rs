//! Into which rooms a piece looks.

use std::collections::BTreeMap;

use rstar::primitives::{GeomWithData, Rectangle};
use rstar::{AABB, RTree};

use super::super::{Face, LevelId, Place, Plan, RoomId, WallId, outline_holds};
use super::line::{outward, point};
use super::piece::{FacePiece, Span};
use crate::units::Point2;

/// How far in front of a face one looks, mm: past the lining and what rooms
/// may be drawn short of it. As [`Plan::room_of`] does.
const STEP: f64 = 60.0;
/// What is seen over less than this much of a face does not count, mm.
const LEAST: f64 = 100.0;

type Seen = GeomWithData<Rectangle<[f64; 2]>, (LevelId, RoomId)>;

/// Finds the rooms in front of every piece.
pub(super) fn look(plan: &Plan, pieces: &mut [FacePiece]) {
    let rooms = plan.rooms.iter().filter_map(|(id, room)| {
        let boxed = envelope(&room.outline)?;
        Some(GeomWithData::new(Rectangle::from_aabb(boxed), (room.level, *id)))
    });
    let tree = RTree::bulk_load(rooms.collect());
    let boxes = boxes(plan);
    for piece in pieces {
        let mut seen: Vec<(Option<RoomId>, f64)> = Vec::new();
        for span in &piece.spans {
            for (room, long) in in_front(plan, &tree, piece.level, span) {
                match seen.iter_mut().find(|one| one.0 == room) {
                    Some(one) => one.1 += long,
                    None => seen.push((room, long)),
                }
            }
        }
        let least = LEAST.min(piece.length / 3.0);
        seen.retain(|(_, long)| *long >= least);
        piece.is_outside = seen.iter().any(|(room, _)| room.is_none());
        piece.rooms = seen.into_iter().filter_map(|(room, _)| room).collect();
        // What a box on it looks into always counts.
        for span in &piece.spans {
            for place in boxes.get(&(span.wall, span.side)).into_iter().flatten() {
                let Place::Wall(on) = place else { continue };
                let holds = span.holds(on.along.to_f64());
                let room = holds.then(|| plan.room_of(place)).flatten();
                if let Some(room) = room.filter(|room| !piece.rooms.contains(room)) {
                    piece.rooms.push(room);
                }
            }
        }
    }
}

/// The places of the boxes on each face.
fn boxes(plan: &Plan) -> BTreeMap<(WallId, Face), Vec<Place>> {
    let points = plan.points.values().filter_map(|point| point.place);
    let mut boxes: BTreeMap<(WallId, Face), Vec<Place>> = BTreeMap::new();
    for place in points.chain(plan.boards.values().filter_map(|board| board.place)) {
        if let Place::Wall(on) = place {
            boxes.entry((on.wall, on.face)).or_default().push(place);
        }
    }
    boxes
}

fn envelope(outline: &[Point2]) -> Option<AABB<[f64; 2]>> {
    let places: Vec<[f64; 2]> = outline.iter().map(|at| [at.x.to_f64(), at.y.to_f64()]).collect();
    (places.len() > 2).then(|| AABB::from_points(places.iter()))
}

/// The rooms in front of a span from its left, each with how much of it.
fn in_front(
    plan: &Plan,
    tree: &RTree<Seen>,
    level: LevelId,
    span: &Span,
) -> Vec<(Option<RoomId>, f64)> {
    let Some(wall) = plan.walls.get(&span.wall) else { return Vec::new() };
    let way = kurbo::Vec2::from(wall.direction());
    let off = wall.thickness.to_f64() / 2.0 + STEP;
    let from = point(wall.a) + outward(way, span.side) * off;
    let ends = [span.from, span.to].map(|along| from + way * along);
    let [one, other] = ends.map(|at| [at.x, at.y]);
    let around = AABB::from_corners(one, other);
    let mut near: Vec<RoomId> = tree
        .locate_in_envelope_intersecting(around)
        .filter(|room| room.data.0 == level)
        .map(|room| room.data.1)
        .collect();
    near.sort_by_key(|id| plan.rooms.get_index_of(id));
    let mut cuts = vec![span.from, span.to];
    for room in near.iter().filter_map(|id| plan.rooms.get(id)) {
        let next = room.outline.iter().cycle().skip(1);
        for (one, other) in room.outline.iter().zip(next) {
            let (one, other) = (point(*one) - from, point(*other) - from);
            let (low, high) =
                (one.dot(outward(way, span.side)), other.dot(outward(way, span.side)));
            if (low > 0.0) != (high > 0.0) {
                let at = one + (other - one) * (low / (low - high));
                cuts.push(at.dot(way).clamp(span.from, span.to));
            }
        }
    }
    cuts.sort_by(f64::total_cmp);
    if span.side == Face::Left {
        cuts.reverse();
    }
    let seen = |along: f64| {
        let at = from + way * along;
        let holds = |id: &&RoomId| {
            plan.rooms.get(*id).is_some_and(|room| outline_holds(&room.outline, at.x, at.y))
        };
        near.iter().find(holds).copied()
    };
    let parts = cuts.windows(2).filter(|pair| (pair[1] - pair[0]).abs() > 0.0);
    parts.map(|pair| (seen(f64::midpoint(pair[0], pair[1])), (pair[1] - pair[0]).abs())).collect()
}
