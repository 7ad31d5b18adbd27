//! The main flows without a window: what the hand does, what the plan then is.

mod circuit_flows;
mod flows;
mod habit_flows;
mod layout_flows;
mod number_flows;
mod set_out_flows;
mod survey_flows;
mod unnamed_flows;
