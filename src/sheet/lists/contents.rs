//! The lists of a job.

use super::{List, Value};
use crate::plan::{End, Place};
use crate::sheet::house::House;
use crate::sheet::papers::{Ordered, in_order, label_text, to_buy, way};
use crate::takeoff::{CutPlan, CutSource, SourceKind};
use crate::units::Mm;

/// Every leg in the order of cutting: what it comes off and at which marks,
/// from, to, cable, lengths, way.
#[must_use]
pub fn cut_list(house: &House<'_>, cuts: &[CutPlan]) -> List {
    let headings = vec![
        "leg",
        "board",
        "circuit",
        "cable",
        "source",
        "cut of source",
        "from mark m",
        "to mark m",
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
        "revision",
    ];
    let text = |text: &str| Value::Text(text.to_owned());
    let rows = in_order(house, cuts).into_iter().map(|Ordered { cut, off }| {
        let cable = cut.leg.cable.map_or(Value::Empty, |cable| Value::Text(cable.to_string()));
        let measured = house.measurement(&cut);
        vec![
            Value::Text(cut.number()),
            text(cut.circuit.board.map_or("", |id| house.marks.board(id))),
            text(&cut.circuit.name),
            cable,
            text(off.map_or("no cable chosen yet", |off| off.name())),
            off.map_or(Value::Empty, |off| Value::Count(off.slice.cut)),
            off.map_or(Value::Empty, |off| Value::Metres(off.slice.from)),
            off.map_or(Value::Empty, |off| Value::Metres(off.slice.to)),
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
            text(&house.plan.project.revision),
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

/// Every type of cable: pieces, metres cut, and what to buy for them, as the
/// order list and the quote have it.
#[must_use]
pub fn cable_list(house: &House<'_>, cuts: &[CutPlan]) -> List {
    let sum = |lengths: &mut dyn Iterator<Item = Mm>| Value::Metres(lengths.sum());
    let row = |cuts: &CutPlan| {
        let slices = cuts.in_order();
        let is_off_cut = |source: &&CutSource| matches!(source.what, SourceKind::OffCut { .. });
        let off_cuts = cuts.sources.iter().filter(is_off_cut).flat_map(|source| &source.cuts);
        vec![
            Value::Text(cuts.cable.to_string()),
            Value::Count(slices.len()),
            sum(&mut slices.iter().map(|slice| slice.piece.length)),
            sum(&mut off_cuts.map(|cut| cut.piece.length)),
            Value::Metres(cuts.to_buy.waste()),
            Value::Metres(cuts.to_buy.metres()),
            Value::Text(to_buy(&cuts.to_buy)),
            Value::Metres(cuts.left_over.value),
        ]
    };
    let mut rows: Vec<Vec<Value>> = cuts.iter().map(row).collect();
    for cable in house.lengths.cables.iter().filter(|cable| cable.cable.is_none()) {
        let mut row = vec![
            Value::Text("not chosen".to_owned()),
            Value::Count(cable.pieces),
            Value::Metres(cable.cut),
        ];
        row.extend(std::iter::repeat_n(Value::Empty, 3));
        row.push(Value::Text("choose the cable first".to_owned()));
        row.push(Value::Empty);
        rows.push(row);
    }
    let headings = vec![
        "cable",
        "pieces",
        "cut m",
        "of that off off-cuts m",
        "waste bought m",
        "to buy m",
        "to buy",
        "left to keep m",
    ];
    List { name: "cable", headings, rows }
}
