//! What each message and each command does.

pub(in crate::app) mod bring;
mod files;
pub(in crate::app) mod find;
pub(in crate::app) mod first_time;
mod frame;
mod habits;
pub(in crate::app) mod in_the_way;
mod lists;
mod survey;
mod update;
mod working;
