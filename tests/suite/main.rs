//! Wirewend checked from outside.

mod exact_houses;
mod plan_edits;
mod plan_files;
mod published_orders;
mod sample;
