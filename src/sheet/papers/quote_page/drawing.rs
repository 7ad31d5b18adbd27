//! The floors, with circuits to show and hide and points to tap.

use kurbo::{Affine, Rect};

use crate::plan::End;
use crate::sheet::floor::{Numbered, numbered_floor, stands_at};
use crate::sheet::house::House;
use crate::sheet::html::Html;
use crate::sheet::scene::bounds;
use crate::sheet::{FloorOptions, Floors, circuit_line, fragment, number};

use super::super::opened_walls::OpenedWall;

/// Pixels for a millimetre of paper, before a reader enlarges.
const DOTS: f64 = 4.0;
/// How far around a point a tap counts, paper mm: 44 pixels across.
const REACH: f64 = 22.0 / DOTS;
const MARGIN: f64 = 4.0;

pub(super) fn drawing(
    html: &mut Html,
    house: &House<'_>,
    floors: &mut Floors<'_>,
    opened: &[OpenedWall],
) {
    html.element("h2", "Where everything goes");
    html.element("p", "Tap a point to read what it is; the drawing can be moved about.");
    circuits(html, house);
    for (id, level) in &house.plan.levels {
        let options = FloorOptions::of(*id);
        let numbers: Vec<Numbered> =
            opened.iter().filter(|one| one.level == *id).map(OpenedWall::numbered).collect();
        let Ok(items) = numbered_floor(floors, &options, &numbers) else { continue };
        let stands = stands_at(floors, &options);
        let Some(all) = bounds(&items) else { continue };
        let all = all.inflate(MARGIN, MARGIN);
        html.element("h3", &level.name);
        html.raw(&format!(
            "<p class=\"script\"><button type=\"button\" data-whole=\"floor-{id}\">"
        ));
        html.raw("Whole floor</button></p>\n");
        html.raw(&format!("<div class=\"sheet\" id=\"floor-{id}\" tabindex=\"0\" role=\"group\""));
        html.raw(" aria-label=\"").text(&format!("Drawing of {}", level.name)).raw("\">\n");
        svg_start(html, all, DOTS);
        html.raw(&fragment(&items));
        for (end, at) in stands {
            hit(html, house, end, at);
        }
        html.raw("</svg>\n</div>\n");
    }
}

fn svg_start(html: &mut Html, all: Rect, dots: f64) {
    html.raw(&format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{}\" height=\"{}\" viewBox=\"{} {} {} {}\" \
         fill=\"none\" stroke-linejoin=\"round\" font-family=\"sans-serif\">\n",
        number(all.width() * dots),
        number(all.height() * dots),
        number(all.x0),
        number(all.y0),
        number(all.width()),
        number(all.height()),
    ));
}

/// The place to tap for a point.
fn hit(html: &mut Html, house: &House<'_>, end: End, at: kurbo::Point) {
    let End::Point(id) = end else { return };
    let name = format!("{}: {}", house.marks.end(end), house.describe(end));
    html.raw(&format!("<a class=\"hit\" href=\"#point-{id}\" data-point=\"{id}\" aria-label=\""));
    html.text(&name).raw("\">").element("title", &name);
    let (x, y) = (number(at.x), number(at.y));
    html.raw(&format!("<circle cx=\"{x}\" cy=\"{y}\" r=\"{}\"/></a>\n", number(REACH)));
}

fn circuits(html: &mut Html, house: &House<'_>) {
    html.raw("<fieldset class=\"circuits script\"><legend>Circuits shown</legend>\n");
    for (index, (id, circuit)) in house.plan.circuits.iter().enumerate() {
        html.raw(&format!("<label><input type=\"checkbox\" checked data-circuit=\"{id}\">"));
        let line = circuit_line(index, 12.0).placed(Affine::translate((1.0, 2.0)));
        html.raw("<svg viewBox=\"0 0 14 4\" fill=\"none\" aria-hidden=\"true\">");
        html.raw(&fragment(&[line])).raw("</svg>");
        html.text(&format!("{} {}", house.marks.number(circuit), circuit.name)).raw("</label>\n");
    }
    html.raw("</fieldset>\n");
}
