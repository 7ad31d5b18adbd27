//! Edits: the only way in which a plan changes, as values that can be stored,
//! undone and done again.

use std::hash::Hash;

use indexmap::IndexMap;
use serde::{Deserialize, Serialize};

use super::limits::Beyond;
use super::marking::MarksBefore;
use super::{
    Allowances, Area, AreaId, Backdrop, Board, BoardId, Circuit, CircuitId, Control, ControlId,
    End, Habits, Kept, Level, LevelId, Measured, Opening, OpeningId, Plan, Point, PointId,
    PriceBook, Project, Reading, Reference, Riser, RiserId, Room, RoomId, Stock, Subject, Void,
    VoidId, Wall, WallId,
};

/// One change to one kind of thing.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Change<Id, Thing> {
    /// Replaces what has this id, or draws it as the last of its kind.
    Put(Id, Thing),
    /// As `Put`, but at this place in the order of drawing, counted from 0: what
    /// undoes a removal.
    PutAt(usize, Id, Thing),
    /// Takes away what has this id.
    Remove(Id),
}

/// A change to a plan.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[expect(missing_docs, reason = "each of the first eleven changes what it is named after")]
pub enum Edit {
    Level(Change<LevelId, Level>),
    Void(Change<VoidId, Void>),
    Wall(Change<WallId, Wall>),
    Opening(Change<OpeningId, Opening>),
    Room(Change<RoomId, Room>),
    Area(Change<AreaId, Area>),
    Riser(Change<RiserId, Riser>),
    /// Lays a picture beneath a level, or takes it away.
    Backdrop(Change<LevelId, Backdrop>),
    Board(Change<BoardId, Board>),
    Circuit(Box<Change<CircuitId, Circuit>>),
    Point(Change<PointId, Point>),
    Control(Change<ControlId, Control>),
    /// Sets what the title block says.
    Project(Box<Project>),
    /// Sets what is added to a leg's geometry.
    Allowances(Allowances),
    /// Sets what steers the routes.
    Habits(Habits),
    /// Sets what cable can be cut from.
    Stock(Stock),
    /// Sets what things cost.
    Prices(PriceBook),
    /// Sets the legs as they were really cut and pulled.
    Measured(Vec<Measured>),
    /// Sets the readings taken on site.
    Readings(Vec<Reading>),
    /// Sets the marks of things, or takes them off, as far as no issued paper
    /// says them: what goes with drawing something, and with undoing that.
    Marks(Vec<(End, Option<String>)>),
    /// Sets everything that is kept of names: what goes with issuing papers,
    /// and with numbering on purpose.
    Kept(Box<Kept>),
    /// All of them in this order, or none. What they name must be there only
    /// when all are done, so a circuit and its points can come together.
    Many(Vec<Edit>),
}

/// Why an edit was refused. The plan is as it was.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
pub enum EditError {
    /// Something still names what was to go.
    #[error("{} cannot go: {} {} it", .0.names, .0.by, .0.how)]
    StillNamed(Reference),
    /// The edit names what is not there.
    #[error("{0}, which the plan does not have")]
    Unknown(Reference),
    /// What was to go is not there.
    #[error("{0} cannot go: the plan does not have it")]
    Absent(Subject),
    /// A value outside its bounds.
    #[error("{0}")]
    Beyond(Beyond),
}

impl Plan {
    /// Changes the plan and returns the edit that changes it back: the same
    /// things in the same order of drawing. The counter of ids stays ahead of
    /// every id ever drawn, and changing back does not lower it. What is drawn
    /// gets a mark that it keeps; changing back takes it off again, unless
    /// papers that were issued say it.
    ///
    /// # Errors
    /// [`EditError`] where the plan would no longer hold together; then
    /// nothing has changed.
    ///
    /// # Panics
    /// Never: what was just changed can be changed back.
    pub fn apply(&mut self, edit: Edit) -> Result<Edit, EditError> {
        let next_id = self.next_id;
        let names = !edit.marks() && self.renames(&edit);
        let first = if names { self.marks_kept() } else { Vec::new() };
        match self.change_whole(edit) {
            Ok(back) => {
                let last = if names { self.marks_kept() } else { Vec::new() };
                Ok(with_marks(last, back, first))
            }
            Err(error) => {
                self.set_marks(first);
                self.next_id = next_id;
                Err(error)
            }
        }
    }

    /// All of a change or, where the plan would not hold together, nothing.
    fn change_whole(&mut self, edit: Edit) -> Result<Edit, EditError> {
        let back = self.change(edit)?;
        let Some(flaw) = self.flaw() else { return Ok(back) };
        self.change(back).expect("what was just changed can be changed back");
        Err(match flaw {
            EditError::Unknown(reference) if self.has(reference.names) => {
                EditError::StillNamed(reference)
            }
            flaw => flaw,
        })
    }

    /// The number for the next id of any kind. It stays the same until
    /// something with it is drawn; for several things in one edit, count up
    /// from it.
    #[must_use]
    pub fn fresh_id(&self) -> u32 {
        self.next_id.max(1)
    }

    fn flaw(&self) -> Option<EditError> {
        let dangling = self.check_references().into_iter().next().map(EditError::Unknown);
        dangling.or_else(|| self.check_limits().map(EditError::Beyond))
    }

    fn change(&mut self, edit: Edit) -> Result<Edit, EditError> {
        let next = &mut self.next_id;
        Ok(match edit {
            Edit::Level(it) => Edit::Level(change_in(&mut self.levels, it, next)?),
            Edit::Void(it) => Edit::Void(change_in(&mut self.voids, it, next)?),
            Edit::Wall(it) => Edit::Wall(change_in(&mut self.walls, it, next)?),
            Edit::Opening(it) => Edit::Opening(change_in(&mut self.openings, it, next)?),
            Edit::Room(it) => Edit::Room(change_in(&mut self.rooms, it, next)?),
            Edit::Area(it) => Edit::Area(change_in(&mut self.areas, it, next)?),
            Edit::Riser(it) => Edit::Riser(change_in(&mut self.risers, it, next)?),
            Edit::Backdrop(it) => Edit::Backdrop(change_in(&mut self.backdrops, it, next)?),
            Edit::Board(it) => Edit::Board(change_in(&mut self.boards, it, next)?),
            Edit::Circuit(it) => Edit::Circuit(change_in(&mut self.circuits, *it, next)?.into()),
            Edit::Point(it) => Edit::Point(change_in(&mut self.points, it, next)?),
            Edit::Control(it) => Edit::Control(change_in(&mut self.controls, it, next)?),
            Edit::Project(mut new) => {
                std::mem::swap(&mut self.project, &mut new);
                Edit::Project(new)
            }
            Edit::Allowances(new) => Edit::Allowances(std::mem::replace(&mut self.allowances, new)),
            Edit::Habits(new) => Edit::Habits(std::mem::replace(&mut self.habits, new)),
            Edit::Stock(new) => Edit::Stock(std::mem::replace(&mut self.stock, new)),
            Edit::Prices(new) => Edit::Prices(std::mem::replace(&mut self.prices, new)),
            Edit::Measured(new) => Edit::Measured(std::mem::replace(&mut self.measured, new)),
            Edit::Readings(new) => Edit::Readings(std::mem::replace(&mut self.readings, new)),
            Edit::Marks(marks) => Edit::Marks(self.set_marks(marks)),
            Edit::Kept(new) => Edit::Kept(std::mem::replace(&mut self.kept, *new).into()),
            Edit::Many(edits) => self.change_all(edits)?,
        })
    }

    fn change_all(&mut self, edits: Vec<Edit>) -> Result<Edit, EditError> {
        let mut back = Vec::with_capacity(edits.len());
        for edit in edits {
            match self.change(edit) {
                Ok(inverse) => back.push(inverse),
                Err(error) => {
                    for inverse in back.into_iter().rev() {
                        self.change(inverse).expect("what was just changed can be changed back");
                    }
                    return Err(error);
                }
            }
        }
        back.reverse();
        Ok(Edit::Many(back))
    }
}

/// What changes back an edit and the marks that were kept before and after it.
fn with_marks(last: MarksBefore, back: Edit, first: MarksBefore) -> Edit {
    if last.is_empty() && first.is_empty() {
        return back;
    }
    Edit::Many(vec![Edit::Marks(last), back, Edit::Marks(first)])
}

/// An id whose number the plan's counter must stay ahead of.
trait Numbered: Copy + Eq + Hash {
    fn number(self) -> u32;
    fn subject(self) -> Subject;
}

/// For each kind of thing: its id is numbered, and a change to it is an edit.
macro_rules! things {
    ($($id:ident $thing:ident),*) => {
        $(impl Numbered for $id {
            fn number(self) -> u32 {
                self.0
            }
            fn subject(self) -> Subject {
                Subject::$thing(self)
            }
        }

        impl From<Change<$id, $thing>> for Edit {
            fn from(change: Change<$id, $thing>) -> Self {
                Self::$thing(change.into())
            }
        })*
    };
}

things!(
    LevelId Level, VoidId Void, WallId Wall, OpeningId Opening, RoomId Room, AreaId Area,
    RiserId Riser, BoardId Board, CircuitId Circuit, PointId Point, ControlId Control
);

impl From<Change<LevelId, Backdrop>> for Edit {
    fn from(change: Change<LevelId, Backdrop>) -> Self {
        Self::Backdrop(change)
    }
}

fn change_in<Id: Numbered, Thing>(
    map: &mut IndexMap<Id, Thing>,
    change: Change<Id, Thing>,
    next_id: &mut u32,
) -> Result<Change<Id, Thing>, EditError> {
    if let Change::Put(id, _) | Change::PutAt(_, id, _) = &change {
        *next_id = (*next_id).max(id.number().saturating_add(1));
    }
    match change {
        Change::Put(id, thing) => Ok(match map.insert(id, thing) {
            Some(old) => Change::Put(id, old),
            None => Change::Remove(id),
        }),
        Change::PutAt(index, id, thing) => {
            let old = map.shift_remove_full(&id);
            map.shift_insert(index.min(map.len()), id, thing);
            Ok(match old {
                Some((index, id, old)) => Change::PutAt(index, id, old),
                None => Change::Remove(id),
            })
        }
        Change::Remove(id) => match map.shift_remove_full(&id) {
            Some((index, id, old)) => Ok(Change::PutAt(index, id, old)),
            None => Err(EditError::Absent(id.subject())),
        },
    }
}
