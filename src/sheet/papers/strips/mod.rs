//! Run strips: every leg rolled out flat, distance across, height up, so that
//! every bend, drop, plate, loop and tail can be read off.

mod surroundings;
mod trace;

use kurbo::{Point, Rect, Vec2};

use self::trace::{PER, Piece, Trace};
use super::words;
use crate::plan::{CircuitId, End, Hand, Measured, Place, Subject};
use crate::sheet::clear::settled;
use crate::sheet::floor::{cautions, circuit_mark, ink};
use crate::sheet::gallery::{Figure, Gallery};
use crate::sheet::house::{Cut, House};
use crate::sheet::lettering::{Lettering, Weight, text_width, wrap_even};
use crate::sheet::panel::Row;
use crate::sheet::scene::{Anchor, Group, Item, Layer, Mark, Stroke, Text};
use crate::sheet::{Ink, Scale, Scene, pen};
use crate::units::Mm;
use crate::wording::{figure, metres};

/// How wide the words over and under a strip are at least, mm: three to a sheet.
const NARROWEST: f64 = 86.0;

/// Strips of every leg of a circuit after the other, several a sheet.
#[must_use]
pub fn run_strips(house: &House<'_>) -> Vec<Scene> {
    let figures: Vec<Figure> = house.cuts().iter().map(|cut| strip(house, cut)).collect();
    let gallery = Gallery {
        house,
        shows: "Run strips".to_owned(),
        kind: "run strips",
        scale: Scale::one_to(50),
        notes: notes(),
    };
    gallery.sheets(&figures)
}

/// The strip of one leg by itself, by its place in its circuit's list. None
/// where there is no such leg.
#[must_use]
pub fn run_strip(house: &House<'_>, circuit: CircuitId, leg: usize) -> Option<Vec<Item>> {
    house.cuts_of(circuit).get(leg).map(|cut| strip(house, cut).items)
}

fn notes() -> Vec<Row> {
    let mut rows = vec![Row::heading("How to read a strip")];
    for text in [
        "Each leg is rolled out flat as it lies, from the end nearer to the board at the left.",
        "Heights are drawn to scale. Distances across are drawn to scale from 0.60 m to 2.50 m; \
         shorter and longer ones are drawn at those lengths, the longer ones with a break. The \
         figures count, in metres.",
        "L and R: the cable turns left or right there, seen from above, coming from the board. \
         Within a wall nothing turns: left or right before a figure is the way along the wall, as \
         one sees it from the room that the way under the strip names.",
        "Grey ground: inside a wall, named with its build. Between dashed lines: a void, named.",
        "A cross on the line: through a top or bottom plate, a ceiling or a floor. A loop at an end: the tail left there. A sag \
         before an end: drip loop on a face that rain can reach.",
        "The way under a strip is measured from finished corners and from the sides of doors and \
         windows as built. Walls are named as on the floor sheet.",
        "Figures in the last lines under a strip add up to the length to cut; the step rounds it \
         up.",
    ] {
        rows.push(Row::paragraph(text, Weight::Regular));
    }
    rows.extend(cautions());
    rows
}

/// One leg.
fn strip(house: &House<'_>, cut: &Cut<'_>) -> Figure {
    let trace = Trace::of(house, cut.leg, Gallery::room().width() - 34.0);
    let mut items = surroundings::draw(house.plan, &trace);
    items.extend(line(cut, &trace));
    let last = trace.pieces.len().saturating_sub(1);
    items.extend(
        trace.pieces.iter().enumerate().flat_map(|(index, one)| labels(one, index == last)),
    );
    items.extend(turns(&trace));
    items.extend(ends(house, cut, &trace));
    let mut items = settled(items);
    let around = crate::sheet::bounds(&items).unwrap_or(Rect::ZERO);
    let left = around.x0;
    let (head, top) = heading(house, cut, left, around.y0, around.width().max(NARROWEST));
    let foot = foot(house, cut, left, around.y1, around.width().max(NARROWEST));
    items.extend(head);
    items.extend(foot);
    let rule = Stroke::solid(Ink::GREY, 0.18);
    let width = crate::sheet::bounds(&items).map_or(NARROWEST, |all| all.width());
    items.push(Mark::line(pen::line((left, top), (left + width, top)), rule).into());
    let leg = cut.leg;
    let subject = Subject::Leg { circuit: leg.circuit, from: leg.from, to: leg.to };
    Figure { items: vec![Group::of(Layer::Runs, subject, items).into()] }
}

/// Number, ends, cable and cut length over a strip; where it begins.
fn heading(house: &House<'_>, cut: &Cut<'_>, left: f64, top: f64, width: f64) -> (Vec<Item>, f64) {
    let (from, to) = (house.marks.end(cut.leg.from), house.marks.end(cut.leg.to));
    let cable = cut.leg.cable.map_or("cable not chosen".to_owned(), |cable| cable.to_string());
    let first = format!(
        "{}  {from} to {to}: cut {}",
        house.marks.leg(cut.circuit, cut.leg.number),
        metres(cut.length.cut.value)
    );
    let measured = cut
        .length
        .measured
        .map_or_else(String::new, |length| format!("; measured {}", metres(length)));
    let who = house.measurement(cut).map(Measured::who_and_when).filter(|who| !who.is_empty());
    let who = who.map_or_else(String::new, |who| format!(" {who}"));
    let cable = format!("{cable}{measured}{who}");
    let name = &cut.circuit.name;
    // The cable on a line of its own rather than broken.
    let both = format!("{name}, {cable}");
    let second = if text_width(&both, Lettering::Note, Weight::Regular) <= width {
        vec![both]
    } else {
        vec![name.clone(), cable]
    };
    let mut lines: Vec<Text> = Vec::new();
    let said = second.into_iter().map(|text| (text, Weight::Regular));
    for (text, weight) in std::iter::once((first, Weight::Bold)).chain(said) {
        for line in wrap_even(&text, width, Lettering::Note, weight) {
            let text = Text::new(line, Point::ZERO, Lettering::Note);
            lines.push(if weight == Weight::Bold { text.bold() } else { text });
        }
    }
    let mut y = top - 2.5;
    for line in lines.iter_mut().rev() {
        line.at = Point::new(left, y);
        y -= 4.0;
    }
    (lines.into_iter().map(Item::from).collect(), y - 0.6)
}

/// The way in words and the terms of the cut length under a strip.
fn foot(house: &House<'_>, cut: &Cut<'_>, left: f64, foot: f64, width: f64) -> Vec<Item> {
    let way = Some(words::way(house, cut.leg).way).filter(|_| cut.leg.route.length > Mm::ZERO);
    let texts = way.map(|way| format!("Way: {way}.")).into_iter().chain([sums(cut)]);
    let mut y = foot + 5.0;
    let mut items = Vec::new();
    for text in texts {
        for line in wrap_even(&text, width, Lettering::Note, Weight::Regular) {
            items.push(Text::new(line, (left, y), Lettering::Note).inked(Ink::DARK_GREY).into());
            y += 4.0;
        }
    }
    items
}

/// The terms of the cut length.
fn sums(cut: &Cut<'_>) -> String {
    let length = cut.length;
    let told = |term: &crate::units::Term| format!("{} {}", term.what, term.value);
    let counts = |term: &&crate::units::Term| term.value != Mm::ZERO.to_string();
    let route: Vec<String> = length.route.working.terms.iter().filter(counts).map(told).collect();
    let others: Vec<String> =
        length.cut.working.terms.iter().skip(1).filter(counts).map(told).collect();
    let route = if route.is_empty() {
        "from box to box, back to back".to_owned()
    } else {
        route.join(", ")
    };
    format!(
        "Route {}: {route}. With {}: cut {}.",
        metres(length.route.value),
        others.join(", "),
        metres(length.cut.value)
    )
}

/// The cable itself, with its circuit's colour and marks.
fn line(cut: &Cut<'_>, trace: &Trace<'_>) -> Vec<Item> {
    let ink = ink(cut.index);
    let stroke = Stroke::solid(ink, 0.7);
    let mut items: Vec<Item> = Vec::new();
    if trace.pieces.is_empty() {
        return items;
    }
    let places = trace.places();
    let white = Stroke::solid(Ink::WHITE, 1.7);
    items.push(Mark::line(pen::polyline(&places), white).into());
    items.push(Mark::line(pen::polyline(&places), stroke).into());
    for piece in &trace.pieces {
        let along = pen::unit(piece.to - piece.from);
        let middle = piece.from.midpoint(piece.to);
        if piece.broken {
            items.extend(break_mark(middle));
        } else if piece.plate {
            items.extend(plate_mark(middle));
        } else if pen::length(piece.to - piece.from) > 6.0 {
            items.extend(circuit_mark(piece.from + along * 3.0, along, cut.index));
        }
    }
    items
}

/// Two slanted strokes: not drawn at its length.
fn break_mark(at: Point) -> Vec<Item> {
    let stroke = Stroke::solid(Ink::BLACK, 0.25);
    let gap = Rect::from_center_size(at, (1.4, 1.6));
    let mut items: Vec<Item> = vec![Mark::area(pen::rect(gap), Ink::WHITE).into()];
    for aside in [-0.8, 0.8] {
        let foot = at + Vec2::new(aside, 0.0);
        let lean = Vec2::new(0.6, -1.6);
        items.push(Mark::line(pen::line(foot - lean, foot + lean), stroke).into());
    }
    items
}

/// A cross where a plate is drilled.
fn plate_mark(at: Point) -> Vec<Item> {
    let stroke = Stroke::solid(Ink::BLACK, 0.35);
    let (a, b) = (Vec2::new(1.0, 1.0), Vec2::new(1.0, -1.0));
    vec![
        Mark::line(pen::line(at - a, at + a), stroke).into(),
        Mark::line(pen::line(at - b, at + b), stroke).into(),
    ]
}

/// The figure of a piece: over what goes across, beside what goes up or down.
fn labels(piece: &Piece<'_>, last: bool) -> Vec<Item> {
    if piece.length == Mm::ZERO {
        return Vec::new();
    }
    let middle = piece.from.midpoint(piece.to);
    let says = match piece.hand {
        Some(Hand::Left) => format!("left {}", figure(piece.length)),
        Some(Hand::Right) => format!("right {}", figure(piece.length)),
        None => figure(piece.length),
    };
    let text = Text::new(says, middle, Lettering::Note).haloed();
    let upright = (piece.to.x - piece.from.x).abs() < 0.01;
    let text = if upright {
        // Read from the right, along the cable, so that it takes little room.
        let at = middle + Vec2::new(-1.3, 0.0);
        Text { at, turn: -90.0, anchor: Anchor::Middle, ..text }
    } else {
        Text { at: middle + Vec2::new(0.0, -1.6), anchor: Anchor::Middle, ..text }
    };
    let short = upright && (piece.to.y - piece.from.y).abs() < text.width() + 1.0;
    if short {
        // Away from the lettering at the ends.
        let (aside, anchor) = if last { (-1.6, Anchor::End) } else { (1.6, Anchor::Start) };
        let at = middle + Vec2::new(aside, 2.2);
        return vec![Text { at, turn: 0.0, anchor, ..text }.into()];
    }
    vec![text.into()]
}

/// Left and right, where the way turns seen from above.
fn turns(trace: &Trace<'_>) -> Vec<Item> {
    trace
        .turns()
        .into_iter()
        .map(|(at, left)| {
            let letter = if left { "L" } else { "R" };
            let at = at + Vec2::new(0.0, 3.6);
            Text::new(letter, at, Lettering::Note).anchored(Anchor::Middle).bold().haloed().into()
        })
        .collect()
}

/// Tails, drip loops, marks and heights at both ends.
fn ends(house: &House<'_>, cut: &Cut<'_>, trace: &Trace<'_>) -> Vec<Item> {
    let Some((first, last)) = trace.pieces.first().zip(trace.pieces.last()) else {
        return Vec::new();
    };
    let mut items = Vec::new();
    for (end, at, side, tail) in [
        (cut.leg.from, first.from, -1.0, cut.length.tail_from),
        (cut.leg.to, last.to, 1.0, cut.length.tail_to),
    ] {
        let stroke = Stroke::solid(ink(cut.index), 0.5);
        items.push(Mark::line(pen::circle(at + Vec2::new(side * 1.6, 0.0), 1.6), stroke).into());
        if is_wet(house, end) {
            let sag = pen::arc(at + Vec2::new(side * 1.6, 1.8), 1.6, 0.0, core::f64::consts::PI);
            items.push(Mark::line(sag, Stroke::solid(ink(cut.index), 0.35)).into());
        }
        items.push(Mark::area(pen::circle(at, 0.7), Ink::BLACK).into());
        let height = house.plan.place_of(end).map_or_else(String::new, |place| match place {
            Place::Wall(on) => format!("{} up", figure(on.height)),
            Place::Post(on) => format!("{} up", figure(on.height)),
            Place::Ceiling(_) => "ceiling".to_owned(),
            Place::Floor(_) => "floor".to_owned(),
        });
        // Above the floor: the name of the wall stands below it.
        let level = house.plan.place_of(end).and_then(|place| house.plan.level_of(&place));
        let level = level.and_then(|id| house.plan.levels.get(&id));
        let floor = level.map_or(f64::INFINITY, |level| -level.floor.to_f64() * PER);
        let lowest = if at.y < floor { floor - 8.6 } else { f64::INFINITY };
        let mut y = (at.y - 1.4).min(lowest);
        let says = [house.marks.end(end).to_owned(), height, format!("tail {}", figure(tail))];
        for (index, line) in says.into_iter().enumerate() {
            let anchor = if side < 0.0 { Anchor::End } else { Anchor::Start };
            let text = Text::new(line, (at.x + side * 4.2, y), Lettering::Note).anchored(anchor);
            items.push(if index == 0 { text.bold() } else { text }.into());
            y += 3.8;
        }
    }
    items
}

fn is_wet(house: &House<'_>, end: End) -> bool {
    let Some(Place::Wall(on)) = house.plan.place_of(end) else { return false };
    house.plan.walls.get(&on.wall).is_some_and(|wall| wall.wet == Some(on.face))
}

/// What a stretch of a strip lies in, in a word or two.
fn surrounding_name(house: &crate::plan::Plan, piece: &Piece<'_>) -> String {
    use crate::plan::Plane;
    match piece.segment.plane {
        Some(Plane::Wall(id)) => {
            let name = piece.face.clone().unwrap_or_else(|| id.to_string());
            let build = house.walls.get(&id).map(|wall| words::build(wall.build));
            build.map_or(name.clone(), |build| format!("{name} ({build})"))
        }
        Some(Plane::Void(id)) => words::void(house, id),
        None => String::new(),
    }
}
