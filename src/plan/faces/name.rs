//! Names of pieces.

use std::collections::BTreeMap;

use super::super::{Face, WallId};
use super::piece::FacePiece;

/// Names every piece by its walls. A wall with one piece on either face, into
/// different rooms, goes by its own name; else letters tell its pieces apart:
/// those of the left face from the wall's end `a`, then those of the right.
pub(super) fn name(pieces: &mut [FacePiece]) {
    let mut on: BTreeMap<WallId, Vec<Part>> = BTreeMap::new();
    for (piece, one) in pieces.iter().enumerate() {
        for (span, at) in one.spans.iter().enumerate() {
            on.entry(at.wall).or_default().push(Part { side: at.side, from: at.from, piece, span });
        }
    }
    let mut names: Vec<Vec<String>> =
        pieces.iter().map(|one| vec![String::new(); one.spans.len()]).collect();
    for (wall, mut parts) in on {
        parts.sort_by(|a, b| a.side.cmp(&b.side).then(a.from.total_cmp(&b.from)));
        let plain = match parts.as_slice() {
            [_] => true,
            [one, other] => {
                one.side != other.side && pieces[one.piece].rooms != pieces[other.piece].rooms
            }
            _ => false,
        };
        for (number, part) in parts.iter().enumerate() {
            let letters = if plain { String::new() } else { letters(number) };
            names[part.piece][part.span] = format!("{wall}{letters}");
        }
    }
    for (piece, names) in pieces.iter_mut().zip(names) {
        piece.name = names.join("+");
    }
}

/// A part of a wall that is in a piece.
struct Part {
    side: Face,
    from: f64,
    piece: usize,
    span: usize,
}

/// `a` to `z`, then `aa`.
fn letters(number: usize) -> String {
    let own = u32::try_from(number.rem_euclid(26)).unwrap_or(0);
    let own = char::from_u32(u32::from('a') + own).unwrap_or('a');
    match number.div_euclid(26) {
        0 => own.to_string(),
        more => format!("{}{own}", letters(more - 1)),
    }
}

#[test]
fn letters_go_on_after_z() {
    let all = [0, 1, 25, 26, 27, 51, 52].map(letters);
    assert_eq!(all, ["a", "b", "z", "aa", "ab", "az", "ba"], "as in the columns of a table");
}
