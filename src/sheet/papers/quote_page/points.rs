//! Every point in plain words, room by room.

use std::collections::BTreeMap;

use crate::plan::{End, Point, PointId};
use crate::sheet::house::{House, height};
use crate::sheet::html::Html;
use crate::sheet::papers::quote::what;
use crate::takeoff::{Origin, Quantity, TakeOff};
use crate::units::Cents;

use super::price::money;

pub(super) fn rooms(html: &mut Html, house: &House<'_>, take_off: &TakeOff) {
    html.element("h2", "Room by room");
    html.element("p", "Heights are from the finished floor to the middle of the box.");
    let mut rooms: BTreeMap<&str, Vec<(PointId, &Point)>> = BTreeMap::new();
    for (id, point) in &house.plan.points {
        let room = match house.room_of(End::Point(*id)) {
            "" => "Outside",
            room => room,
        };
        rooms.entry(room).or_default().push((*id, point));
    }
    for (room, points) in rooms {
        html.element("h3", room).raw("<ul class=\"points\">\n");
        for (id, point) in points {
            line(html, house, take_off, id, point, room);
        }
        html.raw("</ul>\n");
    }
}

fn line(
    html: &mut Html,
    house: &House<'_>,
    take_off: &TakeOff,
    id: PointId,
    point: &Point,
    room: &str,
) {
    html.raw(&format!("<li id=\"point-{id}\"><b>")).text(house.marks.point(id)).raw("</b> ");
    html.text(&what(point));
    if point.optional {
        html.text(", optional");
    }
    let place = point.place.map_or("not placed yet".to_owned(), |place| height(&place));
    let circuit = point.circuit.and_then(|id| house.plan.circuits.get(&id));
    let circuit = circuit.map_or("no circuit yet".to_owned(), |circuit| {
        format!("{} {}", house.marks.circuit(circuit), circuit.name)
    });
    html.raw("<span>").text(&format!("{room}, {place}, {circuit}")).raw("</span>");
    if !point.note.is_empty() {
        html.raw("<span>").text(&point.note).raw("</span>");
    }
    html.raw("<span>").text(&priced(take_off, id)).raw("</span></li>\n");
}

/// What is fitted at a point, with its price.
fn priced(take_off: &TakeOff, id: PointId) -> String {
    let mut sum = Cents::ZERO;
    let mut told = Vec::new();
    for item in &take_off.materials {
        let parts = item.parts.iter().filter(|part| part.of == Origin::Point(id));
        let count: u32 = parts.map(|part| part.quantity.each()).sum();
        if count == 0 || !matches!(item.quantity, Quantity::Each(_)) {
            continue;
        }
        let lines = take_off.quote.lines.iter();
        let price = lines.filter(|line| line.code == item.code).find_map(|line| line.price);
        let name = if count == 1 { item.name.clone() } else { format!("{count} × {}", item.name) };
        match price {
            Some(price) => {
                let amount = Cents::new(price.get().saturating_mul(i64::from(count)));
                sum += amount;
                told.push(format!("{name} {}", money(&take_off.quote, amount)));
            }
            None => told.push(format!("{name}, no price yet")),
        }
    }
    match told.len() {
        0 => "Brought by others; wiring and connection are in the price.".to_owned(),
        1 => format!("Fitted here: {}; cable and work in the lines below.", told[0]),
        _ => format!(
            "Fitted here: {}; together {}. Cable and work are in the lines below.",
            told.join(", "),
            money(&take_off.quote, sum)
        ),
    }
}
