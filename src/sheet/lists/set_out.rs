//! The list of whoever marks out the walls.

use super::{List, Value};
use crate::plan::End;
use crate::sheet::house::House;
use crate::sheet::wall_view::{Marked, SetOutRow, edge_words, hand_word, set_out_rows};

/// Every box and every straight piece of cable on and in walls, by level,
/// room and face: from which finished corner or side of an opening, on which
/// hand of it, how far and how high. A cable has a row for each straight piece
/// before each face, with both of its ends.
#[must_use]
pub fn set_out_list(house: &House<'_>) -> List {
    let headings = vec![
        "level",
        "room",
        "face",
        "from",
        "towards",
        "along m",
        "height m",
        "to along m",
        "to height m",
        "what",
        "circuit",
        "leg",
    ];
    let rows = set_out_rows(house).iter().map(|row| values(house, row)).collect();
    List { name: "setout", headings, rows }
}

fn values(house: &House<'_>, row: &SetOutRow<'_>) -> Vec<Value> {
    let text = |text: &str| Value::Text(text.to_owned());
    let level = house.plan.levels.get(&row.piece.level).map_or("", |level| &level.name);
    let to = |part: fn(&(crate::units::Mm, crate::units::Mm)) -> crate::units::Mm| {
        row.to.as_ref().map_or(Value::Empty, |to| Value::Metres(part(to)))
    };
    vec![
        text(level),
        text(&row.room),
        text(&row.piece.name),
        Value::Text(edge_words(house.plan, &row.edge)),
        text(row.towards.map_or("past it, in the corner", hand_word)),
        Value::Metres(row.distance),
        Value::Metres(row.height),
        to(|to| to.0),
        to(|to| to.1),
        Value::Text(what(house, row.what)),
        row.circuit.map_or(Value::Empty, |circuit| Value::Text(house.marks.number(circuit))),
        text(&row.leg),
    ]
}

fn what(house: &House<'_>, marked: Marked) -> String {
    match marked {
        Marked::Box(end @ End::Board(_)) => format!("{} distribution board", house.marks.end(end)),
        Marked::Box(end @ End::Point(id)) => {
            let kind = house.plan.points.get(&id).map_or("", |point| point.kind.name());
            format!("{} {kind}", house.marks.end(end))
        }
        Marked::Cable { ends: (from, to), is_upright, .. } => {
            let way = if is_upright { "upright" } else { "sideways" };
            format!("cable {way}, {} to {}", house.marks.end(from), house.marks.end(to))
        }
    }
}
