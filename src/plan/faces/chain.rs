//! From bare stretches to pieces: walls that carry on flush make one.

use std::collections::BTreeMap;

use super::super::Face;
use super::join::{Met, Stop};
use super::line::{Line, Tip};
use super::piece::{Corner, FacePiece, Shape, Span};
use super::stretch::Stretch;

/// A stretch by the end at which it carries on.
type Ends = BTreeMap<(usize, Face, Tip), usize>;

/// All pieces, by the first of their stretches.
pub(super) fn pieces(lines: &[Line], stretches: Vec<Stretch>) -> Vec<FacePiece> {
    let mut ends = Ends::new();
    for (index, stretch) in stretches.iter().enumerate() {
        for (tip, stop) in [(Tip::A, stretch.low), (Tip::B, stretch.high)] {
            if matches!(stop.met, Met::Goes { .. }) {
                ends.insert((stretch.wall, stretch.side, tip), index);
            }
        }
    }
    let mut taken = vec![false; stretches.len()];
    let mut pieces = Vec::new();
    for index in 0..stretches.len() {
        if !taken[index] {
            let chain = chain(&stretches, &ends, index);
            chain.iter().for_each(|one| taken[*one] = true);
            pieces.push(piece(lines, &stretches, &ends, &chain));
        }
    }
    pieces
}

/// All stretches that carry on in one another, from the left as one sees them.
fn chain(stretches: &[Stretch], ends: &Ends, of: usize) -> Vec<usize> {
    let mut chain = vec![of];
    while let Some(next) = chain.first().and_then(|one| next(stretches, ends, *one, true))
        && !chain.contains(&next)
    {
        chain.insert(0, next);
    }
    while let Some(next) = chain.last().and_then(|one| next(stretches, ends, *one, false))
        && !chain.contains(&next)
    {
        chain.push(next);
    }
    chain
}

/// What a stretch carries on in at its left (or right), if that says the same.
fn next(stretches: &[Stretch], ends: &Ends, of: usize, left: bool) -> Option<usize> {
    let (own, stop) = stretches[of].end(left);
    let Met::Goes { wall, side, tip } = stop.met else { return None };
    let next = *ends.get(&(wall, side, tip))?;
    let back = if tip == Tip::A { stretches[next].low } else { stretches[next].high };
    let here = Met::Goes { wall: stretches[of].wall, side: stretches[of].side, tip: own };
    (back.met == here).then_some(next)
}

impl Stretch {
    /// Its end at the left (or right) as one sees it.
    const fn end(&self, left: bool) -> (Tip, Stop) {
        match (self.side, left) {
            (Face::Left, true) | (Face::Right, false) => (Tip::B, self.high),
            (Face::Left, false) | (Face::Right, true) => (Tip::A, self.low),
        }
    }
}

fn piece(lines: &[Line], stretches: &[Stretch], ends: &Ends, chain: &[usize]) -> FacePiece {
    let mut length = 0.0;
    let mut spans = Vec::new();
    for stretch in chain.iter().map(|index| &stretches[*index]) {
        let (from, to) = (stretch.low.along, stretch.high.along);
        let (wall, side) = (lines[stretch.wall].id, stretch.side);
        spans.push(Span { wall, side, from, to, start: length });
        length += to - from;
    }
    let corner = |index: usize, left: bool| match stretches[index].end(left).1.met {
        Met::Nothing => Corner { shape: Shape::Bare, with: None },
        Met::Wall(wall, shape) => Corner { shape, with: Some(lines[wall].id) },
        // What it would carry on in is covered, or goes round to its start.
        Met::Goes { wall, .. } => {
            let seam = next(stretches, ends, index, left).is_some();
            let shape = if seam { Shape::Seam } else { Shape::Inner };
            Corner { shape, with: Some(lines[wall].id) }
        }
    };
    let (first, last) = (chain[0], chain[chain.len() - 1]);
    FacePiece {
        name: String::new(),
        level: lines[stretches[first].wall].level,
        spans,
        length,
        left: corner(first, true),
        right: corner(last, false),
        rooms: Vec::new(),
        is_outside: false,
    }
}
