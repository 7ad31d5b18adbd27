//! From one plan to another as one edit.

use std::collections::{BTreeMap, BTreeSet};
use std::hash::Hash;

use indexmap::IndexMap;

use super::{Change, Edit, End, Plan};

impl Plan {
    /// The job without anything that is drawn: its names, habits, stock and
    /// prices.
    #[must_use]
    pub fn undrawn(&self) -> Self {
        Self {
            project: self.project.clone(),
            allowances: self.allowances,
            habits: self.habits,
            stock: self.stock.clone(),
            prices: self.prices.clone(),
            kept: self.kept.issued(),
            next_id: self.next_id,
            ..Self::default()
        }
    }

    /// The one edit that makes this plan into another: what is not in the
    /// other goes, what differs is put, what is new comes last in the other's
    /// order. Equal things stay where they are in the order of drawing.
    ///
    /// `self` with this edit applied equals `to` but for the counter of ids,
    /// which never goes back, and what stood on issued papers, which stays.
    #[must_use]
    pub fn difference(&self, to: &Self) -> Edit {
        let mut edits = Vec::new();
        macro_rules! each {
            ($($map:ident),*) => {
                $(changes(&self.$map, &to.$map, &mut edits);)*
            };
        }
        each!(
            levels, voids, walls, openings, rooms, areas, risers, backdrops, boards, points,
            controls
        );
        changes(&self.circuits, &to.circuits, &mut edits);
        if self.project != to.project {
            edits.push(Edit::Project(to.project.clone().into()));
        }
        if self.allowances != to.allowances {
            edits.push(Edit::Allowances(to.allowances));
        }
        if self.habits != to.habits {
            edits.push(Edit::Habits(to.habits));
        }
        if self.stock != to.stock {
            edits.push(Edit::Stock(to.stock.clone()));
        }
        if self.prices != to.prices {
            edits.push(Edit::Prices(to.prices.clone()));
        }
        if self.measured != to.measured {
            edits.push(Edit::Measured(to.measured.clone()));
        }
        if self.readings != to.readings {
            edits.push(Edit::Readings(to.readings.clone()));
        }
        let marks = self.marks_to(to);
        if !marks.is_empty() {
            edits.push(Edit::Marks(marks));
        }
        Edit::Many(edits)
    }
}

impl Plan {
    /// The marks, on no issued paper yet, that differ from another plan's.
    fn marks_to(&self, to: &Self) -> Vec<(End, Option<String>)> {
        let loose = |plan: &Self| -> BTreeMap<End, String> {
            let marks = plan.kept.marks.iter().filter(|(_, mark)| mark.issued.is_none());
            marks.map(|(text, mark)| (mark.of, text.clone())).collect()
        };
        let (from, to) = (loose(self), loose(to));
        let ends: BTreeSet<&End> = from.keys().chain(to.keys()).collect();
        let differ = ends.into_iter().filter(|end| from.get(*end) != to.get(*end));
        differ.map(|end| (*end, to.get(end).cloned())).collect()
    }
}

fn changes<Id, Thing>(from: &IndexMap<Id, Thing>, to: &IndexMap<Id, Thing>, edits: &mut Vec<Edit>)
where
    Id: Copy + Eq + Hash,
    Thing: Clone + PartialEq,
    Change<Id, Thing>: Into<Edit>,
{
    for id in from.keys().filter(|id| !to.contains_key(*id)) {
        edits.push(Change::<Id, Thing>::Remove(*id).into());
    }
    for (id, thing) in to.iter().filter(|(id, thing)| from.get(*id) != Some(*thing)) {
        edits.push(Change::Put(*id, thing.clone()).into());
    }
}
