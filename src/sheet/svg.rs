//! A scene as SVG text.
//!
//! One element a line, attributes in alphabetical order, at most two decimals,
//! user units of one millimetre: the same scene gives the same bytes.
//!
//! Fonts are named, not embedded: a sheet stays small, and every text carries
//! the width it has in the bundled font (`textLength`), so that another font
//! takes up the same room and nothing runs into anything else.

use kurbo::{BezPath, PathEl, Point};
use svg::node::element::{Element, Rectangle, Text as TextElement, Title};
use svg::node::{Node, Text as TextNode};

use super::scene::{Anchor, Group, Item, Mark, Scene, Stroke, Text};
use super::{Ink, Weight};
use crate::plan::{End, Subject};

/// The font family that every text asks for.
pub const FONT_FAMILY: &str = "'Noto Sans', B612, sans-serif";

/// The scene as an SVG file.
#[must_use]
pub fn svg(scene: &Scene) -> String {
    let (width, height) = scene.page.size();
    let mut document = svg::Document::new()
        .set("width", format!("{}mm", number(width)))
        .set("height", format!("{}mm", number(height)))
        .set("viewBox", format!("0 0 {} {}", number(width), number(height)))
        .set("font-family", FONT_FAMILY)
        .set("style", "font-kerning:none")
        .set("fill", "none")
        .set("stroke-linecap", "butt")
        .set("stroke-linejoin", "round")
        .add(Title::new(readable(&scene.title)))
        .add(
            Rectangle::new()
                .set("width", number(width))
                .set("height", number(height))
                .set("fill", Ink::WHITE.hex()),
        );
    for item in &scene.items {
        document.append(element(item));
    }
    let mut text = document.to_string();
    text.push('\n');
    text
}

/// Marks as SVG elements, to be set into an element of another's.
pub(crate) fn fragment(items: &[Item]) -> String {
    let mut text = String::new();
    for item in items {
        text.push_str(&element(item).to_string());
        text.push('\n');
    }
    text
}

fn element(item: &Item) -> Element {
    match item {
        Item::Path(mark) => path(mark),
        Item::Text(text) => lettering(text),
        Item::Group(group) => self::group(group),
    }
}

fn group(group: &Group) -> Element {
    let mut element = Element::new("g");
    element.assign("class", group.layer.name());
    if let Some(subject) = group.subject {
        element.assign("data-subject", subject_key(subject));
    }
    for item in &group.items {
        element.append(self::element(item));
    }
    element
}

fn path(mark: &Mark) -> Element {
    let mut element = Element::new("path");
    element.assign("d", path_data(&mark.path));
    if let Some(fill) = mark.fill {
        element.assign("fill", fill.hex());
        element.assign("fill-rule", "evenodd");
    }
    if let Some(stroke) = mark.stroke {
        assign_stroke(&mut element, stroke);
    }
    element
}

fn assign_stroke(element: &mut Element, stroke: Stroke) {
    element.assign("stroke", stroke.ink.hex());
    element.assign("stroke-width", number(stroke.width));
    let dashes = stroke.pattern.dashes(stroke.width);
    if !dashes.is_empty() {
        let dashes: Vec<String> = dashes.into_iter().map(number).collect();
        element.assign("stroke-dasharray", dashes.join(" "));
    }
}

fn lettering(text: &Text) -> Element {
    let mut element = TextElement::new("");
    element.get_children_mut().map(Vec::clear);
    element.append(TextNode::new(readable(&text.content)));
    let mut set = |name: &str, value: String| element.assign(name, value);
    set("x", number(text.at.x));
    set("y", number(text.at.y));
    set("font-size", number(text.height.font_size()));
    set("fill", text.ink.hex());
    set("textLength", number(text.width()));
    set("lengthAdjust", "spacingAndGlyphs".to_owned());
    match text.anchor {
        Anchor::Start => {}
        Anchor::Middle => set("text-anchor", "middle".to_owned()),
        Anchor::End => set("text-anchor", "end".to_owned()),
    }
    if text.weight == Weight::Bold {
        set("font-weight", "bold".to_owned());
    }
    if text.turn.abs() > 1e-6 {
        let (turn, x, y) = (number(text.turn), number(text.at.x), number(text.at.y));
        set("transform", format!("rotate({turn} {x} {y})"));
    }
    if text.halo {
        set("paint-order", "stroke".to_owned());
        set("stroke", Ink::WHITE.hex());
        set("stroke-width", number(text.height.mm() * 0.32));
    }
    element.into()
}

/// A text without the control characters that XML cannot hold.
fn readable(text: &str) -> String {
    text.chars()
        .map(
            |sign| {
                if sign.is_control() || matches!(sign, '\u{fffe}' | '\u{ffff}') {
                    ' '
                } else {
                    sign
                }
            },
        )
        .collect()
}

/// What marks stand for, as files write it: `point P3`, `leg C1 B1 P3`.
#[must_use]
pub fn subject_key(subject: Subject) -> String {
    match subject {
        Subject::Plan => "plan".to_owned(),
        Subject::Level(id) => format!("level {id}"),
        Subject::Void(id) => format!("void {id}"),
        Subject::Wall(id) => format!("wall {id}"),
        Subject::Opening(id) => format!("opening {id}"),
        Subject::Room(id) => format!("room {id}"),
        Subject::Area(id) => format!("area {id}"),
        Subject::Riser(id) => format!("riser {id}"),
        Subject::Point(id) => format!("point {id}"),
        Subject::Control(id) => format!("control {id}"),
        Subject::Board(id) => format!("board {id}"),
        Subject::Circuit(id) => format!("circuit {id}"),
        Subject::Leg { circuit, from, to } => {
            let end = |end: End| end.to_string();
            format!("leg {circuit} {} {}", end(from), end(to))
        }
    }
}

fn path_data(path: &BezPath) -> String {
    let mut data = String::new();
    let mut push = |letter: char, places: &[Point]| {
        data.push(letter);
        for (index, place) in places.iter().enumerate() {
            if index > 0 {
                data.push(' ');
            }
            data.push_str(&number(place.x));
            data.push(' ');
            data.push_str(&number(place.y));
        }
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => push('M', &[to]),
            PathEl::LineTo(to) => push('L', &[to]),
            PathEl::QuadTo(a, to) => push('Q', &[a, to]),
            PathEl::CurveTo(a, b, to) => push('C', &[a, b, to]),
            PathEl::ClosePath => push('Z', &[]),
        }
    }
    data
}

/// A number with at most two decimals, without idle zeros and never `-0`.
/// What is not a number becomes 0: a painter never writes what no reader can
/// read.
#[must_use]
pub fn number(value: f64) -> String {
    let hundredths = if value.is_finite() { libm::round(value * 100.0) } else { 0.0 };
    #[expect(clippy::cast_possible_truncation, reason = "paper is small")]
    let hundredths = hundredths as i64;
    let sign = if hundredths < 0 { "-" } else { "" };
    let (whole, part) = (hundredths.abs().div_euclid(100), hundredths.abs().rem_euclid(100));
    match part {
        0 => format!("{sign}{whole}"),
        part if part % 10 == 0 => format!("{sign}{whole}.{}", part.div_euclid(10)),
        part => format!("{sign}{whole}.{part:02}"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short_and_never_minus_nought() {
        for (value, expect) in [
            (0.0, "0"),
            (-0.001, "0"),
            (1.5, "1.5"),
            (-1.05, "-1.05"),
            (12.345, "12.35"),
            (100.0, "100"),
            (-0.25, "-0.25"),
            (f64::NAN, "0"),
        ] {
            assert_eq!(number(value), expect, "{value}");
        }
    }
}
