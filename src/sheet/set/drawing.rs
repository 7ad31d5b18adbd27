//! A set while it is drawn.

use std::cell::OnceCell;

use super::Measured;
use crate::checks::ExpectedTests;
use crate::rules::RuleBook;
use crate::sheet::{Floors, House};
use crate::takeoff::{Choices, ClientChoices, TakeOff, Variation};
use crate::units::Watch;

/// What papers are drawn from, and what was said on the way.
pub(super) struct Drawing<'d> {
    pub(super) job: Measured<'d>,
    pub(super) house: House<'d>,
    pub(super) floors: Floors<'d>,
    pub(super) take_off: &'d TakeOff,
    pub(super) choices: &'d Choices,
    /// The same as the client may see it.
    pub(super) client: ClientChoices,
    /// An earlier revision, and what changed since.
    pub(super) changes: Option<(Measured<'d>, Variation)>,
    pub(super) book: &'d RuleBook,
    /// Once a paper or a list needs them.
    pub(super) tests: OnceCell<ExpectedTests>,
    pub(super) watch: &'d Watch,
    pub(super) said: String,
}
