//! What was routed before, so that after a drag only what changed is done again.

use std::collections::BTreeMap;

use super::Run;
use super::chain::Effort;
use super::house::House;
use crate::plan::{Circuit, CircuitId, Control, ControlId, End, Plan, Point, PointId};
use crate::space::{Space, Tariff, Terminal, VoidField, WallField};

/// The runs of a plan as last routed, with all that each depended on.
///
/// A run is taken over only where everything that could change it is as it was:
/// nothing is guessed, and what comes out is what routing from scratch gives.
#[derive(Clone, Debug, Default)]
pub struct Memory {
    ground: Option<Ground>,
    runs: BTreeMap<CircuitId, (Needs, Run)>,
}

/// What every run depends on: all voids, shafts and prices, and of each wall
/// what legs that only pass can see.
#[derive(Clone, Debug, PartialEq)]
struct Ground {
    voids: Vec<VoidField>,
    walls: Vec<WallField>,
    risers: Vec<Vec<(usize, (i64, i64))>>,
    tariff: Tariff,
    effort: Effort,
}

/// What one run depends on besides: its circuit, and the walls on which it
/// ends with all their columns and rows.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Needs {
    circuit: Circuit,
    points: Vec<(PointId, Point)>,
    controls: Vec<(ControlId, Control)>,
    terminals: Vec<Option<Terminal>>,
    walls: Vec<WallField>,
}

impl Memory {
    /// Gets ready for a plan: forgets all where the ground has changed.
    pub(super) fn look_at(&mut self, space: &Space, effort: &Effort) {
        let ground = Ground::of(space, effort);
        if self.ground.as_ref() != Some(&ground) {
            self.runs.clear();
            self.ground = Some(ground);
        }
    }

    /// The run of a circuit that needs this, if it was the same before.
    pub(super) fn recall(&self, id: CircuitId, needs: &Needs) -> Option<&Run> {
        self.runs.get(&id).filter(|known| known.0 == *needs).map(|known| &known.1)
    }

    /// Keeps a run that depends on nothing else. Others are forgotten.
    pub(super) fn keep(&mut self, id: CircuitId, needs: Needs, run: Option<&Run>) {
        match run {
            Some(run) => self.runs.insert(id, (needs, run.clone())),
            None => self.runs.remove(&id),
        };
    }
}

impl Ground {
    fn of(space: &Space, effort: &Effort) -> Self {
        let mut walls = space.walls.clone();
        for wall in &mut walls {
            wall.columns.retain(|column| column.through);
            wall.rows.clear();
        }
        Self {
            voids: space.voids.clone(),
            walls,
            risers: space.risers.clone(),
            tariff: space.tariff,
            effort: *effort,
        }
    }
}

impl Needs {
    /// What the run of a circuit depends on.
    pub(super) fn of(plan: &Plan, space: &Space, house: &House<'_>, circuit: CircuitId) -> Self {
        let drawn = plan.circuits[&circuit].clone();
        let on_it = plan.points.iter().filter(|(_, point)| point.circuit == Some(circuit));
        let points: Vec<(PointId, Point)> = on_it.map(|(id, point)| (*id, point.clone())).collect();
        let has = |id: &PointId| points.iter().any(|point| point.0 == *id);
        let controls = plan
            .controls
            .iter()
            .filter(|(_, one)| one.lights.iter().chain(&one.switches).any(has))
            .map(|(id, control)| (*id, control.clone()))
            .collect();
        let board = drawn.board.map(End::Board);
        let ends = board.into_iter().chain(points.iter().map(|point| End::Point(point.0)));
        let terminals: Vec<Option<Terminal>> =
            ends.map(|end| house.terminal(end).cloned()).collect();
        let mut on: Vec<usize> = terminals
            .iter()
            .flatten()
            .filter_map(|terminal| match terminal {
                Terminal::Wall { wall, .. } => Some(*wall),
                _ => None,
            })
            .collect();
        on.sort_unstable();
        on.dedup();
        let walls = on.into_iter().map(|wall| space.walls[wall].clone()).collect();
        Self { circuit: drawn, points, controls, terminals, walls }
    }
}
