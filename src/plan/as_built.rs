//! What was built, entered beside what was planned.

use super::{AsPlanned, CircuitId, Edit, End, Measured, Plan, Reading, Status, Test, is_day};
use crate::units::Mm;

/// A measured length to enter for a leg, or to take away.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct LegEntry {
    /// The circuit of the leg.
    pub circuit: CircuitId,
    /// One end.
    pub from: End,
    /// The other end.
    pub to: End,
    /// How long it is. None: not measured after all.
    pub length: Option<Mm>,
    /// Who measured it; empty where nobody says.
    pub by: String,
    /// The day, as `2026-11-25`; empty where nobody says.
    pub on: String,
}

/// A leg as it is planned: what a list that came back is held against.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlannedLeg {
    /// Its circuit.
    pub circuit: CircuitId,
    /// Its number as lists write it: `3.2`, `DB2 3.2`.
    pub number: String,
    /// One end.
    pub from: End,
    /// The other end.
    pub to: End,
    /// How long it is to be cut.
    pub cut: Mm,
}

/// A reading to enter, or to take away.
#[derive(Clone, Debug, PartialEq)]
pub enum ReadingEntry {
    /// In place of an earlier one of the same test at the same place.
    Put(Reading),
    /// Not read after all.
    Remove {
        /// The circuit.
        circuit: CircuitId,
        /// Where.
        at: End,
        /// Which test.
        test: Test,
    },
}

/// How far a plan tells what was built.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stage {
    /// Only what is meant to be built.
    Planned,
    /// Measured lengths or readings are in it, or it is called built and not
    /// all of it was measured.
    InPart,
    /// What was built: called so, and every leg measured. A plan by itself does
    /// not know its legs; `runs::built` tells.
    AsBuilt,
    /// What was planned, and built so as a person states.
    AsPlanned,
}

impl Stage {
    /// As papers say it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Planned => "planned",
            Self::InPart => "as built in part",
            Self::AsBuilt => "as built",
            Self::AsPlanned => "built as planned",
        }
    }
}

impl Measured {
    /// Whether it is of the leg between two ends, either way round.
    #[must_use]
    pub fn is_of(&self, circuit: CircuitId, ends: [End; 2]) -> bool {
        self.circuit == circuit && (ends == [self.from, self.to] || ends == [self.to, self.from])
    }

    /// Who measured it and when, as papers say it: `by A. Hand on 2026-11-25`.
    /// Empty where neither is known.
    #[must_use]
    pub fn who_and_when(&self) -> String {
        let told = [("by", &self.by), ("on", &self.on)];
        let told = told.iter().filter(|(_, what)| !what.is_empty());
        told.map(|(word, what)| format!("{word} {what}")).collect::<Vec<_>>().join(" ")
    }
}

impl Plan {
    /// How far it tells what was built, as far as that is known without its
    /// legs: as built in part until every one of them was counted.
    #[must_use]
    pub fn stage(&self) -> Stage {
        match self.project.status {
            Status::AsBuilt if self.as_planned().is_some() => Stage::AsPlanned,
            Status::AsBuilt => Stage::InPart,
            Status::Planned if self.measured.is_empty() && self.readings.is_empty() => {
                Stage::Planned
            }
            Status::Planned => Stage::InPart,
        }
    }

    /// Who states that all was built as planned; none without name and day.
    #[must_use]
    pub fn as_planned(&self) -> Option<&AsPlanned> {
        let said = self.project.built_as_planned.as_ref();
        said.filter(|said| !said.by.trim().is_empty() && is_day(&said.on))
    }

    /// The edit that enters measured lengths. A leg has no direction: from and
    /// to may be either way round.
    #[must_use]
    pub fn measured_with(&self, entries: &[LegEntry]) -> Edit {
        let mut all = self.measured.clone();
        for entry in entries {
            let LegEntry { circuit, from, to, length, by, on } = entry.clone();
            let old = all.iter().position(|one| one.is_of(circuit, [from, to]));
            match (old, length) {
                (Some(old), Some(length)) => {
                    all[old] = Measured { length, by, on, ..all[old] };
                }
                (Some(old), None) => {
                    all.remove(old);
                }
                (None, Some(length)) => {
                    all.push(Measured { circuit, from, to, length, by, on });
                }
                (None, None) => {}
            }
        }
        Edit::Measured(all)
    }

    /// The measurement of a leg, either way round.
    #[must_use]
    pub fn measurement(&self, circuit: CircuitId, ends: [End; 2]) -> Option<&Measured> {
        self.measured.iter().find(|one| one.is_of(circuit, ends))
    }

    /// The edit that enters readings.
    #[must_use]
    pub fn readings_with(&self, entries: &[ReadingEntry]) -> Edit {
        let mut all = self.readings.clone();
        for entry in entries {
            let key = match entry {
                ReadingEntry::Put(reading) => (reading.circuit, reading.at, reading.reads.test()),
                ReadingEntry::Remove { circuit, at, test } => (*circuit, *at, *test),
            };
            let old = all.iter().position(|one| (one.circuit, one.at, one.reads.test()) == key);
            match (old, entry) {
                (Some(old), ReadingEntry::Put(reading)) => all[old] = reading.clone(),
                (Some(old), ReadingEntry::Remove { .. }) => {
                    all.remove(old);
                }
                (None, ReadingEntry::Put(reading)) => all.push(reading.clone()),
                (None, ReadingEntry::Remove { .. }) => {}
            }
        }
        Edit::Readings(all)
    }

    /// What was read of a test at a place, the last where it stands twice.
    #[must_use]
    pub fn reading(&self, circuit: CircuitId, at: End, test: Test) -> Option<&Reading> {
        let same = |one: &&Reading| (one.circuit, one.at, one.reads.test()) == (circuit, at, test);
        self.readings.iter().rev().find(same)
    }
}
