//! All tests that need more than one room.

mod sheet;
mod sheet_sample;
