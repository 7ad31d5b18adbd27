//! Wirewend checked from outside.

mod plan_files;
mod sample;
