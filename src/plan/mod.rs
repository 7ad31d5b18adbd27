//! What was drawn: levels, walls, openings, rooms, voids, areas, points,
//! boards, circuits, allowances, stock, prices, measurements and readings.
//!
//! Plain data with typed ids. A plan can always be held, however unfinished;
//! what is missing becomes a [`Finding`]. It changes only by an [`Edit`]. This
//! room knows no files, no routes and no rules.

mod allowances;
mod as_built;
mod backdrop;
mod board;
mod circuit;
mod corners;
mod day;
mod difference;
mod edit;
mod faces;
mod finding;
mod history;
mod id;
mod isolation;
mod kept;
mod label;
mod level;
mod limits;
mod marking;
mod place;
mod point;
mod project;
mod reading;
mod references;
mod regime;
mod renumber;
mod review;
mod room;
mod room_words;
mod stock;
mod wall;

use indexmap::IndexMap;
use schemars::JsonSchema;
use serde::{Deserialize, Serialize};

pub use allowances::{Allowances, Habits, WallZones};
pub use as_built::{LegEntry, PlannedLeg, ReadingEntry, Stage};
pub use backdrop::Backdrop;
pub use board::{Board, Earthing, Supply};
pub use circuit::{
    Cable, CableMake, Circuit, CircuitUse, Curve, Device, LoopAt, Pin, PinPlace, Spur, Way, Wiring,
};
pub use corners::{CornerError, OpenCorner, close_corner, close_corners, open_corners};
pub use day::is_day;
pub use edit::{Change, Edit, EditError};
pub use faces::{Corner, Edge, FacePiece, Faces, Hand, SetOut, Shape, Span, faces};
pub use finding::{Finding, Severity, Subject};
pub use history::History;
pub use id::{
    AreaId, BoardId, CircuitId, ControlId, IdError, LevelId, OpeningId, PointId, RiserId, RoomId,
    VoidId, WallId,
};
pub use isolation::{Isolation, isolations};
pub use kept::{Issue, Kept, KeptCircuit, KeptLeg, Mark};
pub use label::{Labels, circuits_by_board, labels};
pub use level::{Access, Joists, Level, Riser, Void, VoidKind};
pub use limits::Beyond;
pub use place::outline_holds;
pub use point::{Control, End, Family, OnLevel, OnPost, OnWall, Place, Point, PointKind};
pub use project::{AsPlanned, Project, Status};
pub use reading::{Reading, Reads, Test};
pub use references::Reference;
pub use regime::{Regime, RegimeError};
pub use renumber::Renumber;
pub use review::review;
pub use room::{Area, AreaEffect, Plane, Room, RoomUse};
pub use room_words::{RoomWord, room_word};
pub use stock::{Drum, Labour, Measured, OffCut, PriceBook, PriceItem, Stock, TaskMinutes};
pub use wall::{Face, Hinge, Opening, OpeningKind, Wall, WallBuild};

/// A whole job as drawn. All maps keep the order of drawing.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, default)]
pub struct Plan {
    /// What the title block says.
    pub project: Project,
    /// Storeys.
    pub levels: IndexMap<LevelId, Level>,
    /// Spaces above, between and below the storeys, and the ground.
    pub voids: IndexMap<VoidId, Void>,
    /// Walls.
    pub walls: IndexMap<WallId, Wall>,
    /// Doors, windows and holes.
    pub openings: IndexMap<OpeningId, Opening>,
    /// Rooms.
    pub rooms: IndexMap<RoomId, Room>,
    /// Keep-outs, preferred ways and other areas with a rule of their own.
    pub areas: IndexMap<AreaId, Area>,
    /// Pictures to draw over, at most one beneath each level.
    #[serde(skip_serializing_if = "IndexMap::is_empty")]
    pub backdrops: IndexMap<LevelId, Backdrop>,
    /// Shafts and ducts between voids.
    pub risers: IndexMap<RiserId, Riser>,
    /// Distribution boards.
    pub boards: IndexMap<BoardId, Board>,
    /// Circuits.
    pub circuits: IndexMap<CircuitId, Circuit>,
    /// Points.
    pub points: IndexMap<PointId, Point>,
    /// Which switches work which lights.
    pub controls: IndexMap<ControlId, Control>,
    /// What is added to a leg's geometry.
    pub allowances: Allowances,
    /// What steers the routes.
    pub habits: Habits,
    /// What cable can be cut from.
    pub stock: Stock,
    /// What things cost.
    pub prices: PriceBook,
    /// Legs as they were really cut and pulled.
    pub measured: Vec<Measured>,
    /// Readings taken on site.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub readings: Vec<Reading>,
    /// What things are called for good.
    #[serde(skip_serializing_if = "Kept::is_empty")]
    pub kept: Kept,
    /// The number that the next id of any kind will carry.
    pub next_id: u32,
}
