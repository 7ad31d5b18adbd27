//! Every point in plain words, room by room.

use std::collections::BTreeMap;

use crate::plan::{End, Point, PointId};
use crate::sheet::house::{House, height};
use crate::sheet::html::Html;
use crate::sheet::papers::quote::what;
use crate::takeoff::{Item, Origin};

pub(super) fn rooms(html: &mut Html, house: &House<'_>, materials: &[Item]) {
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
            line(html, house, materials, id, point, room);
        }
        html.raw("</ul>\n");
    }
}

fn line(
    html: &mut Html,
    house: &House<'_>,
    materials: &[Item],
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
    html.raw("<span>").text(&fitted(materials, id)).raw("</span></li>\n");
}

/// What is fitted at a point, in words.
fn fitted(materials: &[Item], id: PointId) -> String {
    let mut told = Vec::new();
    for item in materials {
        let parts = item.parts.iter().filter(|part| part.of == Origin::Point(id));
        match parts.map(|part| part.quantity.each()).sum::<u32>() {
            0 => {}
            1 => told.push(item.name.clone()),
            count => told.push(format!("{count} × {}", item.name)),
        }
    }
    if told.is_empty() {
        "Brought by others; wiring and connection are in the price.".to_owned()
    } else {
        format!("Fitted here: {}; with cable and work in the price.", told.join(", "))
    }
}
