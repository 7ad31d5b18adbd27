//! What every paper is drawn from.

use std::sync::OnceLock;

use crate::lengths::{LegLength, Lengths};
use crate::plan::{
    Circuit, CircuitId, End, Face, Faces, Labels, Measured, OnWall, Place, Plan, faces, labels,
};
use crate::runs::{Leg, Runs};
use crate::units::Mm;
use crate::wording::{self, Local};

/// A plan with what the rooms above made of it, and the marks of its points.
#[derive(Clone, Debug)]
pub struct House<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its runs.
    pub runs: &'a Runs,
    /// Their lengths.
    pub lengths: &'a Lengths,
    /// The marks of points and boards.
    pub marks: Labels,
    /// How the papers of its rules speak.
    pub local: Local,
    /// How many faults its checks have found.
    pub faults: usize,
    /// The finished faces of its walls, once something asks for them.
    faces: OnceLock<Faces>,
}

/// A leg with its circuit and its lengths.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Cut<'a> {
    /// The circuit's place in the plan: it decides colour and mark.
    pub(crate) index: usize,
    pub(crate) circuit: &'a Circuit,
    pub(crate) leg: &'a Leg,
    pub(crate) length: &'a LegLength,
}

impl Cut<'_> {
    /// Circuit and leg, as the drawings have it: `3.2`.
    pub(crate) fn number(&self) -> String {
        format!("{}.{}", self.circuit.number, self.leg.number)
    }
}

impl<'a> House<'a> {
    /// From a routed and measured plan, whose rules' papers speak so: see
    /// `RuleBook::local`.
    #[must_use]
    pub fn new(plan: &'a Plan, runs: &'a Runs, lengths: &'a Lengths, local: Local) -> Self {
        let (marks, faces) = (labels(plan), OnceLock::new());
        Self { plan, runs, lengths, marks, local, faults: 0, faces }
    }

    /// The same, of which so many faults are known.
    #[must_use]
    pub fn with_faults(self, faults: usize) -> Self {
        Self { faults, ..self }
    }

    /// The finished faces of its walls, from which everything is set out.
    pub fn faces(&self) -> &Faces {
        self.faces.get_or_init(|| faces(self.plan))
    }

    /// Every leg, circuit by circuit.
    pub(crate) fn cuts(&self) -> Vec<Cut<'a>> {
        let ids = self.plan.circuits.keys();
        ids.flat_map(|id| self.cuts_of(*id)).collect()
    }

    /// The legs of a circuit.
    pub(crate) fn cuts_of(&self, id: CircuitId) -> Vec<Cut<'a>> {
        let found = self.plan.circuits.get_full(&id).zip(self.runs.circuits.get(&id));
        let Some(((index, _, circuit), run)) = found else { return Vec::new() };
        let lengths = self.lengths.circuits.get(&id).into_iter().flatten();
        run.legs
            .iter()
            .zip(lengths)
            .map(|(leg, length)| Cut { index, circuit, leg, length })
            .collect()
    }

    /// What was measured of a leg.
    pub(crate) fn measurement(&self, cut: &Cut<'_>) -> Option<&'a Measured> {
        self.plan.measurement(cut.leg.circuit, [cut.leg.from, cut.leg.to])
    }

    /// The name of the room that an end looks into; empty where there is none.
    pub(crate) fn room_of(&self, end: End) -> &'a str {
        let room = self.plan.place_of(end).and_then(|place| self.plan.room_of(&place));
        room.and_then(|id| self.plan.rooms.get(&id)).map_or("", |room| room.name.as_str())
    }

    /// The room that an end looks into; outdoors the wall that it is on or
    /// beside, by the room behind it: `outside, by Kitchen wall W2`. Empty for
    /// what has no place.
    pub(crate) fn whereabouts(&self, end: End) -> String {
        let room = self.room_of(end);
        if !room.is_empty() {
            return room.to_owned();
        }
        let Some(place) = self.plan.place_of(end) else { return String::new() };
        let beside = match place {
            Place::Wall(on) => Some(on),
            _ => self.nearest_wall(&place),
        };
        let by = beside.and_then(|on| {
            let behind = OnWall { face: opposite(on.face), ..on };
            let room = self.plan.room_of(&Place::Wall(behind))?;
            let room = &self.plan.rooms.get(&room)?.name;
            Some(format!("outside, by {room} wall {}", self.wall_name(&on)))
        });
        by.unwrap_or_else(|| "outside".to_owned())
    }

    /// What drawings call the face of a wall at a place.
    pub(crate) fn wall_name(&self, on: &OnWall) -> String {
        let found = self.faces().nearest(on);
        found.map_or_else(|| on.wall.to_string(), |(piece, _)| piece.name.clone())
    }

    /// The outer face nearest to a place outdoors that has a room behind it.
    fn nearest_wall(&self, place: &Place) -> Option<OnWall> {
        let (level, at) = (self.plan.level_of(place)?, self.plan.position(place)?);
        let walls = self.plan.walls.iter().filter(|(_, wall)| wall.level == level);
        let near = walls.filter_map(|(id, wall)| {
            let ((dx, dy), length) = (wall.direction(), wall.length());
            let (x, y) = ((at.x - wall.a.x).to_f64(), (at.y - wall.a.y).to_f64());
            let (along, off) = ((x * dx + y * dy).clamp(0.0, length), y * dx - x * dy);
            let away = libm::hypot(x - dx * along, y - dy * along);
            let face = if off > 0.0 { Face::Left } else { Face::Right };
            let along = Mm::from_f64(along).ok()?;
            let on = OnWall { wall: *id, along, height: Mm::ZERO, face };
            let is_outer = self.plan.room_of(&Place::Wall(on)).is_none();
            let behind = Place::Wall(OnWall { face: opposite(face), ..on });
            (is_outer && self.plan.room_of(&behind).is_some()).then_some((away, on))
        });
        near.min_by(|a, b| a.0.total_cmp(&b.0)).map(|(_, on)| on)
    }

    /// What an end is and where: `double socket-outlet, kitchen, 0.30 m up`.
    pub(crate) fn describe(&self, end: End) -> String {
        let what = match end {
            End::Board(_) => "distribution board".to_owned(),
            End::Point(id) => self.plan.points.get(&id).map_or_else(String::new, |point| {
                let gangs =
                    if point.gangs > 1 { format!("{}-gang ", point.gangs) } else { String::new() };
                format!("{gangs}{}", point.kind.name())
            }),
        };
        let room = self.whereabouts(end);
        let height = self.plan.place_of(end).map_or("not placed yet".to_owned(), |p| height(&p));
        if room.is_empty() {
            format!("{what}, {height}")
        } else {
            format!("{what}, {room}, {height}")
        }
    }
}

const fn opposite(face: Face) -> Face {
    match face {
        Face::Left => Face::Right,
        Face::Right => Face::Left,
    }
}

/// How high something is, in words.
pub(crate) fn height(place: &Place) -> String {
    match place {
        Place::Wall(on) => format!("{} up", wording::metres(on.height)),
        Place::Ceiling(_) => "ceiling".to_owned(),
        Place::Floor(_) => "floor".to_owned(),
        Place::Post(on) => format!("on a post, {} up", wording::metres(on.height)),
    }
}
