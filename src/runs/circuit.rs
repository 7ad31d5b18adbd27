//! One circuit: which ends its feed joins, in what order, and what hangs off it.

use super::chain::spurs::{Trunk, hang_within};
use super::chain::{Effort, Matrix, Prescribed, Shape, order, order_within};
use super::finder::{Finder, Ground};
use super::house::House;
use super::isolating::{Isolating, not_cut_off};
use super::marks::Marks;
use super::switching::{self, Switching};
use super::unreached::Reasons;
use super::{Leg, LegRole, Order, OrderMethod, Run};
use crate::plan::{
    Circuit, CircuitId, CircuitUse, End, Finding, Isolation, Plan, PointId, Severity, Subject,
    Wiring, isolations,
};
use crate::space::{Key, Modes, Space, Terminal};
use crate::units::Cost;

/// A circuit, routed.
pub(super) struct Routed {
    pub(super) run: Run,
    pub(super) findings: Vec<Finding>,
    /// The keys between its placed ends, the board first, if they depend on
    /// nothing but the ground and the walls of these ends.
    pub(super) keys: Option<Vec<Vec<Key>>>,
}

/// Routes one circuit; what cannot be routed becomes a finding.
pub(super) fn route_circuit(
    plan: &Plan,
    house: &mut House<'_>,
    marks: &Marks<'_>,
    id: CircuitId,
    effort: &Effort,
) -> Routed {
    let mut work = Work::new(plan, marks, id);
    let mut keys = None;
    if let Some(circuit) = plan.circuits.get(&id)
        && let Some(ends) = work.placed_ends(house, circuit)
    {
        let space = house.space();
        let ground;
        let fast = house.table(id);
        let finder = if let Some((table, network)) = &fast {
            if let Some(run) = table.run_before() {
                let finder = Finder::fast(space, table, network);
                let mut run = run.clone();
                for leg in run.legs.iter_mut().filter(|leg| !table.is_known(leg.from, leg.to)) {
                    if let Some(route) = finder.route(leg.from, leg.to) {
                        leg.route = route;
                    }
                }
                let keys = Some(table.keys.clone());
                return Routed { run, findings: Vec::new(), keys };
            }
            // Where legs turn from wall to wall, they depend on more walls.
            keys = (!network.fast.is_joined()).then(|| table.keys.clone());
            Finder::fast(space, table, network)
        } else {
            let modes = Modes::of(circuit.ways.as_deref());
            ground = Ground::of(plan, space, circuit, modes, &ends);
            Finder::plain(space, &ground)
        };
        let reached = work.reached(space, circuit, &finder, &ends);
        work.join(circuit, &finder, ends[0].0, &reached, effort);
    }
    work.done(keys)
}

/// Routes a circuit by what was found in windows.
pub(super) fn route_by(
    plan: &Plan,
    house: &House<'_>,
    marks: &Marks<'_>,
    id: CircuitId,
    effort: &Effort,
    finder: &Finder<'_>,
) -> Routed {
    let mut work = Work::new(plan, marks, id);
    let mut keys = None;
    if let Some(circuit) = plan.circuits.get(&id)
        && let Some(ends) = work.placed_ends(house, circuit)
    {
        let reached = work.reached(house.space(), circuit, finder, &ends);
        work.join(circuit, finder, ends[0].0, &reached, effort);
        keys = Some(finder.keys());
    }
    work.done(keys)
}

fn empty() -> Run {
    Run {
        legs: Vec::new(),
        order: Order {
            ends: Vec::new(),
            cost: Cost::ZERO,
            bound: Cost::ZERO,
            method: OrderMethod::Fixed,
            matrix: Vec::new(),
            matrix_ends: Vec::new(),
        },
    }
}

struct Work<'a> {
    plan: &'a Plan,
    marks: &'a Marks<'a>,
    id: CircuitId,
    run: Run,
    findings: Vec<Finding>,
}

impl<'a> Work<'a> {
    fn new(plan: &'a Plan, marks: &'a Marks<'a>, id: CircuitId) -> Self {
        Self { plan, marks, id, run: empty(), findings: Vec::new() }
    }

    fn done(self, keys: Option<Vec<Vec<Key>>>) -> Routed {
        Routed { run: self.run, findings: self.findings, keys }
    }

    fn find(
        &mut self,
        code: &'static str,
        severity: Severity,
        subject: Subject,
        what: String,
        mend: &str,
    ) {
        self.findings.push(Finding::new(code, severity, subject, what, mend));
    }

    /// The board and those points of the circuit that are placed where
    /// something can run.
    fn placed_ends(
        &mut self,
        house: &House<'_>,
        circuit: &Circuit,
    ) -> Option<Vec<(End, Terminal)>> {
        let name = format!("circuit {} ({})", circuit.number, circuit.name);
        let about = Subject::Circuit(self.id);
        let Some(board) = circuit.board else {
            self.find(
                "circuit-without-board",
                Severity::Missing,
                about,
                format!("{name} has no board to start from"),
                "choose its board",
            );
            return None;
        };
        let end = End::Board(board);
        let Some(terminal) = house.terminal(end).cloned() else {
            let mark = self.marks.board(board);
            self.find(
                "board-not-placed",
                Severity::Missing,
                Subject::Board(board),
                format!("{mark}, the board of {name}, is not placed where a cable can run"),
                "place it on a wall that carries cables",
            );
            return None;
        };
        let mut ends = vec![(end, terminal)];
        for id in house.points_on(self.id) {
            match house.terminal(End::Point(*id)).cloned() {
                Some(terminal) => ends.push((End::Point(*id), terminal)),
                None => {
                    let mark = self.marks.point(*id);
                    self.find(
                        "point-not-placed",
                        Severity::Missing,
                        Subject::Point(*id),
                        format!("{mark} on {name} is not placed where a cable can run"),
                        "place it on a wall that carries cables, or on a ceiling or floor",
                    );
                }
            }
        }
        if ends.len() == 1 {
            self.find(
                "circuit-without-points",
                Severity::Missing,
                about,
                format!("{name} has no placed points"),
                "put points on it, or take it away",
            );
            return None;
        }
        Some(ends)
    }

    /// The points that the board can reach; the others become findings.
    fn reached(
        &mut self,
        space: &Space,
        circuit: &Circuit,
        finder: &Finder<'_>,
        ends: &[(End, Terminal)],
    ) -> Vec<PointId> {
        let mut reached = Vec::new();
        let mut reasons = Reasons::new(self.plan, space, circuit, ends);
        for (index, end) in ends.iter().enumerate().skip(1) {
            let End::Point(id) = end.0 else { continue };
            if finder.distance(ends[0].0, end.0).is_some() {
                reached.push(id);
                continue;
            }
            let (reason, mend) = reasons.why(index);
            let text = format!(
                "no cable can be led from {} to {}: {reason}",
                self.marks.end(ends[0].0),
                self.marks.point(id)
            );
            let subject = Subject::Leg { circuit: self.id, from: ends[0].0, to: end.0 };
            let mut finding = Finding::new("no-way", Severity::Fault, subject, text, mend);
            finding.place = self.plan.place_of(end.0).and_then(|place| self.plan.position(&place));
            self.findings.push(finding);
        }
        reached
    }

    fn join(
        &mut self,
        circuit: &Circuit,
        finder: &Finder<'_>,
        board: End,
        reached: &[PointId],
        effort: &Effort,
    ) {
        let switching = switching::plan_of(self.plan, circuit, reached, finder);
        let on_feed = |id: &PointId| {
            reached.contains(id)
                && !switching.behind.contains(id)
                && !circuit.spurs.iter().any(|spur| spur.point == *id)
        };
        let hung: Vec<PointId> = circuit
            .spurs
            .iter()
            .filter(|spur| reached.contains(&spur.point))
            .filter(|spur| match spur.from {
                End::Board(_) => spur.from == board,
                End::Point(id) => on_feed(&id),
            })
            .map(|spur| spur.point)
            .collect();
        self.unhung(circuit, reached, &hung);
        let mut feed: Vec<PointId> = reached
            .iter()
            .copied()
            .filter(|id| !switching.behind.contains(id) && !hung.contains(id))
            .collect();
        let pairs = isolations(self.plan, reached);
        let kept = self.kept(circuit, finder, &pairs, &feed, &hung);
        let isolating = Isolating::of(circuit, &kept, &feed);
        feed.retain(|id| !isolating.hangs(*id));
        if !feed.is_empty() {
            self.feed(circuit, finder, board, &feed, &isolating, effort);
        }
        for spur in circuit.spurs.iter().filter(|spur| hung.contains(&spur.point)) {
            if spur.from != board && !self.run.order.ends.contains(&spur.from) {
                // The feed could not be joined up, and a finding says so.
                continue;
            }
            self.leg(circuit, finder, LegRole::Spur, spur.from, End::Point(spur.point));
        }
        for (by, loads) in &isolating.behind {
            self.behind(circuit, finder, End::Point(*by), loads, effort);
        }
        self.switch(circuit, finder, &switching);
        self.not_cut_off(circuit, &pairs);
    }

    /// The isolating switches that can be heeded: what the electrician ordered
    /// or hung by hand stays where it is.
    fn kept(
        &self,
        circuit: &Circuit,
        finder: &Finder<'_>,
        pairs: &[Isolation],
        feed: &[PointId],
        hung: &[PointId],
    ) -> Vec<Isolation> {
        let by_hand = |id: PointId| {
            let named = |end: End| end == End::Point(id);
            circuit.order.contains(&id)
                || circuit.spurs.iter().any(|spur| spur.point == id || named(spur.from))
        };
        let can = |pair: &&Isolation| {
            let (by, load) = (End::Point(pair.by), End::Point(pair.load));
            (feed.contains(&pair.by) || hung.contains(&pair.by))
                && feed.contains(&pair.load)
                && !by_hand(pair.load)
                && finder.distance(by, load).is_some()
        };
        pairs.iter().filter(can).copied().collect()
    }

    /// What hangs behind an isolating switch, one after the other.
    fn behind(
        &mut self,
        circuit: &Circuit,
        finder: &Finder<'_>,
        by: End,
        loads: &[PointId],
        effort: &Effort,
    ) {
        if !self.run.legs.iter().any(|leg| leg.from == by || leg.to == by) {
            // The feed could not be joined up, and a finding says so.
            return;
        }
        let ends: Vec<End> =
            std::iter::once(by).chain(loads.iter().copied().map(End::Point)).collect();
        let found = Matrix::new(&between(finder, &ends))
            .ok()
            .and_then(|matrix| order(&matrix, Shape::Open, &[], effort).ok());
        // Each can be reached from the switch, if not from one another.
        let legs: Vec<(End, End)> = match found {
            Some(found) => {
                found.sequence.windows(2).map(|pair| (ends[pair[0]], ends[pair[1]])).collect()
            }
            None => ends[1..].iter().map(|load| (by, *load)).collect(),
        };
        for (from, to) in legs {
            self.leg(circuit, finder, LegRole::Spur, from, to);
        }
    }

    /// Says what has mains otherwise than through its isolating switch.
    fn not_cut_off(&mut self, circuit: &Circuit, pairs: &[Isolation]) {
        let ring: &[End] = if circuit.wiring == Wiring::Ring { &self.run.order.ends } else { &[] };
        for pair in not_cut_off(&self.run.legs, ring, pairs) {
            let (load, by) = (self.marks.point(pair.load), self.marks.point(pair.by));
            let text = format!(
                "{load} on circuit {} has mains otherwise than through {by}, which is to cut it off",
                circuit.number
            );
            let mend = "take it out of the circuit's order and spurs, so that it is wired behind its switch, or put the switch first";
            self.find(
                "not-behind-isolator",
                Severity::Warning,
                Subject::Point(pair.load),
                text,
                mend,
            );
        }
    }

    /// Says which points cannot hang where they should.
    fn unhung(&mut self, circuit: &Circuit, reached: &[PointId], hung: &[PointId]) {
        for spur in &circuit.spurs {
            if reached.contains(&spur.point) && !hung.contains(&spur.point) {
                let (mark, from) = (self.marks.point(spur.point), self.marks.end(spur.from));
                self.find(
                    "spur-not-hung",
                    Severity::Missing,
                    Subject::Point(spur.point),
                    format!("{mark} cannot hang off {from}, which is not on the feed"),
                    "hang it off a point of the feed",
                );
            }
        }
    }

    fn feed(
        &mut self,
        circuit: &Circuit,
        finder: &Finder<'_>,
        board: End,
        feed: &[PointId],
        isolating: &Isolating,
        effort: &Effort,
    ) {
        let ends: Vec<End> =
            std::iter::once(board).chain(feed.iter().copied().map(End::Point)).collect();
        let rows = between(finder, &ends);
        let index = |id: &PointId| feed.iter().position(|other| other == id).map(|index| index + 1);
        let pair = |one: &Isolation| Some((index(&one.by)?, index(&one.load)?));
        let asked = Asked {
            prescribed: Prescribed {
                first: circuit.order.iter().filter_map(index).collect(),
                last: None,
                before: isolating.in_order.iter().filter_map(pair).collect(),
            },
            bare: isolating.behind.iter().filter_map(|(by, _)| index(by)).collect(),
        };
        if let Err(problem) = self.arrange(circuit, finder, &ends, &rows, &asked, effort) {
            self.find(
                "no-order",
                Severity::Fault,
                Subject::Circuit(self.id),
                format!("circuit {} cannot be joined up: {problem}", circuit.number),
                "open more ways, or split the circuit",
            );
        }
        for (index, row) in rows.into_iter().enumerate() {
            let mut row = row;
            row[index] = Some(super::Distance { cost: Cost::ZERO, length: crate::units::Mm::ZERO });
            self.run.order.matrix.push(row);
        }
        self.run.order.matrix_ends = ends;
    }

    fn arrange(
        &mut self,
        circuit: &Circuit,
        finder: &Finder<'_>,
        ends: &[End],
        rows: &[Vec<Option<super::Distance>>],
        asked: &Asked,
        effort: &Effort,
    ) -> Result<(), String> {
        let matrix = Matrix::new(rows).map_err(|error| error.to_string())?;
        let shape = if circuit.wiring == Wiring::Ring { Shape::Closed } else { Shape::Open };
        let mut spurs = Vec::new();
        let sequence = match circuit.wiring {
            Wiring::Single => {
                self.single(circuit, finder, ends);
                return Ok(());
            }
            // What others are to hang off must stay in the trunk.
            Wiring::ChainWithSpurs if circuit.spurs.is_empty() => {
                let Prescribed { first, before, .. } = &asked.prescribed;
                let within = Trunk { first, before, bare: &asked.bare };
                let hung =
                    hang_within(&matrix, shape, &within, effort).map_err(|e| e.to_string())?;
                spurs = hung.spurs;
                // The trunk is the best order of its own points, or close to it.
                let part: Vec<Vec<_>> = hung
                    .trunk
                    .iter()
                    .map(|a| hung.trunk.iter().map(|b| rows[*a][*b]).collect())
                    .collect();
                let matrix = Matrix::new(&part).map_err(|error| error.to_string())?;
                let within = asked.in_trunk(&hung.trunk, &spurs);
                let trunk =
                    order_within(&matrix, shape, &within, effort).map_err(|e| e.to_string())?;
                let sequence: Vec<usize> =
                    trunk.sequence.iter().map(|index| hung.trunk[*index]).collect();
                self.note(ends, &sequence, trunk.cost, trunk.bound, trunk.method);
                sequence
            }
            Wiring::Chain | Wiring::Ring | Wiring::ChainWithSpurs => {
                let best = order_within(&matrix, shape, &asked.prescribed, effort)
                    .map_err(|e| e.to_string())?;
                self.note(ends, &best.sequence, best.cost, best.bound, best.method);
                best.sequence
            }
        };
        for pair in sequence.windows(2) {
            let role = self.feed_role(circuit, ends[pair[0]]);
            self.leg(circuit, finder, role, ends[pair[0]], ends[pair[1]]);
        }
        if let (Shape::Closed, Some(last)) = (shape, sequence.last()) {
            self.leg(circuit, finder, LegRole::RingReturn, ends[*last], ends[0]);
        }
        for (point, from) in spurs {
            self.leg(circuit, finder, LegRole::Spur, ends[from], ends[point]);
        }
        Ok(())
    }

    fn note(
        &mut self,
        ends: &[End],
        sequence: &[usize],
        cost: Cost,
        bound: Cost,
        method: OrderMethod,
    ) {
        self.run.order.ends = sequence.iter().map(|index| ends[*index]).collect();
        self.run.order.cost = cost;
        self.run.order.bound = bound;
        self.run.order.method = method;
    }

    /// A cable of its own to every point: nothing to order.
    fn single(&mut self, circuit: &Circuit, finder: &Finder<'_>, ends: &[End]) {
        let place = |index: &usize| match ends[*index] {
            End::Point(id) => circuit.order.iter().position(|other| *other == id),
            End::Board(_) => None,
        };
        let mut sequence: Vec<usize> = (1..ends.len()).collect();
        sequence.sort_by_key(|index| (place(index).unwrap_or(usize::MAX), *index));
        for index in &sequence {
            self.leg(circuit, finder, LegRole::Feed, ends[0], ends[*index]);
        }
        let cost = self.run.legs.iter().map(|leg| leg.route.cost).sum();
        sequence.insert(0, 0);
        self.note(ends, &sequence, cost, cost, OrderMethod::Exact);
    }

    fn feed_role(&self, circuit: &Circuit, from: End) -> LegRole {
        let from_alarm = matches!(from, End::Point(_)) && circuit.usage == CircuitUse::Alarms;
        if from_alarm { LegRole::Interlink } else { LegRole::Feed }
    }

    fn switch(&mut self, circuit: &Circuit, finder: &Finder<'_>, switching: &Switching) {
        for (role, from, to) in &switching.legs {
            self.leg(circuit, finder, *role, End::Point(*from), End::Point(*to));
        }
        for control in &switching.incomplete {
            self.find(
                "control-incomplete",
                Severity::Missing,
                Subject::Control(*control),
                format!(
                    "{control} lacks placed lights or switches on circuit {}, so it is not wired",
                    circuit.number
                ),
                "place its lights and switches on the same circuit",
            );
        }
    }

    fn leg(&mut self, circuit: &Circuit, finder: &Finder<'_>, role: LegRole, from: End, to: End) {
        let cores = match role {
            LegRole::Strappers | LegRole::Interlink => 3,
            _ => circuit.cable.map_or(2, |cable| cable.cores),
        };
        let Some(route) = finder.route(from, to) else { return };
        let cable = circuit.cable.map(|cable| cable.with_cores(cores));
        self.run.legs.push(Leg { circuit: self.id, number: 0, role, from, to, cable, route });
    }
}

/// What is prescribed of a feed, by the numbers of its ends.
struct Asked {
    prescribed: Prescribed,
    /// Switches that feed what hangs behind them, and so no spurs.
    bare: Vec<usize>,
}

impl Asked {
    /// What is left of it for the ends of a trunk, by their places in it; what
    /// comes before a spur comes before the point that feeds it.
    fn in_trunk(&self, trunk: &[usize], spurs: &[(usize, usize)]) -> Prescribed {
        let place = |end: usize| trunk.iter().position(|other| *other == end);
        let host = |end: usize| spurs.iter().find(|(point, _)| *point == end).map(|one| one.1);
        let pair = |(from, to): &(usize, usize)| {
            let pair = (place(*from)?, place(host(*to).unwrap_or(*to))?);
            (pair.0 != pair.1).then_some(pair)
        };
        Prescribed {
            first: (1..=self.prescribed.first.len()).collect(),
            last: None,
            before: self.prescribed.before.iter().filter_map(pair).collect(),
        }
    }
}

/// What the legs between some ends take.
fn between(finder: &Finder<'_>, ends: &[End]) -> Vec<Vec<Option<super::Distance>>> {
    let leg = |from: End, to: End| if from == to { None } else { finder.distance(from, to) };
    ends.iter().map(|from| ends.iter().map(|to| leg(*from, *to)).collect()).collect()
}
