//! Puts what is placed on a circuit by its use, and joins switches to the
//! lights of their room. Sizes and numbers are common practice, to be edited;
//! the checks judge them.

use crate::plan::{
    Board, BoardId, Cable, CableMake, Change, Circuit, CircuitId, CircuitUse, Control, ControlId,
    Curve, Device, Edit, Family, Place, Plan, Point, PointId, PointKind, Supply,
};
use crate::units::{Amps, Csa, Volts};

/// A new point with its circuit, a new one where none has room, and its place
/// among the switches and lights of its room.
pub fn placed(plan: &Plan, kind: PointKind, place: Place) -> (PointId, Edit) {
    placed_as(plan, &Point::new(kind), place)
}

/// A new point like another one; marks of its own it gets by itself.
pub fn placed_as(plan: &Plan, like: &Point, place: Place) -> (PointId, Edit) {
    let kind = like.kind;
    let id = PointId(plan.fresh_id());
    let mut edits = Vec::new();
    let circuit = circuit_for(plan, kind, id.0 + 1).map(|(circuit, new)| {
        edits.extend(new);
        circuit
    });
    let point = Point { place: Some(place), circuit, label: String::new(), ..like.clone() };
    edits.push(Change::Put(id, point).into());
    edits.extend(joined(plan, id, kind, &place));
    (id, Edit::Many(edits))
}

/// The circuit that one more of a kind goes on, drawn under this number where
/// it must be a new one. None: any would do.
pub fn circuit_for(plan: &Plan, kind: PointKind, number: u32) -> Option<(CircuitId, Option<Edit>)> {
    let usage = usage(kind)?;
    Some(with_room(plan, kind, usage).map_or_else(
        || {
            let new = Change::Put(CircuitId(number), fresh(plan, kind, usage));
            (CircuitId(number), Some(new.into()))
        },
        |circuit| (circuit, None),
    ))
}

/// A board, and with it every circuit that had none.
pub fn board(plan: &Plan, place: Place) -> (BoardId, Edit) {
    let id = BoardId(plan.fresh_id());
    let supply = Supply { voltage: Some(Volts(230.0)), phases: Some(1), ..Supply::default() };
    let board = Board { label: String::new(), place: Some(place), supply, ways: None };
    let mut edits = vec![Change::Put(id, board).into()];
    for (circuit, without) in plan.circuits.iter().filter(|(_, one)| one.board.is_none()) {
        let with = Circuit { board: Some(id), ..without.clone() };
        edits.push(Change::Put(*circuit, with).into());
    }
    (id, Edit::Many(edits))
}

/// What kind of circuit a kind of point goes on. None: on any.
fn usage(kind: PointKind) -> Option<CircuitUse> {
    match kind.family() {
        Family::Sockets => Some(CircuitUse::Sockets),
        Family::Lights | Family::Switches => Some(CircuitUse::Lighting),
        Family::Alarms => Some(CircuitUse::Alarms),
        Family::Junctions => None,
        Family::Fixed if kind == PointKind::ExhaustFan => Some(CircuitUse::Lighting),
        Family::Fixed => Some(CircuitUse::Fixed),
    }
}

/// The latest circuit of a use that can take one more. A fixed appliance gets
/// one of its own.
fn with_room(plan: &Plan, kind: PointKind, usage: CircuitUse) -> Option<CircuitId> {
    let most = match usage {
        CircuitUse::Sockets => 10,
        CircuitUse::Lighting => 15,
        CircuitUse::Alarms => 20,
        CircuitUse::Fixed | CircuitUse::Submain => 0,
    };
    let counts = |id: CircuitId| {
        let on = plan.points.values().filter(|point| point.circuit == Some(id));
        on.filter(|point| point.kind.family() != Family::Switches).count()
    };
    let more = usize::from(kind.family() != Family::Switches);
    plan.circuits
        .iter()
        .rev()
        .find(|(id, circuit)| circuit.usage == usage && counts(**id) + more <= most)
        .map(|(id, _)| *id)
}

/// A new circuit with the next number that is free and never was on papers.
fn fresh(plan: &Plan, kind: PointKind, usage: CircuitUse) -> Circuit {
    let number = plan.free_circuit_number();
    let (name, size, rating) = match usage {
        CircuitUse::Sockets => ("Sockets", 250, 20.0),
        CircuitUse::Lighting => ("Lights", 150, 10.0),
        CircuitUse::Alarms => ("Alarms", 150, 10.0),
        CircuitUse::Fixed if heavy(kind) => (kind.name(), 600, 32.0),
        CircuitUse::Fixed | CircuitUse::Submain => (kind.name(), 250, 20.0),
    };
    let of_use = plan.circuits.values().filter(|circuit| circuit.usage == usage).count();
    let name = match (usage, of_use) {
        (CircuitUse::Fixed, _) | (_, 0) => name.to_owned(),
        (_, others) => format!("{name} {}", others + 1),
    };
    Circuit {
        name: capitalised(&name),
        board: plan.boards.keys().next().copied(),
        cable: Some(Cable { cores: 2, size: Csa::from_hundredths(size), make: CableMake::Flat }),
        device: Some(Device { rating: Amps(rating), curve: Curve::C, residual: Some(Amps(0.03)) }),
        ..Circuit::new(number, usage)
    }
}

fn heavy(kind: PointKind) -> bool {
    matches!(kind, PointKind::Cooktop | PointKind::Shower | PointKind::CarCharger)
}

fn capitalised(name: &str) -> String {
    let mut signs = name.chars();
    signs.next().map_or_else(String::new, |first| first.to_uppercase().chain(signs).collect())
}

/// A light goes to the switches of its room, a switch to the lights there that
/// have none yet; a second switch beside lights that have one works them too.
fn joined(plan: &Plan, id: PointId, kind: PointKind, place: &Place) -> Option<Edit> {
    let room = plan.room_of(place)?;
    let here = |point: &PointId| {
        let place = plan.points.get(point).and_then(|point| point.place);
        place.is_some_and(|place| plan.room_of(&place) == Some(room))
    };
    let control = ControlId(id.0 + 2);
    let of_room = |family: Family| -> Vec<PointId> {
        let of_kind = plan.points.iter().filter(|(_, point)| point.kind.family() == family);
        of_kind.map(|(id, _)| *id).filter(|id| here(id)).collect()
    };
    let worked = |light: &PointId| plan.controls.values().any(|one| one.lights.contains(light));
    match kind.family() {
        Family::Switches => {
            let lights = of_room(Family::Lights);
            let dark: Vec<PointId> = lights.iter().copied().filter(|one| !worked(one)).collect();
            if !dark.is_empty() {
                let new = Control { lights: dark, switches: vec![id], in_order: false };
                return Some(Change::Put(control, new).into());
            }
            let (first, theirs) = plan
                .controls
                .iter()
                .find(|(_, one)| one.lights.iter().any(|light| lights.contains(light)))?;
            let mut with = theirs.clone();
            with.switches.push(id);
            Some(Change::Put(*first, with).into())
        }
        Family::Lights => {
            let switches = of_room(Family::Switches);
            let theirs = plan
                .controls
                .iter()
                .find(|(_, one)| one.switches.iter().any(|switch| switches.contains(switch)));
            if let Some((first, theirs)) = theirs {
                let mut with = theirs.clone();
                with.lights.push(id);
                return Some(Change::Put(*first, with).into());
            }
            let new =
                Control { lights: vec![id], switches: vec![*switches.first()?], in_order: false };
            Some(Change::Put(control, new).into())
        }
        _ => None,
    }
}
