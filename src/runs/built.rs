//! How much of a plan was built as drawn, as far as tape and meter tell.

use std::collections::BTreeSet;

use super::{Leg, Runs};
use crate::plan::{CircuitId, End, Plan, PointId, Stage, Status};

/// What was measured of what is routed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Built {
    /// How far the plan tells what was built.
    pub stage: Stage,
    /// How many legs there are.
    pub legs: usize,
    /// How many of them were measured.
    pub measured: usize,
    /// The legs that never were: circuit, number in the circuit, and ends.
    pub missing: Vec<(CircuitId, u32, [End; 2])>,
    /// The points on a circuit at which no measured leg ends and nothing was
    /// read.
    pub points: Vec<PointId>,
    /// Who says that all was built as planned, and when.
    said: Option<String>,
}

/// What was measured of a plan, leg by leg.
#[must_use]
pub fn built(plan: &Plan, runs: &Runs) -> Built {
    let all = || runs.circuits.values().flat_map(|run| &run.legs);
    let key = |circuit: CircuitId, from: End, to: End| (circuit, from.min(to), from.max(to));
    let told = plan.measured.iter();
    let told: BTreeSet<_> = told.map(|one| key(one.circuit, one.from, one.to)).collect();
    let is_measured = |leg: &&Leg| told.contains(&key(leg.circuit, leg.from, leg.to));
    let (legs, measured) = (all().count(), all().filter(is_measured).count());
    let missing = all().filter(|leg| !is_measured(leg));
    let missing: Vec<_> =
        missing.map(|leg| (leg.circuit, leg.number, [leg.from, leg.to])).collect();
    let ends = told.iter().flat_map(|(_, from, to)| [*from, *to]);
    let seen: BTreeSet<End> = ends.chain(plan.readings.iter().map(|one| one.at)).collect();
    let wired = plan.points.iter().filter(|(_, point)| point.circuit.is_some());
    let points = wired.map(|(id, _)| *id).filter(|id| !seen.contains(&End::Point(*id))).collect();
    let is_whole = legs > 0 && missing.is_empty() && plan.project.status == Status::AsBuilt;
    let stage = match plan.stage() {
        Stage::InPart if is_whole => Stage::AsBuilt,
        stage => stage,
    };
    let said = plan.as_planned().map(|said| format!("{}, {}", said.on, said.by));
    Built { stage, legs, measured, missing, points, said }
}

impl Built {
    /// What stands behind it: how many legs were measured, or who says so.
    #[must_use]
    pub fn because(&self) -> Option<String> {
        match self.stage {
            Stage::Planned => None,
            Stage::InPart | Stage::AsBuilt => {
                Some(format!("{} of {} legs measured", self.measured, self.legs))
            }
            Stage::AsPlanned => self.said.clone(),
        }
    }

    /// As papers say it: `as built in part: 0 of 77 legs measured`.
    #[must_use]
    pub fn words(&self) -> String {
        let because = self.because().map_or_else(String::new, |because| format!(": {because}"));
        format!("{}{because}", self.stage.name())
    }
}
