//! Plans wired by hand, leg by leg, for tests and benches.
#![allow(
    dead_code,
    unreachable_pub,
    missing_docs,
    reason = "shared by tests and benches, each taking what it needs"
)]

use wirewend::lengths::Lengths;
use wirewend::plan::{
    Board, BoardId, Cable, CableMake, Circuit, CircuitId, CircuitUse, Curve, Device, Earthing, End,
    Plan, Point, PointId, PointKind, Regime, Supply,
};
use wirewend::runs::{
    Heading, Leg, LegRole, Order, OrderMethod, Route, Run, Runs, Segment, Surrounding,
};
use wirewend::units::{Amps, Cost, Csa, Mm, Ohms, Point3, Volts, Watts};

/// The board of every plan here.
pub const BOARD: End = End::Board(BoardId(1));

/// A plan with its runs; lengths are left to the routes.
#[derive(Clone, Debug)]
pub struct Wired {
    pub plan: Plan,
    pub runs: Runs,
    pub lengths: Lengths,
}

/// A stretch: what it runs through, mm, insulation mm, legs beside it.
pub type Stretch = (Surrounding, i64, i64, u32);

impl Wired {
    /// One board whose supply is known in full: 230 V, 0.35 Ω, 1.5 kA, 63 A.
    pub fn new(regime: Regime) -> Self {
        let mut plan = Plan::default();
        plan.project.regime = regime;
        let supply = Supply {
            voltage: Some(Volts(230.0)),
            phases: Some(1),
            loop_impedance: Some(Ohms(0.35)),
            fault_current: Some(Amps(1500.0)),
            earthing: Some(Earthing::TnCS),
            main_switch: Some(Amps(63.0)),
        };
        let board = Board { label: "DB1".into(), place: None, supply, ways: Some(18) };
        plan.boards.insert(BoardId(1), board);
        plan.next_id = 2;
        Self { plan, runs: Runs::default(), lengths: Lengths::default() }
    }

    fn id(&mut self) -> u32 {
        self.plan.next_id += 1;
        self.plan.next_id
    }

    pub fn supply(&mut self) -> &mut Supply {
        &mut self.plan.boards[&BoardId(1)].supply
    }

    /// A circuit on flat two-core cable behind a breaker that trips at 30 mA.
    pub fn circuit(&mut self, usage: CircuitUse, mm2: f64, rating: f64, curve: Curve) -> CircuitId {
        let id = CircuitId(self.id());
        let number = u16::try_from(self.plan.circuits.len() + 1).expect("a board has few circuits");
        let circuit = Circuit {
            board: Some(BoardId(1)),
            cable: Some(cable(mm2)),
            device: Some(Device { rating: Amps(rating), curve, residual: Some(Amps(0.03)) }),
            ..Circuit::new(number, usage)
        };
        self.plan.circuits.insert(id, circuit);
        let order = Order {
            ends: Vec::new(),
            cost: Cost::ZERO,
            bound: Cost::ZERO,
            method: OrderMethod::Fixed,
            matrix: Vec::new(),
            matrix_ends: Vec::new(),
        };
        self.runs.circuits.insert(id, Run { legs: Vec::new(), order });
        id
    }

    pub fn change(&mut self, id: CircuitId) -> &mut Circuit {
        &mut self.plan.circuits[&id]
    }

    pub fn point(&mut self, circuit: CircuitId, kind: PointKind, load: Option<f64>) -> End {
        let id = PointId(self.id());
        let point = Point { circuit: Some(circuit), load: load.map(Watts), ..Point::new(kind) };
        self.plan.points.insert(id, point);
        End::Point(id)
    }

    pub fn leg(
        &mut self,
        circuit: CircuitId,
        role: LegRole,
        from: End,
        to: End,
        stretches: &[Stretch],
    ) {
        let cable = self.plan.circuits[&circuit].cable;
        let run = &mut self.runs.circuits[&circuit];
        let mut x = 0;
        let segments = stretches
            .iter()
            .map(|(through, length, insulation, beside)| {
                let from = Point3::new(x, 0, 2400);
                x += length;
                Segment {
                    from,
                    to: Point3::new(x, 0, 2400),
                    length: Mm::new(*length),
                    plane: None,
                    heading: Heading::AlongJoists,
                    through: *through,
                    insulation: Mm::new(*insulation),
                    beside: *beside,
                }
            })
            .collect();
        let number = u32::try_from(run.legs.len() + 1).expect("a run has few legs");
        let route = Route { segments, cost: Cost::ZERO, length: Mm::new(x) };
        run.legs.push(Leg { circuit, number, role, from, to, cable, route });
    }

    /// A chain of points of one kind, legs of one length on the surface.
    pub fn chain(&mut self, circuit: CircuitId, kind: PointKind, legs_mm: &[i64]) -> Vec<End> {
        let mut ends = Vec::new();
        let mut from = BOARD;
        for length in legs_mm {
            let to = self.point(circuit, kind, None);
            self.leg(circuit, LegRole::Feed, from, to, &[(Surrounding::Surface, *length, 0, 0)]);
            ends.push(to);
            from = to;
        }
        ends
    }
}

/// Flat two-core cable.
pub fn cable(mm2: f64) -> Cable {
    Cable { cores: 2, size: Csa::try_from(mm2).expect("a size of cable"), make: CableMake::Flat }
}
