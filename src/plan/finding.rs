//! Something that a person should look at.

use serde::Serialize;

use super::{
    AreaId, BoardId, CircuitId, ControlId, End, LevelId, OpeningId, PointId, RiserId, RoomId,
    VoidId, WallId,
};
use crate::units::Point3;

/// Something about the plan that a person should look at. It never stops
/// anything: a stage returns its result *and* all findings.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Finding {
    /// A short stable name: `unplaced-point`.
    pub code: &'static str,
    /// How bad it is.
    pub severity: Severity,
    /// What it is about.
    pub subject: Subject,
    /// Where it is, if it is anywhere.
    pub place: Option<Point3>,
    /// What is the matter, lower case without a full stop, naming things as
    /// the drawing labels them.
    pub message: String,
    /// What was measured, with its unit. Empty where nothing is measured.
    pub measured: String,
    /// What it is held against, with its unit.
    pub limit: String,
    /// Where the limit comes from.
    pub source: String,
    /// What would mend it, and what the mend would do.
    pub remedy: String,
}

/// How bad a finding is; worst last, so that it sorts by rising weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Severity {
    /// Good to know.
    Note,
    /// Something is still missing, so that a result could not be had.
    Missing,
    /// Close to a limit, or unusual.
    Warning,
    /// A limit is passed, or something cannot be built as drawn.
    Fault,
}

/// What a finding is about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each holds the id of the thing it is named after")]
pub enum Subject {
    Plan,
    Level(LevelId),
    Void(VoidId),
    Wall(WallId),
    Opening(OpeningId),
    Room(RoomId),
    Area(AreaId),
    Riser(RiserId),
    Point(PointId),
    Control(ControlId),
    Board(BoardId),
    Circuit(CircuitId),
    Leg { circuit: CircuitId, from: End, to: End },
}

impl Finding {
    /// A finding without a measured value.
    #[must_use]
    pub fn new(
        code: &'static str,
        severity: Severity,
        subject: Subject,
        message: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self {
            code,
            severity,
            subject,
            place: None,
            message: message.into(),
            measured: String::new(),
            limit: String::new(),
            source: String::new(),
            remedy: remedy.into(),
        }
    }

    /// The same, with its place.
    #[must_use]
    pub fn at(self, place: Point3) -> Self {
        Self { place: Some(place), ..self }
    }

    /// The same, with what was measured, the limit, and the limit's source.
    #[must_use]
    pub fn against(
        self,
        measured: impl Into<String>,
        limit: impl Into<String>,
        source: impl Into<String>,
    ) -> Self {
        Self { measured: measured.into(), limit: limit.into(), source: source.into(), ..self }
    }
}
