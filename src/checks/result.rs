//! What checking yields.

use indexmap::IndexMap;
use serde::Serialize;

use super::readings::JudgedReading;
use crate::plan::{BoardId, CircuitId, End, Finding};
use crate::units::{Amps, Ohms, Point3, Volts, Worked};

/// Figures and findings of a whole plan.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Checked {
    /// For every circuit of the plan, in the plan's order.
    pub circuits: IndexMap<CircuitId, CircuitFigures>,
    /// For every board of the plan, in the plan's order.
    pub boards: IndexMap<BoardId, BoardFigures>,
    /// Readings taken on site, each as it was judged.
    pub readings: Vec<JudgedReading>,
    /// What a person should look at, worst first.
    pub findings: Vec<Finding>,
    /// What belongs on every output.
    pub cautions: Vec<String>,
}

/// The figures of a circuit. What could not be worked out is None, and a
/// finding says why.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct CircuitFigures {
    /// What it is designed for.
    pub design_current: Option<Worked<Amps>>,
    /// The rating of its device.
    pub device: Option<Amps>,
    /// What its cable can carry where it lies worst.
    pub capacity: Option<Worked<Amps>>,
    /// Whether that rating is an estimate.
    pub estimated: bool,
    /// The stretch that governs.
    pub governing: Option<GoverningStretch>,
    /// The greatest volt drop.
    pub volt_drop: Option<Worked<Volts>>,
    /// The same in percent of nominal.
    pub volt_drop_percent: Option<f64>,
    /// The limit it is held against, percent.
    pub volt_drop_limit_percent: Option<f64>,
    /// The greatest earth-fault loop impedance.
    pub loop_impedance: Option<Worked<Ohms>>,
    /// The limit it is held against.
    pub loop_limit: Option<Worked<Ohms>>,
    /// The longest way to a point that keeps within that limit, m.
    pub longest_m: Option<f64>,
    /// The least conductor that stands a fault, mm².
    pub least_section_mm2: Option<f64>,
    /// For every leg, in the order of the run.
    pub legs: Vec<LegFigures>,
    /// For every end of a leg, the board left out, nearer ones first.
    pub points: Vec<PointFigures>,
}

/// The stretch of a circuit that governs its rating.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
pub struct GoverningStretch {
    /// The number of its leg.
    pub leg: u32,
    /// Its place among the segments of the leg's route, from 0.
    pub segment: usize,
    /// Where it begins.
    pub from: Point3,
    /// Where it ends.
    pub to: Point3,
}

/// The figures of a leg.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct LegFigures {
    /// Its number.
    pub number: u32,
    /// What it can carry on its worst stretch.
    pub capacity: Option<Amps>,
    /// That stretch, by its place among the segments.
    pub segment: Option<usize>,
}

/// The figures at an end.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct PointFigures {
    /// Which end.
    pub end: End,
    /// Volt drop from the board.
    pub volt_drop: Volts,
    /// The same in percent of nominal.
    pub volt_drop_percent: f64,
    /// Phase and protective conductor from the board, at 20 °C.
    pub r1_r2: Ohms,
    /// Earth-fault loop impedance at working temperature; None where the
    /// supply's is not known.
    pub loop_impedance: Option<Ohms>,
}

/// The figures of a board.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct BoardFigures {
    /// The most that is likely to be taken at once.
    pub demand: Option<Worked<Amps>>,
    /// Design currents on each phase, A.
    pub phases: Vec<f64>,
    /// Ways taken.
    pub ways_used: u16,
}

/// What belongs on every output.
pub const CAUTIONS: [&str; 4] = [
    "this helps to plan and certifies nothing; the local code and licensed people decide",
    "isolate, lock off and prove dead before touching any wiring",
    "figures marked as estimates or from memory must be checked against your own copy of the rules",
    "readings on site, not these figures, show whether an installation is safe",
];

/// What is said besides where `habits.keep_apart` holds: it raises ratings.
pub(super) const TAKEN_APART: &str = "cables side by side in voids and in the drop at the board are \
    rated as laid two diameters apart (from memory of IEC 60364-5-52): lay them so, or set \
    habits.keep_apart to false";
