//! Names given anew, on purpose and in one edit.

use std::collections::BTreeMap;

use super::label::things;
use super::{Change, Circuit, Edit, Mark, Plan, circuits_by_board, labels};

/// Which names are given anew.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Renumber {
    /// Marks that are counted, in drawing order. Labels that a person typed
    /// stay.
    pub marks: bool,
    /// Circuits of each board, without gaps, in the order that they have.
    pub circuits: bool,
    /// Legs, in the order in which they leave the board.
    pub legs: bool,
}

impl Renumber {
    /// All of them.
    pub const ALL: Self = Self { marks: true, circuits: true, legs: true };
}

impl Plan {
    /// The one edit that gives names anew. What papers that were issued say is
    /// no longer held to, so whoever has them must be told.
    #[must_use]
    pub fn renumber(&self, what: Renumber) -> Edit {
        let mut kept = self.kept.clone();
        let mut edits = Vec::new();
        if what.marks {
            kept.marks = self.counted_anew();
        }
        if what.circuits {
            kept.circuits.clear();
            for (_, mut ids) in circuits_by_board(self) {
                ids.sort_by_key(|id| self.circuits[id].number);
                for (id, number) in ids.into_iter().zip(1_u16..) {
                    let circuit = &self.circuits[&id];
                    if circuit.number != number {
                        let new = Circuit { number, ..circuit.clone() };
                        edits.push(Change::Put(id, new).into());
                    }
                }
            }
        }
        if what.legs {
            kept.legs.clear();
        }
        if kept != self.kept {
            edits.push(Edit::Kept(kept.into()));
        }
        Edit::Many(edits)
    }

    fn counted_anew(&self) -> BTreeMap<String, Mark> {
        let mut blank = Self { boards: self.boards.clone(), ..Self::default() };
        blank.points.clone_from(&self.points);
        let marks = labels(&blank);
        let counted = things(self).filter(|(end, _, label)| *label != marks.end(*end));
        counted.map(|(of, ..)| (marks.end(of).to_owned(), Mark { of, issued: None })).collect()
    }
}
