//! From a bare floor layout to a plan: what each room is used for, what goes
//! where, and which points share a circuit.
//!
//! The front door is [`draft()`]. What was drawn already stays as it is: rooms
//! that have sockets get no more, points on circuits keep them, boards stay
//! where they are. Every choice carries its reason. Counts, heights, distances
//! and sizes come from the rule tables, most of them common practice: a draft
//! is something to correct, not something to build from.
//!
//! The same layout and options give the same draft everywhere.

mod alarms;
mod beyond;
mod board;
mod bodies;
mod circuits;
mod compare;
mod dwellings;
mod gaps;
mod grid;
mod inner;
mod join;
mod kit;
mod kitchen;
mod lights;
mod middles;
mod numbers;
mod options;
mod outline;
mod part;
mod planned;
mod porch;
mod room_finder;
mod size;
mod sockets;
mod spans;
mod standard;
mod summary;
mod survey;
mod switches;
mod uses;
mod voids;
mod walls_by_level;
mod ways_in;

use serde::Serialize;

pub use crate::rules::words::Standard;
pub use compare::{Compared, compare};
pub use options::{Above, BoardPlace, DraftError, DraftOptions, Side, Wayfare};
pub use summary::Summary;

use crate::plan::{Plan, Subject};
use crate::rules::RuleBook;
use crate::units::Watch;
use kit::Kit;
use survey::Survey;

/// A plan that was drafted, and why it is as it is.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Draft {
    /// The plan.
    #[serde(skip)]
    pub plan: Plan,
    /// Every choice with its reason, in the order in which they were made.
    pub reasons: Vec<Reason>,
    /// What it comes to.
    pub summary: Summary,
}

/// Why something is as it is.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Reason {
    /// What it is about.
    #[serde(serialize_with = "kit::subject_text")]
    pub subject: Subject,
    /// What was chosen.
    pub chosen: String,
    /// Why.
    pub because: String,
}

/// Drafts a plan: uses of rooms, points, boards, circuits.
///
/// # Errors
/// [`DraftError`] where there is nothing to place a point on, or the place that
/// was asked for the board is not in the plan.
pub fn draft(plan: Plan, rules: &RuleBook, options: &DraftOptions) -> Result<Draft, DraftError> {
    draft_watched(plan, rules, options, &Watch::default())
}

/// The same under a watch that counts rooms, then dwellings.
///
/// # Errors
/// As [`draft()`]; [`DraftError::Stopped`] where the watch was stopped.
pub fn draft_watched(
    plan: Plan,
    rules: &RuleBook,
    options: &DraftOptions,
    watch: &Watch,
) -> Result<Draft, DraftError> {
    if plan.walls.is_empty() {
        return Err(DraftError::NoWalls);
    }
    let mut kit = Kit::new(plan, rules, options);
    voids::supply(&mut kit);
    uses::guess(&mut kit);
    let survey = Survey::of(&kit.plan);
    if survey.spans.is_empty() {
        return Err(DraftError::NoWalls);
    }
    let mut dwellings = dwellings::find(&mut kit, &survey);
    board::place_all(&mut kit, &survey, &mut dwellings)?;
    let rooms: Vec<_> = survey.rooms().filter(|room| !kit.shafts.contains(room)).collect();
    watch.begin(rooms.len());
    for room in rooms {
        if watch.is_stopped() {
            return Err(DraftError::Stopped);
        }
        watch.step();
        kitchen::furnish(&mut kit, &survey, room);
        lights::hang(&mut kit, &survey, room);
        sockets::set(&mut kit, &survey, room);
    }
    switches::set(&mut kit, &survey, &dwellings);
    porch::furnish(&mut kit, &survey, &dwellings);
    alarms::hang(&mut kit, &survey, &dwellings);
    circuits::group(&mut kit, &dwellings, watch);
    if watch.is_stopped() {
        return Err(DraftError::Stopped);
    }
    kit.plan.keep_marks();
    let summary = Summary::of(&kit.plan, dwellings.len());
    Ok(Draft { plan: kit.plan, reasons: kit.reasons, summary })
}
