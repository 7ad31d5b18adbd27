//! The frame of a sheet: border, centring marks, grid references, trim.

use kurbo::{Point, Rect, Vec2};

use super::lettering::Lettering;
use super::scene::{Anchor, Group, Item, Layer, Mark, Stroke, Text};
use super::{Ink, Page, pen};

/// The side of a grid field, mm, counted from the centring marks (ISO 5457,
/// from memory).
const FIELD: f64 = 50.0;
/// How far centring marks reach into the frame, mm: short of the lettering.
const INWARD: f64 = 1.5;
/// Letters down the side: without I and O, which look like figures.
const LETTERS: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";

/// Border, centring marks and grid references.
pub(crate) fn frame(page: Page) -> Item {
    let inner = page.frame();
    let (width, height) = page.size();
    let outer = Rect::new(inner.x0 - 5.0, inner.y0 - 5.0, inner.x1 + 5.0, inner.y1 + 5.0);
    let wide = Stroke::solid(Ink::BLACK, 0.7);
    let narrow = Stroke::solid(Ink::BLACK, 0.35);
    let mut items: Vec<Item> = vec![
        Mark::line(pen::rect(inner), wide).into(),
        Mark::line(pen::rect(outer), Stroke::solid(Ink::BLACK, 0.18)).into(),
    ];
    let centre = Point::new(width / 2.0, height / 2.0);
    let middle = inner.center();
    for (from, to) in [
        ((centre.x, outer.y0), (centre.x, inner.y0 + INWARD)),
        ((centre.x, outer.y1), (centre.x, inner.y1 - INWARD)),
        ((outer.x0, centre.y), (inner.x0 + INWARD, centre.y)),
        ((outer.x1, centre.y), (inner.x1 - INWARD, centre.y)),
    ] {
        items.push(Mark::line(pen::line(from, to), wide).into());
    }
    let columns = fields(inner.x0, inner.x1, centre.x);
    for (index, field) in columns.iter().enumerate() {
        let name = (index + 1).to_string();
        for y in [outer.y0 + 2.5, inner.y1 + 2.5] {
            items.push(reference(&name, Point::new(middle_of(*field), y)));
        }
        for (y0, y1) in [(outer.y0, inner.y0), (inner.y1, outer.y1)] {
            tick(&mut items, *field, &columns, |at| ((at, y0), (at, y1)), narrow);
        }
    }
    let rows = fields(inner.y0, inner.y1, middle.y);
    for (index, field) in rows.iter().enumerate() {
        let name = char::from(LETTERS[index % LETTERS.len()]).to_string();
        for x in [outer.x0 + 2.5, inner.x1 + 2.5] {
            items.push(reference(&name, Point::new(x, middle_of(*field))));
        }
        for (x0, x1) in [(outer.x0, inner.x0), (inner.x1, outer.x1)] {
            tick(&mut items, *field, &rows, |at| ((x0, at), (x1, at)), narrow);
        }
    }
    Group::new(Layer::Frame, items).into()
}

/// The fields between two borders, whole ones from the centre outwards and the
/// rest added to the outermost.
fn fields(from: f64, to: f64, centre: f64) -> Vec<(f64, f64)> {
    let before = libm::floor((centre - from) / FIELD).max(1.0);
    let after = libm::floor((to - centre) / FIELD).max(1.0);
    let mut edges = vec![from];
    let mut step = 1.0 - before;
    while step < after {
        edges.push(centre + step * FIELD);
        step += 1.0;
    }
    edges.push(to);
    edges.windows(2).map(|pair| (pair[0], pair[1])).collect()
}

fn middle_of((from, to): (f64, f64)) -> f64 {
    f64::midpoint(from, to)
}

/// The line at the far edge of a field, unless it is the last one.
fn tick(
    items: &mut Vec<Item>,
    field: (f64, f64),
    all: &[(f64, f64)],
    ends: impl Fn(f64) -> ((f64, f64), (f64, f64)),
    stroke: Stroke,
) {
    if all.last().is_some_and(|last| last.1 - field.1 > 0.1) {
        let (from, to) = ends(field.1);
        items.push(Mark::line(pen::line(from, to), stroke).into());
    }
}

fn reference(name: &str, centre: Point) -> Item {
    let height = Lettering::Note;
    Text::new(name, centre + Vec2::new(0.0, height.mm() / 2.0), height)
        .anchored(Anchor::Middle)
        .into()
}
