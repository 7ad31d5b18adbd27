//! What lies between two finished corners.

use super::super::{Face, LevelId, RoomId, WallId};

/// How far past its end something may be drawn and still count as being on a
/// span, mm: ends and places of oblique walls are whole millimetres.
const SLACK: f64 = 2.0;

/// What lies between two finished corners of a face.
#[derive(Clone, Debug, PartialEq)]
pub struct FacePiece {
    /// What papers call it: `W6`, or `W6b` where the faces of that wall are
    /// cut up; `W6+W9b` where it spans several walls.
    pub name: String,
    /// Its level.
    pub level: LevelId,
    /// The walls it is of, from the left as one sees it; one, but where walls
    /// carry on flush.
    pub spans: Vec<Span>,
    /// From finished corner to finished corner, mm.
    pub length: f64,
    /// The corner at the left, as one sees it.
    pub left: Corner,
    /// The corner at the right.
    pub right: Corner,
    /// The rooms that it looks into, from the left; none where it looks
    /// outside, or where no room is drawn.
    pub rooms: Vec<RoomId>,
    /// Whether a part of it looks into no room.
    pub is_outside: bool,
}

/// The part of a piece that is of one wall.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span {
    /// The wall.
    pub wall: WallId,
    /// Which face of it.
    pub side: Face,
    /// Where it begins, from the wall's end `a`, mm. Outside corners lie before
    /// the end of the centre line or past it.
    pub from: f64,
    /// Where it ends, from the wall's end `a`, mm.
    pub to: f64,
    /// How far its left end is from the left corner of the piece, mm.
    pub start: f64,
}

/// Where a piece ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Corner {
    /// What shape it has.
    pub shape: Shape,
    /// The wall that is met there, if any.
    pub with: Option<WallId>,
}

/// The shape of a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shape {
    /// Another wall stands out there: the corner of a room.
    Inner,
    /// The face turns away there: the outside corner of a house, a step back.
    Outer,
    /// The wall ends, bare.
    Bare,
    /// No corner: the drawing goes round in a ring without one.
    Seam,
}

impl Span {
    /// How much of the wall it is, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.to - self.from
    }

    /// How far from the left corner of its piece a place is, by its distance
    /// from the wall's end `a`: a left face is seen with that end at the right.
    #[must_use]
    pub fn across(&self, along: f64) -> f64 {
        match self.side {
            Face::Left => self.start + self.to - along,
            Face::Right => self.start + along - self.from,
        }
    }

    /// The other way round: from the wall's end `a`, by its distance from the
    /// left corner of its piece.
    #[must_use]
    pub fn along(&self, across: f64) -> f64 {
        match self.side {
            Face::Left => self.start + self.to - across,
            Face::Right => across - self.start + self.from,
        }
    }

    /// Whether a place so far along its wall is on it, but for what rounding
    /// to whole millimetres can do.
    #[must_use]
    pub fn holds(&self, along: f64) -> bool {
        self.from - SLACK <= along && along <= self.to + SLACK
    }
}

impl FacePiece {
    /// Its part of a wall, if it has one.
    #[must_use]
    pub fn span_of(&self, wall: WallId, side: Face) -> Option<&Span> {
        self.spans.iter().find(|span| span.wall == wall && span.side == side)
    }

    /// The span at a distance from the left corner.
    #[must_use]
    pub fn span_at(&self, across: f64) -> Option<&Span> {
        self.spans.iter().rev().find(|span| span.start <= across).or_else(|| self.spans.first())
    }

    /// The first room that it looks into.
    #[must_use]
    pub fn room(&self) -> Option<RoomId> {
        self.rooms.first().copied()
    }
}
