//! What every check looks at.

use std::cell::OnceCell;

use super::network::Network;
use super::options::Options;
use crate::lengths::{LegLength, Lengths};
use crate::plan::{
    Board, BoardId, Cable, Circuit, CircuitId, End, Labels, Plan, Point, PointId, Regime, labels,
};
use crate::rules::{RuleBook, Tables};
use crate::runs::{Leg, Run, Runs};
use crate::units::{Mm, Point3};

/// A plan with all that was worked out for it so far.
#[derive(Debug)]
pub(super) struct House<'a> {
    /// What was drawn.
    pub plan: &'a Plan,
    /// How it is joined.
    pub runs: &'a Runs,
    /// How long that is.
    pub lengths: &'a Lengths,
    /// The tables.
    pub rules: &'a RuleBook,
    /// What was chosen.
    pub options: Options,
    /// Whose rules apply.
    pub regime: Regime,
    labels: OnceCell<Labels>,
}

impl<'a> House<'a> {
    /// All of it together.
    #[must_use]
    pub(super) fn new(
        plan: &'a Plan,
        runs: &'a Runs,
        lengths: &'a Lengths,
        rules: &'a RuleBook,
        options: Options,
    ) -> Self {
        let regime = plan.project.regime;
        Self { plan, runs, lengths, rules, options, regime, labels: OnceCell::new() }
    }

    /// The rule tables of its regime.
    #[must_use]
    pub(super) fn tables(&self) -> &'a Tables {
        self.rules.of(self.regime)
    }

    /// The mark of an end, made only when a finding wants one.
    pub(super) fn label(&self, end: End) -> &str {
        self.labels.get_or_init(|| labels(self.plan)).end(end)
    }

    /// A circuit by its number, with its board where there are several.
    pub(super) fn circuit_name(&self, circuit: &Circuit) -> String {
        if self.plan.boards.len() < 2 {
            return format!("circuit {}", circuit.number);
        }
        self.labels.get_or_init(|| labels(self.plan)).circuit(circuit)
    }

    /// Where an end is, if it is placed.
    pub(super) fn place(&self, end: End) -> Option<Point3> {
        self.plan.position_on_face(&self.plan.place_of(end)?)
    }

    /// The circuits, each as a case.
    pub(super) fn cases(&'a self) -> Vec<Case<'a>> {
        let mut points: indexmap::IndexMap<CircuitId, Vec<(PointId, &Point)>> =
            self.plan.circuits.keys().map(|id| (*id, Vec::new())).collect();
        for (id, point) in &self.plan.points {
            if let Some(list) = point.circuit.and_then(|circuit| points.get_mut(&circuit)) {
                list.push((*id, point));
            }
        }
        points.into_iter().map(|(id, points)| self.case(id, points)).collect()
    }

    fn case(&'a self, id: CircuitId, points: Vec<(PointId, &'a Point)>) -> Case<'a> {
        let circuit = &self.plan.circuits[&id];
        let run = self.runs.circuits.get(&id);
        let board = circuit.board.and_then(|id| Some((id, self.plan.boards.get(&id)?)));
        let lengths = self.lengths.circuits.get(&id).map_or(&[][..], |legs| legs.as_slice());
        let network = run.and_then(Network::of);
        Case { house: self, id, circuit, run, lengths, board, points, network }
    }
}

/// A circuit with all that belongs to it.
#[derive(Debug)]
pub(super) struct Case<'a> {
    /// The rest of the plan.
    pub house: &'a House<'a>,
    /// Which circuit.
    pub id: CircuitId,
    /// The circuit as drawn.
    pub circuit: &'a Circuit,
    /// Its cable.
    pub run: Option<&'a Run>,
    /// How long its legs are, where that was worked out.
    pub(super) lengths: &'a [LegLength],
    /// Where it comes from.
    pub board: Option<(BoardId, &'a Board)>,
    /// Its points in the order of drawing.
    pub points: Vec<(PointId, &'a Point)>,
    /// Its legs as a network.
    pub network: Option<Network>,
}

impl Case<'_> {
    /// The circuit as people call it: `circuit 3 (kitchen)`.
    pub(super) fn name(&self) -> String {
        let number = self.house.circuit_name(self.circuit);
        if self.circuit.name.is_empty() {
            number
        } else {
            format!("{number} ({})", self.circuit.name)
        }
    }

    /// Its legs.
    pub(super) fn legs(&self) -> &[Leg] {
        self.run.map_or(&[], |run| &run.legs)
    }

    /// The length that resists: measured, or along the installed way.
    pub(super) fn length(&self, leg: usize) -> Mm {
        match self.lengths.get(leg) {
            Some(length) => length.measured.unwrap_or(length.route.value),
            None => self.legs()[leg].route.length,
        }
    }

    /// The cable of a leg when the circuit is wired in `cable`: legs keep
    /// their cores, and their size if they were given one of their own.
    pub(super) fn cable_of(&self, leg: usize, cable: Cable) -> Cable {
        let usual = self.circuit.cable.map(|usual| usual.size);
        match self.legs()[leg].cable {
            Some(own) if Some(own.size) == usual => Cable { cores: own.cores, ..cable },
            Some(own) => own,
            None => cable,
        }
    }

    /// Whether the load is shared by three phases.
    pub(super) fn three_phase(&self, cable: Cable) -> bool {
        let phases = self.board.and_then(|(_, board)| board.supply.phases);
        phases == Some(3) && cable.cores >= 4 && self.circuit.phase.is_none()
    }

    /// A leg in words: `leg 4 from SO3 to SO4`.
    pub(super) fn leg_name(&self, leg: usize) -> String {
        let leg = &self.legs()[leg];
        let (from, to) = (self.house.label(leg.from), self.house.label(leg.to));
        format!("leg {} from {from} to {to}", leg.number)
    }
}
