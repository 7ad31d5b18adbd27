//! Wirewend checked from outside.

mod plan_edits;
mod plan_files;
mod plan_review;
mod plan_schema;
mod sample;
