//! What a place is measured from.

use std::collections::BTreeMap;

use super::super::{OpeningId, WallId};
use super::piece::{Corner, FacePiece};
use crate::units::Mm;

/// Something fixed that a tape can be held against at first fix.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// A finished corner of the piece.
    Corner {
        /// At which end of the piece, as one sees it.
        end: Hand,
        /// What is there.
        corner: Corner,
    },
    /// A side of an opening, as built.
    Opening {
        /// The opening.
        id: OpeningId,
        /// Which side of it, as one sees it.
        side: Hand,
    },
}

/// One hand of whoever looks at a face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hand {
    /// The left.
    Left,
    /// The right.
    Right,
}

/// How a place on a face is set out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SetOut<'a> {
    /// The piece that it is on.
    pub piece: &'a FacePiece,
    /// How far it is from the piece's corner at the left, mm.
    pub across: f64,
    /// What it is measured from.
    pub edge: Edge,
    /// On which hand of that edge it is.
    pub towards: Hand,
    /// How far from it, to the nearest millimetre.
    pub distance: Mm,
}

/// All edges of a piece, from the left.
pub(super) fn edges(
    piece: &FacePiece,
    openings: &BTreeMap<WallId, Vec<(OpeningId, [f64; 2])>>,
) -> Vec<(f64, Edge)> {
    let mut edges = vec![
        (0.0, Edge::Corner { end: Hand::Left, corner: piece.left }),
        (piece.length, Edge::Corner { end: Hand::Right, corner: piece.right }),
    ];
    for span in &piece.spans {
        for (id, sides) in openings.get(&span.wall).into_iter().flatten() {
            let mut sides = sides.map(|along| (span.across(along), span.holds(along)));
            sides.sort_by(|a, b| a.0.total_cmp(&b.0));
            for ((at, is_own), side) in sides.into_iter().zip([Hand::Left, Hand::Right]) {
                // A side within another wall is none that a tape can find.
                if is_own && 1.0 < at && at < piece.length - 1.0 {
                    edges.push((at, Edge::Opening { id: *id, side }));
                }
            }
        }
    }
    edges.sort_by(|a, b| a.0.total_cmp(&b.0));
    edges
}

/// The nearest of them; of two that are equally far the one at the left.
pub(super) fn nearest(
    piece: &FacePiece,
    across: f64,
    edges: Vec<(f64, Edge)>,
) -> Option<SetOut<'_>> {
    let mut best: Option<(f64, Edge)> = None;
    for (at, edge) in edges {
        // Sooner by what can be told apart.
        if best.is_none_or(|(other, _)| (at - across).abs() < (other - across).abs() - 0.5) {
            best = Some((at, edge));
        }
    }
    let (at, edge) = best?;
    let towards = if at <= across { Hand::Right } else { Hand::Left };
    let distance = Mm::from_f64((across - at).abs()).ok()?;
    Some(SetOut { piece, across, edge, towards, distance })
}
