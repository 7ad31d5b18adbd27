//! What belongs to what.

use std::collections::BTreeMap;

use super::Notes;
use crate::store::NoteKind;
use crate::store::import::step::{StepFile, Trouble};

/// The longest chain from a part to its storey that is followed.
const CHAIN_MAX: usize = 16;

/// The relations between products, by id.
#[derive(Debug, Default)]
pub(super) struct Relations {
    /// From a part to what it is a part of or stands in.
    whole: BTreeMap<u64, u64>,
    /// From an opening to the element that it is cut out of.
    pub(super) host: BTreeMap<u64, u64>,
    /// From a door or window to the opening that it fills.
    pub(super) fills: BTreeMap<u64, u64>,
    /// From an occurrence to its type.
    pub(super) kind: BTreeMap<u64, u64>,
}

impl Relations {
    pub(super) fn of(file: &StepFile<'_>, notes: &mut Notes) -> Result<Self, Trouble> {
        let mut relations = Self::default();
        // The parameter that holds the many, and the one that holds the one.
        for (name, many, one) in [
            ("IFCRELCONTAINEDINSPATIALSTRUCTURE", 4, 5),
            ("IFCRELAGGREGATES", 5, 4),
            ("IFCRELVOIDSELEMENT", 5, 4),
            ("IFCRELFILLSELEMENT", 5, 4),
            ("IFCRELDEFINESBYTYPE", 4, 5),
        ] {
            for id in file.named(name) {
                let entity = match file.entity(*id) {
                    Ok(entity) => entity,
                    Err(Trouble::Exhausted) => return Err(Trouble::Exhausted),
                    Err(Trouble::Flaw(flaw)) => {
                        notes.add(NoteKind::LeftOut, format!("#{id}"), flaw);
                        continue;
                    }
                };
                let Some(whole) = entity.reference_or_none(one) else { continue };
                let map = match name {
                    "IFCRELVOIDSELEMENT" => &mut relations.host,
                    "IFCRELFILLSELEMENT" => &mut relations.fills,
                    "IFCRELDEFINESBYTYPE" => &mut relations.kind,
                    _ => &mut relations.whole,
                };
                let parts =
                    entity.references(many).into_iter().chain(entity.reference_or_none(many));
                for part in parts {
                    map.entry(part).or_insert(whole);
                }
            }
        }
        Ok(relations)
    }

    /// The first of the storeys that a product belongs to.
    pub(super) fn storey(&self, product: u64, storeys: &BTreeMap<u64, usize>) -> Option<usize> {
        let mut at = product;
        for _ in 0..CHAIN_MAX {
            if let Some(storey) = storeys.get(&at) {
                return Some(*storey);
            }
            at = *self.whole.get(&at)?;
        }
        None
    }
}
