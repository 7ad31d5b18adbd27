//! What changed from one revision of a plan to the next: everything that a
//! person could see, by the ids of things, and what it costs, line by line.

mod bill;
mod boards;
mod books;
mod building;
mod built;
mod circuits;
mod counts;
mod job;
mod places;
mod points;
mod rooms;
mod told;
mod words;

use serde::Serialize;

pub use bill::{Bill, ClientBill, LineChange};
pub use built::BuiltLeg;
pub use counts::{CableChange, CircuitChange, Counted};
pub use points::RoomCount;
pub use told::{Section, ThingChange};

use super::TakeOff;
use crate::lengths::Lengths;
use crate::plan::Plan;
use crate::runs::Runs;
use told::Side;

/// A plan with what was computed from it.
#[derive(Clone, Copy, Debug)]
pub struct Revision<'a> {
    /// The plan.
    pub plan: &'a Plan,
    /// Its runs.
    pub runs: &'a Runs,
    /// Its lengths.
    pub lengths: &'a Lengths,
    /// Its take-off.
    pub take_off: &'a TakeOff,
}

/// What changed, for the contractor's eyes; what the client is told of it is
/// [`Variation::for_client`]. What stayed the same is left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Variation {
    /// Everything drawn or set that came, went or changed.
    pub things: Vec<ThingChange>,
    /// Points that came and went, by room and kind.
    pub rooms: Vec<RoomCount>,
    /// Cut lengths by circuit, mm.
    pub circuits: Vec<CircuitChange>,
    /// Cut lengths by cable, mm.
    pub cables: Vec<CableChange>,
    /// Legs whose measured length is new, as planned and as built.
    pub built: Vec<BuiltLeg>,
    /// Materials by count.
    pub materials: Vec<Counted>,
    /// Work by task.
    pub labour: Vec<Counted>,
    /// What it costs, line by line.
    pub bill: Bill,
    /// The same as the client reads it.
    pub client_bill: ClientBill,
}

/// What the client is told of a change: what and how much, and of the price
/// what is to be paid.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct ClientVariation {
    /// Everything drawn or set that came, went or changed. Of the contractor's
    /// own books only that they did.
    pub things: Vec<ThingChange>,
    /// Points that came and went, by room and kind.
    pub rooms: Vec<RoomCount>,
    /// Cut lengths by circuit, mm.
    pub circuits: Vec<CircuitChange>,
    /// Cut lengths by cable, mm.
    pub cables: Vec<CableChange>,
    /// Materials by count.
    pub materials: Vec<Counted>,
    /// Work by task.
    pub labour: Vec<Counted>,
    /// What it costs.
    pub bill: ClientBill,
}

/// Before and after.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Change<T> {
    /// In the old plan.
    pub old: T,
    /// In the new plan.
    pub new: T,
}

/// What is different in `new`.
#[must_use]
pub fn compare(old: Revision<'_>, new: Revision<'_>) -> Variation {
    let (old_quote, new_quote) = (&old.take_off.quote, &new.take_off.quote);
    Variation {
        things: changes(old.plan, new.plan),
        rooms: points::by_room(&Side::of(old.plan), &Side::of(new.plan)),
        circuits: counts::circuits(old, new),
        cables: counts::cables(old.lengths, new.lengths),
        built: built::legs(old, new),
        materials: counts::materials(old.take_off, new.take_off),
        labour: counts::labour(old.take_off, new.take_off),
        bill: Bill::of(old_quote, new_quote),
        client_bill: ClientBill::of(&old_quote.for_client(), &new_quote.for_client()),
    }
}

/// Everything drawn or set that is different in `new`, section by section.
#[must_use]
pub fn changes(old: &Plan, new: &Plan) -> Vec<ThingChange> {
    let (old, new) = (&Side::of(old), &Side::of(new));
    let mut changes = Vec::new();
    job::job((old, new), &mut changes);
    points::points(old, new, &mut changes);
    boards::boards(old, new, &mut changes);
    circuits::circuits(old, new, &mut changes);
    circuits::controls(old, new, &mut changes);
    building::building((old, new), &mut changes);
    rooms::rooms((old, new), &mut changes);
    books::books((old, new), &mut changes);
    built::site((old, new), &mut changes);
    changes.sort_by_key(|change| change.section);
    changes
}

impl Variation {
    /// Whether nothing changed at all.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.things.is_empty()
            && self.rooms.is_empty()
            && self.circuits.is_empty()
            && self.cables.is_empty()
            && self.built.is_empty()
            && self.materials.is_empty()
            && self.labour.is_empty()
            && self.bill.is_nothing()
    }

    /// What the client is told.
    #[must_use]
    pub fn for_client(&self) -> ClientVariation {
        let (own, mut things): (Vec<ThingChange>, Vec<ThingChange>) =
            self.things.iter().cloned().partition(|thing| thing.section.is_internal());
        let mut told: Vec<Section> = own.iter().map(|thing| thing.section).collect();
        told.dedup();
        things.extend(told.into_iter().map(|section| {
            let name = section.name().to_lowercase();
            told::once(section, None, name, "changed in the contractor's books")
        }));
        ClientVariation {
            things,
            rooms: self.rooms.clone(),
            circuits: self.circuits.clone(),
            cables: self.cables.clone(),
            materials: self.materials.clone(),
            labour: self.labour.clone(),
            bill: self.client_bill.clone(),
        }
    }
}
