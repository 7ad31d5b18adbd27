//! The order in which cable is cut, and the marks of every cut.

use std::cmp::Reverse;

use super::{CutPlan, CutSource, Piece};
use crate::units::Mm;

/// A piece with where it comes off.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Slice<'a> {
    /// What is cut.
    pub piece: &'a Piece,
    /// The drum or the off-cut. None: cable bought by the metre, in one length.
    pub source: Option<&'a CutSource>,
    /// Which cut of its source it is, from 1.
    pub cut: usize,
    /// The mark at which it begins, mm from the free end.
    pub from: Mm,
    /// The mark at which to cut, mm from the free end.
    pub to: Mm,
}

impl CutPlan {
    /// All pieces of this cable in the order of cutting: source by source, each
    /// from its free end on; then what is bought by the metre, the longest first.
    #[must_use]
    pub fn in_order(&self) -> Vec<Slice<'_>> {
        let mut slices = Vec::new();
        for source in &self.sources {
            for (cut, number) in source.cuts.iter().zip(1..) {
                let (piece, from, to) = (&cut.piece, cut.from, cut.at);
                slices.push(Slice { piece, source: Some(source), cut: number, from, to });
            }
        }
        let mut uncut: Vec<&Piece> = self.uncut.iter().collect();
        uncut.sort_by_key(|piece| (!piece.done, Reverse(piece.length), piece.circuit, piece.leg));
        let mut at = Mm::ZERO;
        for (piece, cut) in uncut.into_iter().zip(1..) {
            let from = at;
            at += piece.length;
            slices.push(Slice { piece, source: None, cut, from, to: at });
        }
        slices
    }
}
