//! The finished faces of walls as a tape finds them.
//!
//! A wall is drawn by its centre line; nobody can put a tape there. What can
//! be touched are its two faces, half its thickness off that line on either
//! side ([`Wall::thickness`](super::Wall::thickness) counts linings and
//! plaster on both), and the corners in which they end: where two faces of
//! walls that meet would cross, square or skew, inside a room or outside the
//! house. What counts as meeting is what `space` takes for it: an end within
//! half the thickness of another wall and 20 mm of its centre line; walls
//! that cross meet too.
//!
//! A [`FacePiece`] is what lies between two such corners. Walls that carry on
//! in one line, flush, have no corner between them: a piece can span several.
//! Where rooms border without a wall the tape finds nothing either: a piece
//! can look into several rooms. Openings do not cut a piece; their edges are
//! measured from, as corners are.

mod chain;
mod cover;
mod edge;
mod join;
mod line;
mod meeting;
mod name;
mod node;
mod outlook;
mod piece;
mod stretch;

use std::collections::BTreeMap;

pub use edge::{Edge, Hand, SetOut};
pub use piece::{Corner, FacePiece, Shape, Span};

use super::{Face, OnWall, OpeningId, Plan, WallId};

/// The finished faces of all walls of a plan.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Faces {
    pieces: Vec<FacePiece>,
    /// The pieces with a span on a side of a wall, and which of their spans,
    /// from the wall's end `a`.
    on: BTreeMap<(WallId, Face), Vec<(usize, usize)>>,
    /// The sides of openings along their walls.
    openings: BTreeMap<WallId, Vec<(OpeningId, [f64; 2])>>,
}

/// The finished faces of all walls of a plan. Walls without length, without
/// thickness or without a level have none.
#[must_use]
pub fn faces(plan: &Plan) -> Faces {
    let lines = line::lines(plan);
    let near = meeting::pairs(&lines);
    let nodes = node::nodes(&lines, &meeting::meetings(&lines, &near));
    let mut pieces = chain::pieces(&lines, stretch::stretches(&lines, &nodes, &near));
    outlook::look(plan, &mut pieces);
    name::name(&mut pieces);
    Faces::with(plan, pieces)
}

impl Faces {
    fn with(plan: &Plan, pieces: Vec<FacePiece>) -> Self {
        let mut on: BTreeMap<(WallId, Face), Vec<(usize, usize)>> = BTreeMap::new();
        for (index, piece) in pieces.iter().enumerate() {
            for (at, span) in piece.spans.iter().enumerate() {
                on.entry((span.wall, span.side)).or_default().push((index, at));
            }
        }
        for spans in on.values_mut() {
            spans.sort_by(|a, b| {
                let from = |(piece, span): &(usize, usize)| pieces[*piece].spans[*span].from;
                from(a).total_cmp(&from(b))
            });
        }
        let mut openings: BTreeMap<WallId, Vec<(OpeningId, [f64; 2])>> = BTreeMap::new();
        for (id, opening) in &plan.openings {
            let sides = [opening.from, opening.from + opening.width].map(|at| at.to_f64());
            openings.entry(opening.wall).or_default().push((*id, sides));
        }
        Self { pieces, on, openings }
    }

    /// All pieces: by walls in the order of the plan, the left face first.
    #[must_use]
    pub fn pieces(&self) -> &[FacePiece] {
        &self.pieces
    }

    /// The pieces with a part of a side of a wall, from the wall's end `a`.
    pub fn of(&self, wall: WallId, side: Face) -> impl Iterator<Item = &FacePiece> {
        self.spans(wall, side).map(|(piece, _)| piece)
    }

    /// The same, each with that part.
    pub fn spans(&self, wall: WallId, side: Face) -> impl Iterator<Item = (&FacePiece, &Span)> {
        let on = self.on.get(&(wall, side)).into_iter().flatten();
        on.map(|(piece, span)| (&self.pieces[*piece], &self.pieces[*piece].spans[*span]))
    }

    /// The piece that a place is on. None where it is within another wall or
    /// past the end of its own: there is no face there.
    #[must_use]
    pub fn piece_of(&self, on: &OnWall) -> Option<&FacePiece> {
        self.place(on).map(|(piece, _)| piece)
    }

    /// The piece that a place is on, and how far from the piece's finished
    /// corner at the left, as one sees it, mm.
    #[must_use]
    pub fn place(&self, on: &OnWall) -> Option<(&FacePiece, f64)> {
        let at = on.along.to_f64();
        let found = self.spans(on.wall, on.face).find(|(_, span)| span.holds(at))?;
        Some((found.0, found.1.across(at).clamp(0.0, found.0.length)))
    }

    /// As [`Faces::place`], but for a place within another wall the nearest
    /// piece of that face, and the end of it that is nearest.
    #[must_use]
    pub fn nearest(&self, on: &OnWall) -> Option<(&FacePiece, f64)> {
        let at = on.along.to_f64();
        let off = |span: &Span| (span.from - at).max(at - span.to).max(0.0);
        let near = self.spans(on.wall, on.face).min_by(|a, b| off(a.1).total_cmp(&off(b.1)))?;
        Some((near.0, near.1.across(at.clamp(near.1.from, near.1.to))))
    }

    /// From which edge a place is set out, and how far that is: the nearest
    /// finished corner or side of an opening on its piece, on either hand; of
    /// two that are equally far the one at the left. None where
    /// [`Faces::piece_of`] finds none.
    #[must_use]
    pub fn set_out(&self, on: &OnWall) -> Option<SetOut<'_>> {
        let (piece, across) = self.place(on)?;
        self.set_out_at(piece, across)
    }

    /// The same for a place on a piece, so far from its corner at the left, mm.
    #[must_use]
    pub fn set_out_at<'a>(&self, piece: &'a FacePiece, across: f64) -> Option<SetOut<'a>> {
        edge::nearest(piece, across, self.edges(piece))
    }

    /// The finished corners and the sides of openings of a piece, each with
    /// its distance from the corner at the left, from left to right.
    #[must_use]
    pub fn edges(&self, piece: &FacePiece) -> Vec<(f64, Edge)> {
        edge::edges(piece, &self.openings)
    }
}

#[cfg(test)]
mod tests;
