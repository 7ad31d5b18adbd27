//! Boards, circuits with their points, and lighting controls.

use wirewend::plan::*;
use wirewend::units::{Amps, Csa, Mm, Point2};

use super::chance::Chance;
use super::next_id;
use super::points::Spots;
use super::shell::House;

/// Places not used yet.
struct Free {
    low: Vec<Place>,
    hand: Vec<Place>,
    outside: Vec<Place>,
    ceiling: Vec<Place>,
    floor: Vec<Place>,
    post: Vec<Place>,
}

pub(super) fn draw(
    plan: &mut Plan,
    chance: &mut Chance,
    house: &House,
    spots: &Spots,
    count: usize,
) {
    let mut free = Free {
        low: spots.low.clone(),
        hand: spots.hand.clone(),
        outside: spots.outside.clone(),
        ceiling: spots.ceiling.clone(),
        floor: spots.floor.clone(),
        post: spots.post.clone(),
    };
    let boards = boards(plan, chance, &mut free);
    while plan.points.len() < count {
        let board = chance.pick(&boards);
        let left = count - plan.points.len();
        let before = plan.points.len();
        match chance.below(6) {
            0..3 => sockets(plan, chance, board, &mut free, left),
            3 => lights(plan, chance, board, &mut free, left),
            4 => alarms(plan, chance, board, &mut free, left),
            _ => fixed(plan, chance, board, &mut free),
        }
        if plan.points.len() == before {
            break;
        }
    }
    unfinished(plan, chance, &mut free);
    pins(plan, chance, house);
}

fn boards(plan: &mut Plan, chance: &mut Chance, free: &mut Free) -> Vec<BoardId> {
    let count = if chance.percent(15) { 2 } else { 1 };
    (0..count)
        .map(|_| {
            let id = BoardId(next_id(plan));
            // A house without a wall to put it on keeps its board unplaced.
            let place = chance.take(&mut free.hand).or_else(|| chance.take(&mut free.outside));
            let board =
                Board { label: String::new(), place, supply: Supply::default(), ways: None };
            plan.boards.insert(id, board);
            id
        })
        .collect()
}

fn add_circuit(
    plan: &mut Plan,
    chance: &mut Chance,
    board: BoardId,
    usage: CircuitUse,
    wiring: Wiring,
) -> CircuitId {
    let id = CircuitId(next_id(plan));
    let number = u16::try_from(plan.circuits.len() + 1).unwrap();
    let size = Csa::from_hundredths(if usage == CircuitUse::Lighting { 150 } else { 250 });
    let loop_at = chance.pick(&[LoopAt::Light, LoopAt::Switch]);
    let circuit = Circuit {
        name: format!("{usage:?} {number}"),
        board: (!chance.percent(5)).then_some(board),
        cable: (!chance.percent(5)).then_some(Cable { cores: 2, size, make: CableMake::Flat }),
        device: Some(Device { rating: Amps(20.0), curve: Curve::C, residual: Some(Amps(0.03)) }),
        wiring,
        loop_at: (usage == CircuitUse::Lighting).then_some(loop_at),
        ways: ways(chance),
        ..Circuit::new(number, usage)
    };
    plan.circuits.insert(id, circuit);
    id
}

fn ways(chance: &mut Chance) -> Option<Vec<Way>> {
    let several: [&[Way]; 8] = [
        &[Way::Overhead],
        &[Way::Underfloor],
        &[Way::InWall],
        &[Way::Surface],
        &[Way::Overhead, Way::InWall],
        &[Way::Underfloor, Way::Surface],
        &[Way::Underground, Way::InWall, Way::Overhead],
        &Way::ALL,
    ];
    chance.percent(40).then(|| chance.pick(&several).to_vec())
}

fn add_point(
    plan: &mut Plan,
    kind: PointKind,
    place: Option<Place>,
    circuit: Option<CircuitId>,
) -> PointId {
    let id = PointId(next_id(plan));
    let point = Point { place, circuit, ..Point::new(kind) };
    plan.points.insert(id, point);
    id
}

fn sockets(plan: &mut Plan, chance: &mut Chance, board: BoardId, free: &mut Free, left: usize) {
    let several = [Wiring::Chain, Wiring::Ring, Wiring::ChainWithSpurs, Wiring::Single];
    let wiring = chance.pick(&several);
    let usage = CircuitUse::Sockets;
    let circuit = add_circuit(plan, chance, board, usage, wiring);
    let mut points = Vec::new();
    for _ in 0..chance.within(1, left.min(9)) {
        let (kind, place) = match chance.below(12) {
            0 => (PointKind::WeatherproofSocket, chance.take(&mut free.outside)),
            1 => (PointKind::Socket, chance.take(&mut free.floor)),
            2 => (PointKind::Socket, chance.take(&mut free.hand)),
            _ => (PointKind::Socket, chance.take(&mut free.low)),
        };
        if place.is_some() {
            points.push(add_point(plan, kind, place, Some(circuit)));
        }
    }
    let edited = &mut plan.circuits[&circuit];
    if points.len() > 2 && chance.percent(30) {
        let (point, from) = (points[0], points[1]);
        let from = if chance.percent(15) { End::Board(board) } else { End::Point(from) };
        // A spur from the board only where it is this circuit's board.
        if from == End::Board(board) && edited.board.is_none() {
            return;
        }
        edited.spurs.push(Spur { point, from });
        points.remove(0);
    }
    if points.len() > 1 && chance.percent(25) {
        let count = chance.within(1, points.len());
        edited.order = points[..count].to_vec();
    }
}

fn lights(plan: &mut Plan, chance: &mut Chance, board: BoardId, free: &mut Free, left: usize) {
    let circuit = add_circuit(plan, chance, board, CircuitUse::Lighting, Wiring::Chain);
    for _ in 0..chance.within(1, left.div_ceil(2).min(4)) {
        let mut lights = Vec::new();
        for _ in 0..chance.within(1, 2) {
            let (kind, place) = match chance.below(8) {
                0 => (PointKind::WallLight, chance.take(&mut free.hand)),
                1 => (PointKind::ExhaustFan, chance.take(&mut free.ceiling)),
                2 => (PointKind::Downlight, chance.take(&mut free.ceiling)),
                _ => (PointKind::Luminaire, chance.take(&mut free.ceiling)),
            };
            if place.is_some() {
                lights.push(add_point(plan, kind, place, Some(circuit)));
            }
        }
        let mut switches = Vec::new();
        for _ in 0..chance.pick(&[0, 1, 1, 1, 2, 2, 3, 4]) {
            if let Some(place) = chance.take(&mut free.hand) {
                switches.push(add_point(plan, PointKind::Switch, Some(place), Some(circuit)));
            }
        }
        if !lights.is_empty() {
            let id = ControlId(next_id(plan));
            let in_order = chance.percent(20);
            plan.controls.insert(id, Control { lights, switches, in_order });
        }
    }
}

fn alarms(plan: &mut Plan, chance: &mut Chance, board: BoardId, free: &mut Free, left: usize) {
    let circuit = add_circuit(plan, chance, board, CircuitUse::Alarms, Wiring::Chain);
    for _ in 0..chance.within(1, left.min(5)) {
        let kind = chance.pick(&[PointKind::SmokeAlarm, PointKind::HeatAlarm]);
        if let Some(place) = chance.take(&mut free.ceiling) {
            add_point(plan, kind, Some(place), Some(circuit));
        }
    }
}

fn fixed(plan: &mut Plan, chance: &mut Chance, board: BoardId, free: &mut Free) {
    let wiring = chance.pick(&[Wiring::Single, Wiring::Chain]);
    let circuit = add_circuit(plan, chance, board, CircuitUse::Fixed, wiring);
    let (kind, place) = match chance.below(4) {
        0 => (PointKind::DoorMotor, chance.take(&mut free.post)),
        1 => (PointKind::AirConditioner, chance.take(&mut free.outside)),
        2 => (PointKind::Cooktop, chance.take(&mut free.low)),
        _ => (PointKind::WaterHeater, chance.take(&mut free.hand)),
    };
    if place.is_some() {
        add_point(plan, kind, place, Some(circuit));
    }
}

/// Up to three points that lack a place, a circuit or both.
fn unfinished(plan: &mut Plan, chance: &mut Chance, free: &mut Free) {
    let circuits: Vec<CircuitId> = plan
        .circuits
        .iter()
        .filter(|(_, circuit)| circuit.usage == CircuitUse::Sockets)
        .map(|(id, _)| *id)
        .collect();
    for _ in 0..chance.below(4) {
        let place = if chance.percent(50) { chance.take(&mut free.low) } else { None };
        let fed = place.is_none() && !circuits.is_empty() && chance.percent(60);
        let circuit = fed.then(|| chance.pick(&circuits));
        add_point(plan, PointKind::Socket, place, circuit);
    }
}

/// Pins the first leg of some circuits whose order is set.
fn pins(plan: &mut Plan, chance: &mut Chance, house: &House) {
    let voids: Vec<VoidId> = plan
        .levels
        .values()
        .flat_map(|level| level.above.iter().chain(&level.below))
        .copied()
        .collect();
    for circuit in plan.circuits.values_mut().filter(|_| !voids.is_empty()) {
        let (Some(board), Some(first)) = (circuit.board, circuit.order.first()) else { continue };
        if chance.percent(50) {
            let (from, to) = (End::Board(board), End::Point(*first));
            let rect = house.footprint;
            let at = Point2 {
                x: Mm::new(chance.between(rect.x0, rect.x1)),
                y: Mm::new(chance.between(rect.y0, rect.y1)),
            };
            let through = vec![PinPlace { void: chance.pick(&voids), at }];
            circuit.pins.push(Pin { from, to, through });
        }
    }
}
