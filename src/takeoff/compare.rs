//! What changed from one revision of a plan to the next.

use serde::Serialize;

use super::{Item, Quantity, TakeOff};
use crate::lengths::Lengths;
use crate::plan::{Cable, CircuitId, End, Labels, Plan, Point, PointId, labels};
use crate::runs::{Leg, Runs};
use crate::units::{Cents, Mm};

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

/// What changed: points, metres, materials, work and price. What stayed the
/// same is left out.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Variation {
    /// Points that came, went or changed, in drawing order.
    pub points: Vec<PointChange>,
    /// Cut lengths by circuit, mm.
    pub circuits: Vec<CircuitChange>,
    /// Cut lengths by cable, mm.
    pub cables: Vec<CableChange>,
    /// Legs that were measured in the new plan, as planned and as built.
    pub built: Vec<BuiltLeg>,
    /// Materials by count.
    pub materials: Vec<Counted>,
    /// Work by task.
    pub labour: Vec<Counted>,
    /// The price to pay, before and after; it stands here unchanged too.
    pub price: Change<Cents>,
    /// Whether each total has a price for every line.
    pub is_complete: Change<bool>,
}

/// Before and after.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize)]
pub struct Change<T> {
    /// In the old plan.
    pub old: T,
    /// In the new plan.
    pub new: T,
}

/// A point that came, went or changed.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct PointChange {
    /// Which one.
    pub point: PointId,
    /// Its mark, in the new plan where it is still there.
    pub mark: String,
    /// What happened to it: `added`, `removed`, or what is different.
    pub what: Vec<&'static str>,
}

/// The cut lengths of a circuit.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CircuitChange {
    /// Which one.
    pub circuit: CircuitId,
    /// Its number at the board.
    pub number: u16,
    /// Its cut lengths added up.
    pub cut: Change<Mm>,
}

/// The cut lengths of a type of cable.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct CableChange {
    /// The type. None: not chosen.
    pub cable: Option<Cable>,
    /// Its cut lengths added up.
    pub cut: Change<Mm>,
}

/// A leg as it was planned and as it was built.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct BuiltLeg {
    /// Its circuit's number and its own, as drawings have it in the new plan.
    pub number: String,
    /// One end.
    pub from: End,
    /// The other end.
    pub to: End,
    /// The cut length that the old plan has for it, or else the new one.
    pub planned: Mm,
    /// What was measured.
    pub measured: Mm,
}

/// Something that is counted.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Counted {
    /// Its short name.
    pub code: String,
    /// What it is, in words.
    pub name: String,
    /// How many, or how long.
    pub quantity: Change<Quantity>,
}

/// What is different in `new`.
#[must_use]
pub fn compare(old: Revision<'_>, new: Revision<'_>) -> Variation {
    let counted = |take_off: &TakeOff| -> Vec<(String, String, Quantity)> {
        let tasks = take_off.labour.iter();
        tasks.map(|task| (task.code.to_owned(), task.name.to_owned(), task.quantity)).collect()
    };
    let items = |take_off: &TakeOff| -> Vec<(String, String, Quantity)> {
        let of = |item: &Item| (item.code.clone(), item.name.clone(), item.quantity);
        take_off.materials.iter().map(of).collect()
    };
    let (old_quote, new_quote) = (&old.take_off.quote, &new.take_off.quote);
    Variation {
        points: points(old.plan, new.plan),
        circuits: circuits(old, new),
        cables: cables(old.lengths, new.lengths),
        built: built(old, new),
        materials: changes(&items(old.take_off), &items(new.take_off)),
        labour: changes(&counted(old.take_off), &counted(new.take_off)),
        price: Change { old: old_quote.total.value, new: new_quote.total.value },
        is_complete: Change { old: old_quote.is_complete, new: new_quote.is_complete },
    }
}

fn points(old: &Plan, new: &Plan) -> Vec<PointChange> {
    let (old_marks, new_marks) = (labels(old), labels(new));
    let change = |point: PointId, marks: &Labels, what: Vec<&'static str>| PointChange {
        point,
        mark: marks.point(point).to_owned(),
        what,
    };
    let mut changes = Vec::new();
    for (id, was) in &old.points {
        match new.points.get(id) {
            None => changes.push(change(*id, &old_marks, vec!["removed"])),
            Some(is) => {
                let what = differences(was, is);
                if !what.is_empty() {
                    changes.push(change(*id, &new_marks, what));
                }
            }
        }
    }
    let added = new.points.keys().filter(|id| !old.points.contains_key(*id));
    changes.extend(added.map(|id| change(*id, &new_marks, vec!["added"])));
    changes
}

fn differences(was: &Point, is: &Point) -> Vec<&'static str> {
    let told = [
        (was.kind != is.kind, "another kind"),
        (was.place != is.place, "moved"),
        (was.circuit != is.circuit, "another circuit"),
        (was.gangs != is.gangs, "gangs"),
        (was.load != is.load, "load"),
        (was.tail != is.tail, "tail"),
        (was.label != is.label, "mark"),
        (was.optional != is.optional, "optional or not"),
        (was.note != is.note, "note"),
    ];
    told.into_iter().filter(|(differs, _)| *differs).map(|(_, what)| what).collect()
}

fn circuits(old: Revision<'_>, new: Revision<'_>) -> Vec<CircuitChange> {
    let cut = |of: Revision<'_>, id: CircuitId| -> Mm {
        let legs = of.lengths.circuits.get(&id).into_iter().flatten();
        legs.map(|leg| leg.cut_or_measured()).sum()
    };
    let only_old = old.plan.circuits.keys().filter(|id| !new.plan.circuits.contains_key(*id));
    let ids = new.plan.circuits.keys().chain(only_old);
    ids.filter_map(|id| {
        let change = Change { old: cut(old, *id), new: cut(new, *id) };
        let circuit = new.plan.circuits.get(id).or_else(|| old.plan.circuits.get(id))?;
        (change.old != change.new).then_some(CircuitChange {
            circuit: *id,
            number: circuit.number,
            cut: change,
        })
    })
    .collect()
}

/// Every measured leg of the new plan.
fn built(old: Revision<'_>, new: Revision<'_>) -> Vec<BuiltLeg> {
    let mut built = Vec::new();
    for (id, run) in &new.runs.circuits {
        let number = new.plan.circuits.get(id).map_or(0, |circuit| circuit.number);
        let lengths = new.lengths.circuits.get(id).into_iter().flatten();
        for (leg, length) in run.legs.iter().zip(lengths) {
            let Some(measured) = length.measured else { continue };
            let planned = old.cut(*id, [leg.from, leg.to]).unwrap_or(length.cut.value);
            let number = format!("{number}.{}", leg.number);
            built.push(BuiltLeg { number, from: leg.from, to: leg.to, planned, measured });
        }
    }
    built
}

impl Revision<'_> {
    /// The cut length of the leg between two ends, either way round.
    fn cut(&self, circuit: CircuitId, ends: [End; 2]) -> Option<Mm> {
        let legs = &self.runs.circuits.get(&circuit)?.legs;
        let is_it = |leg: &Leg| ends == [leg.from, leg.to] || ends == [leg.to, leg.from];
        let at = legs.iter().position(is_it)?;
        Some(self.lengths.circuits.get(&circuit)?.get(at)?.cut.value)
    }
}

fn cables(old: &Lengths, new: &Lengths) -> Vec<CableChange> {
    let cut = |of: &Lengths, cable: Option<Cable>| {
        of.cables.iter().find(|it| it.cable == cable).map_or(Mm::ZERO, |it| it.cut)
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

/// Counts that differ, in the new order, then those that are gone.
fn changes(old: &[(String, String, Quantity)], new: &[(String, String, Quantity)]) -> Vec<Counted> {
    let nothing = |like: Quantity| match like {
        Quantity::Each(_) => Quantity::Each(0),
        Quantity::Length(_) => Quantity::Length(Mm::ZERO),
    };
    let find = |of: &[(String, String, Quantity)], code: &str| {
        of.iter().find(|it| it.0 == code).map(|it| it.2)
    };
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
