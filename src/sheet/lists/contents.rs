//! The lists of a job.

use super::{List, Value};
use crate::plan::{End, Place};
use crate::sheet::house::House;
use crate::sheet::papers::{label_text, way};

/// Every leg: from, to, cable, lengths, way.
#[must_use]
pub fn cut_list(house: &House<'_>) -> List {
    let headings = vec![
        "leg",
        "board",
        "circuit",
        "cable",
        "from",
        "to",
        "label on both ends",
        "route m",
        "tail from m",
        "tail to m",
        "cut m",
        "measured m",
        "by",
        "on",
        "way",
    ];
    let text = |text: &str| Value::Text(text.to_owned());
    let rows = house.cuts().into_iter().map(|cut| {
        let cable = cut.leg.cable.map_or(Value::Empty, |cable| Value::Text(cable.to_string()));
        let measured = house.measurement(&cut);
        vec![
            Value::Text(cut.number()),
            text(cut.circuit.board.map_or("", |id| house.marks.board(id))),
            text(&cut.circuit.name),
            cable,
            text(house.marks.end(cut.leg.from)),
            text(house.marks.end(cut.leg.to)),
            Value::Text(label_text(house, &cut)),
            Value::Metres(cut.length.route.value),
            Value::Metres(cut.length.tail_from),
            Value::Metres(cut.length.tail_to),
            Value::Metres(cut.length.cut.value),
            cut.length.measured.map_or(Value::Empty, Value::Metres),
            text(measured.map_or("", |one| &one.by)),
            text(measured.map_or("", |one| &one.on)),
            Value::Text(way(house, cut.leg).way),
        ]
    });
    List { name: "cuts", headings, rows: rows.collect() }
}

/// Every point: mark, kind, room, height, circuit.
#[must_use]
pub fn point_list(house: &House<'_>) -> List {
    let headings = vec![
        "mark", "kind", "gangs", "room", "on", "height m", "board", "circuit", "optional", "note",
    ];
    let rows = house.plan.points.iter().map(|(id, point)| {
        let (on, height) = match point.place {
            Some(Place::Wall(on)) => {
                (format!("wall {}", house.wall_name(&on)), Value::Metres(on.height))
            }
            Some(Place::Ceiling(_)) => ("ceiling".to_owned(), Value::Empty),
            Some(Place::Floor(_)) => ("floor".to_owned(), Value::Empty),
            Some(Place::Post(on)) => ("post".to_owned(), Value::Metres(on.height)),
            None => ("not placed yet".to_owned(), Value::Empty),
        };
        let circuit = point.circuit.and_then(|id| house.plan.circuits.get(&id));
        let board = circuit.and_then(|circuit| circuit.board);
        vec![
            Value::Text(house.marks.point(*id).to_owned()),
            Value::Text(point.kind.name().to_owned()),
            Value::Count(usize::from(point.gangs)),
            Value::Text(house.whereabouts(End::Point(*id))),
            Value::Text(on),
            height,
            Value::Text(board.map_or(String::new(), |id| house.marks.board(id).to_owned())),
            circuit.map_or(Value::Empty, |circuit| Value::Count(usize::from(circuit.number))),
            Value::Text(if point.optional { "optional".to_owned() } else { String::new() }),
            Value::Text(point.note.clone()),
        ]
    });
    List { name: "points", headings, rows: rows.collect() }
}

/// Every type of cable: pieces, metres cut, metres to order.
#[must_use]
pub fn cable_list(house: &House<'_>) -> List {
    let rows = house.lengths.cables.iter().map(|cable| {
        let name = cable.cable.map_or("not chosen".to_owned(), |cable| cable.to_string());
        vec![
            Value::Text(name),
            Value::Count(cable.pieces),
            Value::Metres(cable.cut),
            Value::Metres(cable.order.value),
        ]
    });
    let headings = vec!["cable", "pieces", "cut m", "cut and waste m"];
    List { name: "cable", headings, rows: rows.collect() }
}
