//! The exchange structure of ISO 10303-21, in which IFC files are written:
//! `#12=NAME(…);`. The file is indexed once; an entity's parameters are read
//! when they are asked for, so that memory follows the number of entities.

mod index;
mod text;
mod value;

use std::cell::Cell;
use std::collections::BTreeMap;

pub(super) use index::StepFlaw;
pub(super) use value::Value;

/// The most entities that are read.
pub(super) const ENTITIES_MAX: usize = 4_000_000;
/// How many bytes of parameters are read in all, again and again where
/// entities share others: what bounds the time that a file can take.
const READ_MAX: usize = 512 * 1024 * 1024;

/// A file, indexed.
#[derive(Debug)]
pub(super) struct StepFile<'a> {
    bytes: &'a [u8],
    /// What the header says the entities are: `IFC4`.
    pub(super) schema: String,
    /// By id.
    records: Vec<Record>,
    by_name: BTreeMap<String, Vec<u64>>,
    read: Cell<usize>,
}

/// Where an entity stands.
#[derive(Clone, Copy, Debug)]
struct Record {
    id: u64,
    /// The offset of its name.
    from: usize,
    /// The offset behind its last bracket.
    to: usize,
}

/// The longest entity that is read, bytes: its parameters take up to 32 times
/// as many.
const ENTITY_BYTES_MAX: usize = 8 * 1024 * 1024;

/// An entity with its parameters.
#[derive(Debug)]
pub(super) struct Entity {
    pub(super) id: u64,
    pub(super) name: String,
    args: Vec<Value>,
}

/// What keeps one entity from being used.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Trouble {
    /// The part of the building that needs it is left out, for this reason.
    Flaw(String),
    /// So much was read that the whole file is refused.
    Exhausted,
}

impl<'a> StepFile<'a> {
    /// Indexes a file.
    ///
    /// # Errors
    /// A flaw in the writing, with its place.
    pub(super) fn new(bytes: &'a [u8]) -> Result<Self, StepFlaw> {
        index::index(bytes)
    }

    /// The ids of all entities of a name, in the order of the file.
    pub(super) fn named(&self, name: &str) -> &[u64] {
        self.by_name.get(name).map_or(&[], Vec::as_slice)
    }

    /// The line on which an entity stands, from 1.
    #[cfg(test)]
    fn line(&self, id: u64) -> usize {
        let end = self.record(id).map_or(0, |record| record.from);
        index::line(self.bytes, end)
    }

    fn record(&self, id: u64) -> Option<&Record> {
        let at = self.records.binary_search_by_key(&id, |record| record.id).ok()?;
        self.records.get(at)
    }

    /// An entity by its id.
    ///
    /// # Errors
    /// A flaw where there is no such entity or its parameters are malformed.
    pub(super) fn entity(&self, id: u64) -> Result<Entity, Trouble> {
        let record =
            self.record(id).ok_or_else(|| Trouble::Flaw(format!("#{id} is not in the file")))?;
        let read = self.read.get() + (record.to - record.from);
        self.read.set(read);
        if read > READ_MAX {
            return Err(Trouble::Exhausted);
        }
        if record.to - record.from > ENTITY_BYTES_MAX {
            return Err(Trouble::Flaw(format!("#{id}: longer than {ENTITY_BYTES_MAX} bytes")));
        }
        let (name, args) = value::entity(&self.bytes[record.from..record.to])
            .map_err(|flaw| Trouble::Flaw(format!("#{id}: {flaw}")))?;
        Ok(Entity { id, name, args })
    }
}

impl Entity {
    /// A parameter by its place, from 0; nothing where it is not given.
    pub(super) fn get(&self, at: usize) -> &Value {
        self.args.get(at).unwrap_or(&Value::Null)
    }

    /// A parameter that refers to another entity.
    pub(super) fn reference(&self, at: usize) -> Result<u64, Trouble> {
        match self.get(at) {
            Value::Reference(id) => Ok(*id),
            _ => self.flaw(at, "a reference"),
        }
    }

    /// A parameter that may refer to another entity.
    pub(super) fn reference_or_none(&self, at: usize) -> Option<u64> {
        self.reference(at).ok()
    }

    /// A parameter that lists references; others in the list are passed over.
    pub(super) fn references(&self, at: usize) -> Vec<u64> {
        let of = |value: &Value| match value {
            Value::Reference(id) => Some(*id),
            _ => None,
        };
        self.list(at).iter().filter_map(of).collect()
    }

    /// A parameter that is a list; empty where it is none.
    pub(super) fn list(&self, at: usize) -> &[Value] {
        match self.get(at) {
            Value::List(values) => values,
            _ => &[],
        }
    }

    /// A parameter that is a number, also where it is marked with its type.
    pub(super) fn number(&self, at: usize) -> Result<f64, Trouble> {
        self.get(at).number().map_or_else(|| self.flaw(at, "a number"), Ok)
    }

    /// A parameter that is text; empty where it is none.
    pub(super) fn text(&self, at: usize) -> &str {
        match self.get(at) {
            Value::Text(text) => text,
            _ => "",
        }
    }

    /// A parameter that is one of a set of words; empty where it is none.
    pub(super) fn word(&self, at: usize) -> &str {
        match self.get(at) {
            Value::Word(word) => word,
            _ => "",
        }
    }

    fn flaw<T>(&self, at: usize, expected: &str) -> Result<T, Trouble> {
        let (id, name) = (self.id, &self.name);
        Err(Trouble::Flaw(format!("#{id} {name}: parameter {} is not {expected}", at + 1)))
    }
}

#[cfg(test)]
mod tests;
