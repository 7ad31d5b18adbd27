//! A plan while points are added to it.

use std::collections::{BTreeMap, BTreeSet};

use serde::Serializer;

use super::middles::Middles;
use super::standard;
use super::{DraftOptions, Reason};
use crate::plan::{
    Control, ControlId, Face, Family, OnLevel, OnWall, Place, Plan, Point, PointId, PointKind,
    Regime, RoomId, Subject, WallId,
};
use crate::rules::words::{ClearanceOf, MountedAt, PlacingOf, RoomOrEntrance};
use crate::rules::{RuleBook, Tables};
use crate::units::{Mm, Point2};

/// A plan being drafted, and why it became what it is.
pub(super) struct Kit<'a> {
    pub(super) plan: Plan,
    pub(super) rules: &'a RuleBook,
    pub(super) options: &'a DraftOptions,
    pub(super) regime: Regime,
    pub(super) reasons: Vec<Reason>,
    /// Rooms that no one lives in: shafts, lifts.
    pub(super) shafts: BTreeSet<RoomId>,
    /// Where walls stand, which no draft changes.
    pub(super) middles: Middles,
    /// Boxes on every face: along and height.
    boxes: BTreeMap<(WallId, Face), Vec<(i64, i64)>>,
    /// What was drawn before the draft, by room.
    drawn: BTreeSet<(RoomId, Family)>,
    /// The points that the draft added in each room.
    pub(super) added: BTreeMap<RoomId, Vec<PointId>>,
}

impl<'a> Kit<'a> {
    pub(super) fn new(mut plan: Plan, rules: &'a RuleBook, options: &'a DraftOptions) -> Self {
        if let Some(regime) = options.regime {
            plan.project.regime = regime;
        }
        let regime = plan.project.regime;
        let mut boxes: BTreeMap<(WallId, Face), Vec<(i64, i64)>> = BTreeMap::new();
        let mut drawn = BTreeSet::new();
        for point in plan.points.values() {
            let Some(place) = point.place else { continue };
            if let Place::Wall(on) = place {
                boxes
                    .entry((on.wall, on.face))
                    .or_default()
                    .push((on.along.get(), on.height.get()));
            }
            if let Some(room) = plan.room_of(&place) {
                drawn.insert((room, point.kind.family()));
            }
        }
        Self {
            middles: Middles::of(&plan),
            plan,
            rules,
            options,
            regime,
            reasons: Vec::new(),
            shafts: BTreeSet::new(),
            boxes,
            drawn,
            added: BTreeMap::new(),
        }
    }

    /// The rule tables of its regime.
    pub(super) fn tables(&self) -> &'a Tables {
        self.rules.of(self.regime)
    }

    pub(super) fn next_id(&mut self) -> u32 {
        self.plan.next_id += 1;
        self.plan.next_id - 1
    }

    pub(super) fn reason(
        &mut self,
        subject: Subject,
        chosen: impl Into<String>,
        because: impl Into<String>,
    ) {
        self.reasons.push(Reason { subject, chosen: chosen.into(), because: because.into() });
    }

    /// Whether a room already had points of a family.
    pub(super) fn has_drawn(&self, room: RoomId, family: Family) -> bool {
        self.drawn.contains(&(room, family))
    }

    /// How many of an item a room gets, and the source of that.
    pub(super) fn count(&self, room: RoomId, item: PointKind) -> (usize, String) {
        let drawn = &self.plan.rooms[&room];
        let area = super::outline::area_m2(&drawn.outline);
        let by = (self.tables(), self.options.standard);
        standard::count(by, RoomOrEntrance::Room(drawn.usage), item, area)
    }

    /// A height from the table, kept below the ceiling.
    pub(super) fn height(&self, level: crate::plan::LevelId, what: MountedAt) -> Mm {
        let asked = self.tables().set_height.row(what).height.whole();
        let most = self.plan.levels.get(&level).map_or(asked, |level| level.height - Mm::new(100));
        asked.min(most).max(Mm::ZERO)
    }

    /// A distance from the table `placing`, mm.
    pub(super) fn distance(&self, what: PlacingOf) -> i64 {
        self.tables().placing.row(what).distance.whole().get()
    }

    /// A clearance of the rules, mm.
    pub(super) fn clearance(&self, what: ClearanceOf) -> i64 {
        self.tables().clearance.row(what).distance.whole().get()
    }

    /// Whether a box would touch another on the same face.
    pub(super) fn is_taken(&self, wall: WallId, face: Face, along: i64, height: i64) -> bool {
        let boxes = self.boxes.get(&(wall, face));
        boxes.is_some_and(|boxes| {
            boxes.iter().any(|(at, z)| (at - along).abs() < 120 && (z - height).abs() < 150)
        })
    }

    pub(super) fn take(&mut self, on: &OnWall) {
        let boxes = self.boxes.entry((on.wall, on.face)).or_default();
        boxes.push((on.along.get(), on.height.get()));
    }

    /// Adds a point to a room.
    pub(super) fn add(
        &mut self,
        room: RoomId,
        kind: PointKind,
        place: Place,
        gangs: u8,
    ) -> PointId {
        if let Place::Wall(on) = &place {
            self.take(on);
        }
        let id = PointId(self.next_id());
        let load = standard::load(self.tables(), kind);
        let point = Point { place: Some(place), gangs, load, ..Point::new(kind) };
        self.plan.points.insert(id, point);
        self.added.entry(room).or_default().push(id);
        id
    }

    pub(super) fn add_on_wall(
        &mut self,
        room: RoomId,
        kind: PointKind,
        (wall, face, along): (WallId, Face, i64),
        height: Mm,
        gangs: u8,
    ) -> PointId {
        let on = OnWall { wall, along: Mm::new(along), height, face };
        self.add(room, kind, Place::Wall(on), gangs)
    }

    pub(super) fn add_on_ceiling(&mut self, room: RoomId, kind: PointKind, at: Point2) -> PointId {
        let level = self.plan.rooms[&room].level;
        self.add(room, kind, Place::Ceiling(OnLevel { level, at }), 1)
    }

    pub(super) fn control(&mut self, lights: Vec<PointId>, switches: Vec<PointId>) {
        let id = ControlId(self.next_id());
        self.plan.controls.insert(id, Control { lights, switches, in_order: false });
    }

    /// Whether a cable reaches the ceiling of a room.
    pub(super) fn ceiling_carries(&self, room: RoomId) -> bool {
        let level = self.plan.levels.get(&self.plan.rooms[&room].level);
        level.is_some_and(|level| !level.above.is_empty())
    }

    /// The points of some kinds that were added in a room.
    pub(super) fn added_of(&self, room: RoomId, family: Family) -> Vec<PointId> {
        let of = |id: &&PointId| self.plan.points[*id].kind.family() == family;
        self.added.get(&room).map_or_else(Vec::new, |ids| ids.iter().filter(of).copied().collect())
    }
}

pub(super) fn subject_text<S: Serializer>(subject: &Subject, to: S) -> Result<S::Ok, S::Error> {
    to.serialize_str(&name(subject))
}

/// What a reason is about, by its id.
pub(super) fn name(subject: &Subject) -> String {
    match subject {
        Subject::Plan => "plan".to_owned(),
        Subject::Level(id) => id.to_string(),
        Subject::Void(id) => id.to_string(),
        Subject::Wall(id) => id.to_string(),
        Subject::Opening(id) => id.to_string(),
        Subject::Room(id) => id.to_string(),
        Subject::Area(id) => id.to_string(),
        Subject::Riser(id) => id.to_string(),
        Subject::Point(id) => id.to_string(),
        Subject::Control(id) => id.to_string(),
        Subject::Board(id) => id.to_string(),
        Subject::Circuit(id) => id.to_string(),
        Subject::Leg { from, to, .. } => format!("{from} to {to}"),
    }
}
