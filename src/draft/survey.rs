//! A level seen from inside its rooms: which stretches of wall look into each,
//! and which doors lead where.

use std::collections::BTreeMap;

use super::gaps::{self, Gap};
use super::grid::bounds_of;
use super::numbers::{real, whole};
use super::room_finder::RoomFinder;
use super::walls_by_level::Walls;
use crate::plan::{Face, LevelId, OpeningId, OpeningKind, Plan, RoomId, Wall, WallBuild, WallId};
use crate::units::Point2;

/// From sample to sample along a wall, mm.
const STEP: i64 = 50;
/// Off the face into the room, past linings and roundings, mm.
const OFF: f64 = 60.0;

/// A stretch of a face that looks into one room, doors and windows included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Span {
    pub(super) room: RoomId,
    pub(super) wall: WallId,
    pub(super) face: Face,
    pub(super) from: i64,
    pub(super) to: i64,
}

/// A way into a room, seen from that room.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Door {
    pub(super) opening: OpeningId,
    pub(super) wall: WallId,
    pub(super) face: Face,
    pub(super) from: i64,
    pub(super) to: i64,
    pub(super) kind: OpeningKind,
    /// The room on the other side. None: outdoors, or not drawn.
    pub(super) beyond: Option<RoomId>,
}

/// What was seen.
pub(super) struct Survey {
    pub(super) spans: Vec<Span>,
    by_room: BTreeMap<RoomId, Vec<usize>>,
    doors: BTreeMap<RoomId, Vec<Door>>,
    openings: BTreeMap<WallId, Vec<OpeningId>>,
    gaps: BTreeMap<RoomId, Vec<Gap>>,
    finder: RoomFinder,
}

impl Survey {
    pub(super) fn of(plan: &Plan) -> Self {
        let mut survey = Self {
            spans: Vec::new(),
            by_room: plan.rooms.keys().map(|id| (*id, Vec::new())).collect(),
            doors: BTreeMap::new(),
            openings: BTreeMap::new(),
            gaps: BTreeMap::new(),
            finder: RoomFinder::of(plan),
        };
        for (id, opening) in &plan.openings {
            survey.openings.entry(opening.wall).or_default().push(*id);
        }
        let walls = Walls::of(plan);
        for (id, wall) in &plan.walls {
            if wall.build == WallBuild::Screen {
                continue;
            }
            let end = |end: Point2| (end.x.to_f64(), end.y.to_f64());
            let reach = bounds_of(end(wall.a), end(wall.b), wall.thickness.to_f64() + 500.0);
            let beside = walls.around(wall.level, reach);
            for face in [Face::Left, Face::Right] {
                survey.walk(*id, wall, face, &beside);
            }
        }
        for (id, opening) in &plan.openings {
            if opening.kind != OpeningKind::Window {
                survey.enter(plan, *id);
            }
        }
        survey.gaps = gaps::of(plan, &survey.finder, &walls);
        survey
    }

    /// Every room with an outline.
    pub(super) fn rooms(&self) -> impl Iterator<Item = RoomId> + '_ {
        self.by_room.keys().copied()
    }

    pub(super) fn spans_of(&self, room: RoomId) -> impl Iterator<Item = &Span> {
        let indices = self.by_room.get(&room).map_or(&[][..], Vec::as_slice);
        indices.iter().map(|index| &self.spans[*index])
    }

    pub(super) fn doors_of(&self, room: RoomId) -> &[Door] {
        self.doors.get(&room).map_or(&[], Vec::as_slice)
    }

    /// Where a room goes over into others with no wall between.
    pub(super) fn gaps_of(&self, room: RoomId) -> &[Gap] {
        self.gaps.get(&room).map_or(&[], Vec::as_slice)
    }

    /// The openings of a wall.
    pub(super) fn openings_of(&self, wall: WallId) -> &[OpeningId] {
        self.openings.get(&wall).map_or(&[], Vec::as_slice)
    }

    pub(super) fn room_at(&self, level: LevelId, x: f64, y: f64) -> Option<RoomId> {
        self.finder.at(level, x, y)
    }

    /// Samples a face.
    fn walk(&mut self, id: WallId, wall: &Wall, face: Face, others: &[(WallId, &Wall)]) {
        let length = whole(wall.length());
        let hidden = hidden(id, wall, face, others);
        let is_hidden = |along: i64| hidden.iter().any(|(from, to)| *from < along && along < *to);
        let (nx, ny) = wall.normal(face);
        let (dx, dy) = wall.direction();
        let off = wall.thickness.to_f64() / 2.0 + OFF;
        let mut open: Option<Span> = None;
        let mut along = 0;
        while along <= length {
            let far = real(along);
            let (x, y) =
                (wall.a.x.to_f64() + dx * far + nx * off, wall.a.y.to_f64() + dy * far + ny * off);
            let room = if is_hidden(along) { None } else { self.finder.at(wall.level, x, y) };
            match (&mut open, room) {
                (Some(span), Some(room)) if span.room == room => span.to = along,
                _ => {
                    self.close(open.take());
                    open = room.map(|room| Span { room, wall: id, face, from: along, to: along });
                }
            }
            along += STEP;
        }
        self.close(open);
    }

    fn close(&mut self, span: Option<Span>) {
        if let Some(span) = span.filter(|span| span.to > span.from) {
            self.by_room.entry(span.room).or_default().push(self.spans.len());
            self.spans.push(span);
        }
    }

    fn enter(&mut self, plan: &Plan, id: OpeningId) {
        let opening = &plan.openings[&id];
        let Some(wall) = plan.walls.get(&opening.wall) else { return };
        let middle = wall.at((opening.from + opening.width.half()).to_f64());
        let side = |face| {
            let (nx, ny) = wall.normal(face);
            // Rooms may end a little short of the wall.
            [OFF, 200.0, 400.0].into_iter().find_map(|off| {
                let off = wall.thickness.to_f64() / 2.0 + off;
                let (x, y) = (middle.x.to_f64() + nx * off, middle.y.to_f64() + ny * off);
                self.finder.at(wall.level, x, y)
            })
        };
        let sides = [(Face::Left, side(Face::Left)), (Face::Right, side(Face::Right))];
        for (index, (face, room)) in sides.into_iter().enumerate() {
            let beyond = sides[1 - index].1;
            if let Some(room) = room.filter(|room| beyond != Some(*room)) {
                let (from, to) = (opening.from.get(), (opening.from + opening.width).get());
                let (wall, kind) = (opening.wall, opening.kind);
                let door = Door { opening: id, wall, face, from, to, kind, beyond };
                self.doors.entry(room).or_default().push(door);
            }
        }
    }
}

/// Stretches of a face behind the ends of walls that meet it there.
fn hidden(id: WallId, wall: &Wall, face: Face, others: &[(WallId, &Wall)]) -> Vec<(i64, i64)> {
    let (dx, dy) = wall.direction();
    let (nx, ny) = wall.normal(face);
    let half = wall.thickness.to_f64() / 2.0;
    let local = |at: Point2| {
        let (x, y) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
        (x * dx + y * dy, x * nx + y * ny)
    };
    let length = wall.length();
    let mut hidden = Vec::new();
    for (other_id, other) in others {
        if *other_id == id {
            continue;
        }
        let reach = half + other.thickness.to_f64() / 2.0 + 150.0;
        let ((s0, t0), (s1, t1)) = (local(other.a), local(other.b));
        if s0.max(s1) < -reach || s0.min(s1) > length + reach {
            continue;
        }
        // On this face's side, and come to it.
        if t0.max(t1) < half + 100.0 || t0.min(t1) > half + 150.0 {
            continue;
        }
        let slope = (t1 - t0).abs();
        let along = (s1 - s0).abs();
        if slope < along * 0.1 {
            continue;
        }
        let share = ((half - t0) / (t1 - t0)).clamp(0.0, 1.0);
        let at = s0 + share * (s1 - s0);
        let wide = other.thickness.to_f64() / 2.0 * libm::hypot(slope, along) / slope;
        hidden.push((whole(at - wide), whole(at + wide)));
    }
    hidden
}
