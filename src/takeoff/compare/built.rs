//! What was measured and read on site.

use serde::Serialize;

use super::Revision;
use super::told::{Section, Side, ThingChange, Told, once};
use super::words::metres;
use crate::plan::{CircuitId, End, Measured, Reading, Subject};
use crate::runs::Leg;
use crate::units::Mm;

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

/// Every leg whose measured length is new.
pub(super) fn legs(old: Revision<'_>, new: Revision<'_>) -> Vec<BuiltLeg> {
    let mut built = Vec::new();
    for (id, run) in &new.runs.circuits {
        let number = new.plan.circuits.get(id).map_or_else(String::new, |it| it.number.to_string());
        let lengths = new.lengths.circuits.get(id).into_iter().flatten();
        for (leg, length) in run.legs.iter().zip(lengths) {
            let Some(measured) = length.measured else { continue };
            let ends = [leg.from, leg.to];
            if old.plan.measurement(*id, ends).is_some_and(|was| was.length == measured) {
                continue;
            }
            let planned = old.cut(*id, ends).unwrap_or(length.cut.value);
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

pub(super) fn site((old, new): (&Side<'_>, &Side<'_>), changes: &mut Vec<ThingChange>) {
    measured(old, new, changes);
    readings(old, new, changes);
}

fn measured(old: &Side<'_>, new: &Side<'_>, changes: &mut Vec<ThingChange>) {
    let find = |side: &Side<'_>, of: &Measured| {
        let is_it = |one: &&Measured| one.is_of(of.circuit, [of.from, of.to]);
        side.plan.measured.iter().find(is_it).cloned()
    };
    let name = |side: &Side<'_>, it: &Measured| {
        format!("leg {} to {}", side.marks.end(it.from), side.marks.end(it.to))
    };
    let subject =
        |it: &Measured| Some(Subject::Leg { circuit: it.circuit, from: it.from, to: it.to });
    // Where a leg stands in the list twice, only one of them counts.
    for is in new.plan.measured.iter().filter(|is| find(new, is).as_ref() == Some(*is)) {
        let Some(was) = find(old, is) else {
            let what = format!("measured {} {}", metres(&is.length), is.who_and_when());
            changes.push(once(Section::Built, subject(is), name(new, is), what.trim_end()));
            continue;
        };
        let Measured { circuit: _, from: _, to: _, length, by, on } = &was;
        let mut told = Told::default();
        told.field("measured", length, &is.length, metres);
        told.text("by", by, &is.by);
        told.text("on", on, &is.on);
        changes.extend(told.of(Section::Built, subject(is), name(new, is)));
    }
    for was in old.plan.measured.iter().filter(|was| find(new, was).is_none()) {
        let what = format!("no longer measured, was {}", metres(&was.length));
        changes.push(once(Section::Built, subject(was), name(old, was), what));
    }
}

fn readings(old: &Side<'_>, new: &Side<'_>, changes: &mut Vec<ThingChange>) {
    let find = |side: &Side<'_>, of: &Reading| {
        side.plan.reading(of.circuit, of.at, of.reads.test()).cloned()
    };
    let name = |side: &Side<'_>, it: &Reading| {
        let circuit = side.plan.circuits.get(&it.circuit);
        let circuit = circuit.map_or_else(String::new, |circuit| side.marks.circuit(circuit));
        format!("{} at {}, {circuit}", it.reads.test().name(), side.marks.end(it.at))
    };
    let subject = |it: &Reading| Some(Subject::Circuit(it.circuit));
    for is in new.plan.readings.iter().filter(|is| find(new, is).as_ref() == Some(*is)) {
        let Some(was) = find(old, is) else {
            let what = format!("read {}", is.reads);
            changes.push(once(Section::Built, subject(is), name(new, is), what));
            continue;
        };
        let Reading { circuit: _, at: _, reads, by, on } = &was;
        let mut told = Told::default();
        told.field("read", reads, &is.reads, |it| format!("{} {}", it.value(), it.test().unit()));
        told.text("by", by, &is.by);
        told.text("on", on, &is.on);
        changes.extend(told.of(Section::Built, subject(is), name(new, is)));
    }
    for was in old.plan.readings.iter().filter(|was| find(new, was).is_none()) {
        let what = format!("taken out, was {}", was.reads);
        changes.push(once(Section::Built, subject(was), name(old, was), what));
    }
}
