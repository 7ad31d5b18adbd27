//! A plan under the hand: gestures become edits, and what moves meanwhile can
//! be drawn. No part of it needs a window; any front end can use it.
//!
//! [`Session`] is a few small states ([`state`]), each changed by messages of
//! its own. The steps of the job are folders: survey, points, circuits, runs,
//! papers. [`ground`] knows places on a plan and nothing of a hand; [`work`]
//! computes what is shown.

mod amounts;
mod band;
pub mod circuits;
mod document;
mod due;
mod going;
pub mod ground;

pub mod papers;
mod points;
mod press;
mod runs;
pub mod search;
#[expect(clippy::module_inception, reason = "a session is what the room is about")]
mod session;
mod showing;
mod sketch;
pub mod state;
pub mod survey;
#[cfg(test)]
mod tests;
pub mod work;

pub use document::Document;
pub use session::Session;
