//! What is different of one thing, as it is told.

use std::hash::Hash;

use indexmap::IndexMap;
use serde::Serialize;

use crate::plan::{Labels, Plan, Subject, labels};

/// Something that was drawn or set, and what is different about it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct ThingChange {
    /// What it belongs with.
    pub section: Section,
    /// Which thing of the drawing. None: something that is set.
    pub subject: Option<Subject>,
    /// What people call it, in the new plan where it is still there.
    pub name: String,
    /// What is different, each by itself: `number 4, was 3`.
    pub what: Vec<String>,
}

/// What a change belongs with, in the order in which it is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Section {
    /// The job: names, day, rules, tax.
    Job,
    /// Points.
    Points,
    /// Boards and the supply.
    Boards,
    /// Circuits.
    Circuits,
    /// Which switches work which lights.
    Switching,
    /// Levels, voids, walls, openings, rooms, areas, risers.
    Building,
    /// What is added to lengths, and what steers the routes.
    Allowances,
    /// What cable can be cut from. The contractor's own.
    Stock,
    /// What things cost and how long they take. The contractor's own.
    Prices,
    /// Legs as they were measured, and readings.
    Built,
}

impl Section {
    /// What people call it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Job => "The job",
            Self::Points => "Points",
            Self::Boards => "Boards and supply",
            Self::Circuits => "Circuits",
            Self::Switching => "Switching",
            Self::Building => "The building",
            Self::Allowances => "Lengths and routes",
            Self::Stock => "Stock",
            Self::Prices => "Prices and rates",
            Self::Built => "As built",
        }
    }

    /// Whether it is nobody's business but the contractor's.
    #[must_use]
    pub const fn is_internal(self) -> bool {
        matches!(self, Self::Stock | Self::Prices)
    }
}

/// A plan with the marks of what is in it.
pub(super) struct Side<'a> {
    pub(super) plan: &'a Plan,
    pub(super) marks: Labels,
}

impl<'a> Side<'a> {
    pub(super) fn of(plan: &'a Plan) -> Self {
        Self { plan, marks: labels(plan) }
    }
}

/// What happened to a thing.
pub(super) enum Fate<'t, T> {
    Gone(&'t T),
    Came(&'t T),
    Stayed { was: &'t T, is: &'t T },
}

/// What happened to every thing of a kind: those of the old plan in its order
/// of drawing, then those that came.
pub(super) fn fates<'t, Id, T>(
    old: &'t IndexMap<Id, T>,
    new: &'t IndexMap<Id, T>,
) -> impl Iterator<Item = (Id, Fate<'t, T>)>
where
    Id: Copy + Eq + Hash,
{
    let before = old
        .iter()
        .map(|(id, was)| (*id, new.get(id).map_or(Fate::Gone(was), |is| Fate::Stayed { was, is })));
    let came = new.iter().filter(|(id, _)| !old.contains_key(*id));
    before.chain(came.map(|(id, is)| (*id, Fate::Came(is))))
}

/// The differences of one thing as they are found.
#[derive(Default)]
pub(super) struct Told(Vec<String>);

impl Told {
    pub(super) fn say(&mut self, what: impl Into<String>) {
        self.0.push(what.into());
    }

    /// `height 2.40 m, was 2.70 m`, where the two differ.
    pub(super) fn field<T: PartialEq>(
        &mut self,
        name: &str,
        was: &T,
        is: &T,
        says: impl Fn(&T) -> String,
    ) {
        if was != is {
            self.say(format!("{name} {}, was {}", says(is), says(was)));
        }
    }

    /// The same for words, in quotes where they are written by hand.
    pub(super) fn text(&mut self, name: &str, was: &str, is: &str) {
        if was == is {
            return;
        }
        let quoted = |text: &str| match text {
            "" => "none".to_owned(),
            text => format!("\"{text}\""),
        };
        self.say(format!("{name} {}, was {}", quoted(is), quoted(was)));
    }

    /// A change of a thing; none where nothing differs.
    pub(super) fn of(
        self,
        section: Section,
        subject: Option<Subject>,
        name: impl Into<String>,
    ) -> Option<ThingChange> {
        let Self(what) = self;
        (!what.is_empty()).then(|| ThingChange { section, subject, name: name.into(), what })
    }
}

/// A change that is told in one go.
pub(super) fn once(
    section: Section,
    subject: Option<Subject>,
    name: impl Into<String>,
    what: impl Into<String>,
) -> ThingChange {
    ThingChange { section, subject, name: name.into(), what: vec![what.into()] }
}
