//! Wirewend checked from outside.

mod plan_edits;
mod plan_files;
mod sample;
