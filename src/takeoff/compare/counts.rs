//! Metres, materials and work before and after.

use serde::Serialize;

use super::told::{Side, fates};
use super::{Change, Revision};
use crate::lengths::Lengths;
use crate::plan::{Cable, CircuitId};
use crate::takeoff::{Item, Quantity, TakeOff};
use crate::units::Mm;

/// The cut lengths of a circuit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CircuitChange {
    /// Which one.
    pub circuit: CircuitId,
    /// What papers call it, in the new plan where it is still there.
    pub name: String,
    /// Its cut lengths added up. None: it is not there, or nothing of it is
    /// routed.
    pub cut: Change<Option<Mm>>,
}

/// The cut lengths of a type of cable.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CableChange {
    /// The type. None: not chosen.
    pub cable: Option<Cable>,
    /// Its cut lengths added up. None: no leg is of this cable.
    pub cut: Change<Option<Mm>>,
}

/// Something that is counted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Counted {
    /// Its short name.
    pub code: String,
    /// What it is, in words.
    pub name: String,
    /// How many, or how long; none where there is nothing of it.
    pub quantity: Change<Quantity>,
}

impl Change<Option<Mm>> {
    /// By how much it grew; what is not there counts as nothing.
    #[must_use]
    pub fn by(self) -> Mm {
        self.new.unwrap_or(Mm::ZERO) - self.old.unwrap_or(Mm::ZERO)
    }
}

/// The cut lengths that differ, by circuit.
pub(super) fn circuits(old: Revision<'_>, new: Revision<'_>) -> Vec<CircuitChange> {
    let cut = |of: Revision<'_>, id: CircuitId| -> Option<Mm> {
        let legs = of.lengths.circuits.get(&id).filter(|legs| !legs.is_empty())?;
        Some(legs.iter().map(|leg| leg.cut_or_measured()).sum())
    };
    let (before, now) = (Side::of(old.plan), Side::of(new.plan));
    let change = |id| {
        let change = Change { old: cut(old, id), new: cut(new, id) };
        let name = new.plan.circuits.get(&id).map(|it| now.marks.circuit(it));
        let was = || old.plan.circuits.get(&id).map(|it| before.marks.circuit(it));
        let name = name.or_else(was)?;
        (change.old != change.new).then_some(CircuitChange { circuit: id, name, cut: change })
    };
    fates(&old.plan.circuits, &new.plan.circuits).filter_map(|(id, _)| change(id)).collect()
}

/// The cut lengths that differ, by cable.
pub(super) fn cables(old: &Lengths, new: &Lengths) -> Vec<CableChange> {
    let cut = |of: &Lengths, cable: Option<Cable>| {
        of.cables.iter().find(|it| it.cable == cable).map(|it| it.cut)
    };
    let mut all: Vec<Option<Cable>> =
        old.cables.iter().chain(&new.cables).map(|it| it.cable).collect();
    all.sort_unstable();
    all.dedup();
    all.into_iter()
        .map(|cable| CableChange {
            cable,
            cut: Change { old: cut(old, cable), new: cut(new, cable) },
        })
        .filter(|it| it.cut.old != it.cut.new)
        .collect()
}

/// What is counted in a take-off: its short name, its name and how much.
type Count = (String, String, Quantity);

/// Materials that differ.
pub(super) fn materials(old: &TakeOff, new: &TakeOff) -> Vec<Counted> {
    let items = |take_off: &TakeOff| -> Vec<Count> {
        let of = |item: &Item| (item.code.clone(), item.name.clone(), item.quantity);
        take_off.materials.iter().map(of).collect()
    };
    changes(&items(old), &items(new))
}

/// Work that differs.
pub(super) fn labour(old: &TakeOff, new: &TakeOff) -> Vec<Counted> {
    let tasks = |take_off: &TakeOff| -> Vec<Count> {
        let tasks = take_off.labour.iter();
        tasks.map(|task| (task.code.to_owned(), task.name.to_owned(), task.quantity)).collect()
    };
    changes(&tasks(old), &tasks(new))
}

/// Counts that differ, in the new order, then those that are gone.
fn changes(old: &[Count], new: &[Count]) -> Vec<Counted> {
    let nothing = |like: Quantity| match like {
        Quantity::Each(_) => Quantity::Each(0),
        Quantity::Length(_) => Quantity::Length(Mm::ZERO),
    };
    let find = |of: &[Count], code: &str| of.iter().find(|it| it.0 == code).map(|it| it.2);
    let gone = old.iter().filter(|it| find(new, &it.0).is_none());
    new.iter()
        .chain(gone)
        .map(|(code, name, like)| Counted {
            code: code.clone(),
            name: name.clone(),
            quantity: Change {
                old: find(old, code).unwrap_or_else(|| nothing(*like)),
                new: find(new, code).unwrap_or_else(|| nothing(*like)),
            },
        })
        .filter(|it| it.quantity.old != it.quantity.new)
        .collect()
}
