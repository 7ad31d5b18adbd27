//! Flows through the window without a screen.

mod file_flows;
mod reach;
