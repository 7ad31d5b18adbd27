//! The house with runs and lengths that are right, made by hand.

use wirewend::lengths::{CableLength, LegLength, Lengths};
use wirewend::plan::{Cable, CircuitId, End, Plan, Plane, Wiring};
use wirewend::runs::{Distance, Leg, LegRole, Order, OrderMethod, Run, Runs, Surrounding};
use wirewend::units::{Cost, Mm, Worked, Working};

use super::drawn::{DB, FLAT_DB, p, plan};
use super::pen::Pen;

/// All that the checker judges.
#[derive(Clone)]
pub(super) struct Job {
    pub(super) plan: Plan,
    pub(super) runs: Runs,
    pub(super) lengths: Lengths,
}

impl Job {
    /// The house, right in everything.
    pub(super) fn right() -> Self {
        let plan = plan();
        let mut runs = Runs::default();
        let legs = legs(&plan);
        for id in plan.circuits.keys() {
            let own = legs.iter().filter(|leg| leg.circuit == *id).cloned().collect();
            let order = Order {
                ends: Vec::new(),
                cost: Cost::ZERO,
                bound: Cost::ZERO,
                method: OrderMethod::Exact,
                matrix: Vec::new(),
                matrix_ends: Vec::new(),
            };
            runs.circuits.insert(*id, Run { legs: own, order });
        }
        let mut job = Self { plan, runs, lengths: Lengths::default() };
        for id in 1..=8 {
            job.number(id);
            job.run(id).order.ends = ends(&job.runs.circuits[&CircuitId(id)].legs);
            job.settle(id);
        }
        job.lengths = lengths(&job.plan, &job.runs);
        job
    }

    pub(super) fn run(&mut self, circuit: u32) -> &mut Run {
        &mut self.runs.circuits[&CircuitId(circuit)]
    }

    /// A leg by its number.
    pub(super) fn leg(&mut self, circuit: u32, number: usize) -> &mut Leg {
        &mut self.run(circuit).legs[number - 1]
    }

    /// The lengths of a leg by its number.
    pub(super) fn length(&mut self, circuit: u32, number: usize) -> &mut LegLength {
        &mut self.lengths.circuits[&CircuitId(circuit)][number - 1]
    }

    /// Numbers the legs of a run anew.
    pub(super) fn number(&mut self, circuit: u32) {
        for (leg, number) in self.run(circuit).legs.iter_mut().zip(1..) {
            leg.number = number;
        }
    }

    /// Makes the order of a run agree with its legs.
    pub(super) fn settle(&mut self, circuit: u32) {
        let run = self.run(circuit);
        let order = &mut run.order;
        order.matrix_ends = order.ends.clone();
        let nothing = Distance { cost: Cost::ZERO, length: Mm::ZERO };
        let row = |from: End| {
            let to = |to: End| {
                let joins =
                    |leg: &&Leg| [(leg.from, leg.to), (leg.to, leg.from)].contains(&(from, to));
                let leg = run.legs.iter().find(joins);
                let leg =
                    leg.map(|leg| Distance { cost: leg.route.cost, length: leg.route.length });
                if from == to { Some(nothing) } else { leg }
            };
            order.matrix_ends.iter().map(|end| to(*end)).collect()
        };
        let matrix = order.matrix_ends.iter().map(|end| row(*end)).collect();
        order.matrix = matrix;
        let fed = [LegRole::Feed, LegRole::Interlink, LegRole::RingReturn];
        let feed = run.legs.iter().filter(|leg| fed.contains(&leg.role));
        order.cost = feed.map(|leg| leg.route.cost).sum();
        order.bound = order.cost;
    }

    /// Draws a leg anew.
    pub(super) fn redraw(&mut self, circuit: u32, number: usize, draw: impl Fn(Pen) -> Pen) {
        let from = self.leg(circuit, number).from;
        let route = draw(Pen::at(&self.plan, from)).route();
        self.leg(circuit, number).route = route;
        self.settle(circuit);
    }
}

/// Where the feed goes, from its legs.
fn ends(legs: &[Leg]) -> Vec<End> {
    let feed = legs.iter().filter(|leg| [LegRole::Feed, LegRole::Interlink].contains(&leg.role));
    let mut ends = vec![legs[0].from];
    ends.extend(feed.map(|leg| leg.to));
    ends
}

fn legs(plan: &Plan) -> Vec<Leg> {
    use LegRole::{Feed, Interlink, LightLink, RingReturn, Spur, Strappers, SwitchLeg};
    let at = |end| Pen::at(plan, end);
    let up = || at(DB).climb(4, 2400).plate(4, 2600);
    vec![
        up().cross(1, 1000, 2000).cross(1, 1000, 0).plate(1, 2400).climb(1, 300).leg(
            1,
            Feed,
            DB,
            p(1),
        ),
        at(p(1)).sideways(1, 4500, 0).leg(1, Feed, p(1), p(2)),
        up().cross(1, 1500, 2000).pass(2400).leg(2, Feed, DB, p(3)),
        at(p(3)).pass(2600).cross(1, 4500, 2000).pass(2400).leg(2, Feed, p(3), p(4)),
        at(p(3))
            .pass(2600)
            .cross(1, 3000, 2000)
            .cross(1, 3000, 500)
            .plate(5, 2400)
            .climb(5, 1100)
            .leg(2, SwitchLeg, p(3), p(5)),
        at(p(5))
            .climb(5, 2400)
            .plate(5, 2600)
            .cross(1, 5500, 500)
            .cross(1, 5500, 0)
            .plate(1, 2400)
            .climb(1, 1100)
            .leg(2, Strappers, p(5), p(6)),
        at(p(4)).pass(2600).cross(1, 4500, 3000).pass(2400).leg(2, LightLink, p(4), p(7)),
        at(p(4)).pass(2600).cross(1, 6000, 2000).plate(2, 2400).climb(2, 1100).leg(
            2,
            SwitchLeg,
            p(4),
            p(8),
        ),
        up().cross(1, 1500, 2000).cross(1, 1500, 1000).pass(2400).leg(3, Feed, DB, p(9)),
        at(p(9)).pass(2600).cross(1, 4500, 1000).pass(2400).leg(3, Interlink, p(9), p(10)),
        up().cross(1, 1000, 2000).cross(1, 1000, 4000).plate(3, 2400).climb(3, 300).leg(
            4,
            Feed,
            DB,
            p(12),
        ),
        at(p(12)).sideways(3, 5000, 4000).leg(4, Feed, p(12), p(11)),
        at(p(11))
            .climb(3, 2400)
            .plate(3, 2600)
            .cross(1, 5000, 2000)
            .cross(1, 0, 2000)
            .plate(4, 2400)
            .climb(4, 1500)
            .leg(4, RingReturn, p(11), DB),
        up().cross(1, 1000, 2000)
            .cross(1, 1000, 3500)
            .cross(1, 3000, 3500)
            .plate(5, 2400)
            .climb(5, 300)
            .leg(5, Feed, DB, p(13)),
        at(p(13)).sideways(5, 3000, 2000).leg(5, Spur, p(13), p(14)),
        at(DB).climb(4, 0).plate(4, -600).cross(3, 0, -3000).cross(3, 3000, -3000).post(1000).leg(
            6,
            Feed,
            DB,
            p(15),
        ),
        at(FLAT_DB).sideways(11, 4000, 0).sideways(12, 4000, 1000).leg(7, Feed, FLAT_DB, p(16)),
        foreign(up(), 3875).leg(8, Feed, DB, p(17)),
        at(p(17))
            .climb(1, 0)
            .plate(1, -300)
            .cross(2, 3500, 2000)
            .cross(2, 5000, 2000)
            .pass(2600)
            .cross(1, 5000, 3000)
            .cross(1, 6000, 3000)
            .plate(2, 2400)
            .climb(2, 300)
            .leg(8, Feed, p(17), p(18)),
    ]
}

/// From the roof down through wall 2, so far along it, under the floor and up
/// to point 17.
pub(super) fn foreign(pen: Pen, along: i64) -> Pen {
    pen.cross(1, 6000, 2000)
        .cross(1, 6000, along)
        .plate(2, 2400)
        .climb(2, 0)
        .plate(2, -300)
        .cross(2, 3500, along)
        .cross(2, 3500, 0)
        .plate(1, 0)
        .climb(1, 300)
}

fn worked(value: Mm) -> Worked<Mm> {
    Worked { value, working: Working::default() }
}

/// Lengths by the pen's own marks: it gives a plate its wall, a ceiling none.
fn lengths(plan: &Plan, runs: &Runs) -> Lengths {
    let mut lengths = Lengths::default();
    let mut pieces: Vec<(Option<Cable>, Mm)> = Vec::new();
    for (id, run) in &runs.circuits {
        let made: Vec<LegLength> = run.legs.iter().map(|leg| leg_length(plan, leg)).collect();
        pieces.extend(run.legs.iter().zip(&made).map(|(leg, one)| (leg.cable, one.cut.value)));
        lengths.circuits.insert(*id, made.into());
    }
    pieces.sort();
    for own in pieces.chunk_by(|one, other| one.0 == other.0) {
        let cut: Mm = own.iter().map(|piece| piece.1).sum();
        let order = worked(cut + cut.permille_up(100));
        lengths.cables.push(CableLength { cable: own[0].0, pieces: own.len(), cut, order });
    }
    lengths
}

fn leg_length(plan: &Plan, leg: &Leg) -> LegLength {
    let segments = &leg.route.segments;
    let plates = segments
        .iter()
        .filter(|one| one.through == Surrounding::Plate && one.plane.is_some())
        .map(|_| 150);
    let void = segments.iter().any(|one| matches!(one.plane, Some(Plane::Void(_))));
    let route = leg.route.length
        + Mm::new(plates.sum())
        + leg.route.length.permille_up(50)
        + Mm::new(if void { 500 } else { 0 });
    let tail = |end| match end {
        End::Board(_) => Mm::new(1500),
        End::Point(id) if id.0 == 1 => Mm::new(450),
        End::Point(id) if [3, 4, 7, 9, 10].contains(&id.0) => Mm::new(500),
        End::Point(id) if id.0 == 16 => Mm::new(1000),
        End::Point(_) => Mm::new(300),
    };
    // Points 8 and 18 are on the face of wall 2 that rain can reach.
    let wet = |end: End| if [p(8), p(18)].contains(&end) { Mm::new(300) } else { Mm::ZERO };
    let (tail_from, tail_to) = (tail(leg.from), tail(leg.to));
    let bare = route + tail_from + tail_to + wet(leg.from) + wet(leg.to);
    let measured = (leg.from == p(1)).then(|| plan.measured[0].length);
    LegLength {
        route: worked(route),
        cut: worked(bare.round_up_to(Mm::new(100))),
        tail_from,
        tail_to,
        measured,
    }
}

/// Only what one circuit is about, for tests of what it costs.
pub(super) fn only(circuit: u32) -> Job {
    let mut job = Job::right();
    job.runs.circuits.retain(|id, _| *id == CircuitId(circuit));
    job.plan.circuits[&CircuitId(circuit)].wiring = Wiring::Chain;
    job
}
