//! A scene as SVG text.
//!
//! One element a line, attributes in alphabetical order, at most two decimals,
//! user units of one millimetre: the same scene gives the same bytes.
//!
//! Fonts are named, not embedded: a sheet stays small, and every text carries
//! the width it has in the bundled font (`textLength`), so that another font
//! takes up the same room and nothing runs into anything else.

use std::borrow::Cow;

use kurbo::{BezPath, PathEl, Point};
use svg::node::Blob;
use svg::node::element::{Rectangle, Title};

use super::digits::Digits;
use super::scene::{Anchor, Group, Item, Mark, Scene, Stroke, Text};
use super::{Ink, Weight};
use crate::plan::{End, Subject};

/// The font family that every text asks for.
pub const FONT_FAMILY: &str = "'Noto Sans', B612, sans-serif";

/// The scene as an SVG file.
#[must_use]
pub fn svg(scene: &Scene) -> String {
    let (width, height) = scene.page.size();
    let ground = Rectangle::new()
        .set("width", number(width))
        .set("height", number(height))
        .set("fill", Ink::WHITE.hex());
    let document = svg::Document::new()
        .set("width", format!("{}mm", number(width)))
        .set("height", format!("{}mm", number(height)))
        .set("viewBox", format!("0 0 {} {}", number(width), number(height)))
        .set("font-family", FONT_FAMILY)
        .set("style", "font-kerning:none")
        .set("fill", "none")
        .set("stroke-linecap", "butt")
        .set("stroke-linejoin", "round")
        .add(Title::new(readable(&scene.title)))
        .add(ground)
        .add(Blob::new(fragment(&scene.items)));
    format!("{document}\n")
}

/// Marks as SVG elements, to be set into an element of another's. Written
/// straight into the text: a sheet has thousands, and nodes cost most of the
/// time of a set of papers.
pub(crate) fn fragment(items: &[Item]) -> String {
    let mut writer = Writer { text: Vec::with_capacity(1 << 16) };
    writer.items(items);
    writer.text.truncate(writer.text.trim_ascii_end().len());
    String::from_utf8(writer.text).expect("only texts were put together")
}

struct Writer {
    /// UTF-8.
    text: Vec<u8>,
}

impl Writer {
    fn items(&mut self, items: &[Item]) {
        for item in items {
            match item {
                Item::Path(mark) => self.mark(mark),
                Item::Text(text) => self.lettering(text),
                Item::Group(group) => self.group(group),
            }
        }
    }

    fn group(&mut self, group: &Group) {
        self.open("<g");
        self.word("class", group.layer.name());
        if let Some(subject) = group.subject {
            self.word("data-subject", &escaped(&subject_key(subject)));
        }
        if group.items.is_empty() {
            return self.text.extend_from_slice(b"/>\n");
        }
        self.text.extend_from_slice(b">\n");
        self.items(&group.items);
        self.text.extend_from_slice(b"</g>\n");
    }

    fn mark(&mut self, mark: &Mark) {
        self.open("<path");
        self.text.extend_from_slice(b" d=\"");
        push_path(&mut self.text, &mark.path);
        self.text.push(b'"');
        if let Some(fill) = mark.fill {
            self.ink("fill", fill);
            self.word("fill-rule", "evenodd");
        }
        if let Some(stroke) = mark.stroke {
            self.stroke(stroke);
        }
        self.text.extend_from_slice(b"/>\n");
    }

    fn stroke(&mut self, stroke: Stroke) {
        self.ink("stroke", stroke.ink);
        let dashes = stroke.pattern.dashes(stroke.width);
        if !dashes.is_empty() {
            let dashes: Vec<String> = dashes.into_iter().map(number).collect();
            self.word("stroke-dasharray", &dashes.join(" "));
        }
        self.length("stroke-width", stroke.width);
    }

    fn lettering(&mut self, text: &Text) {
        self.open("<text");
        self.ink("fill", text.ink);
        self.length("font-size", text.height.font_size());
        if text.weight == Weight::Bold {
            self.word("font-weight", "bold");
        }
        self.word("lengthAdjust", "spacingAndGlyphs");
        if text.halo {
            self.word("paint-order", "stroke");
            self.ink("stroke", Ink::WHITE);
            self.length("stroke-width", text.height.mm() * 0.32);
        }
        match text.anchor {
            Anchor::Start => {}
            Anchor::Middle => self.word("text-anchor", "middle"),
            Anchor::End => self.word("text-anchor", "end"),
        }
        self.length("textLength", text.width());
        if text.turn.abs() > 1e-6 {
            let (turn, x, y) = (number(text.turn), number(text.at.x), number(text.at.y));
            self.word("transform", &format!("rotate({turn} {x} {y})"));
        }
        self.length("x", text.at.x);
        self.length("y", text.at.y);
        self.text.push(b'>');
        self.text.extend_from_slice(escaped(&readable(&text.content)).as_bytes());
        self.text.extend_from_slice(b"</text>\n");
    }

    fn open(&mut self, tag: &str) {
        self.text.extend_from_slice(tag.as_bytes());
    }

    fn word(&mut self, name: &str, value: &str) {
        for part in [" ", name, "=\"", value, "\""] {
            self.text.extend_from_slice(part.as_bytes());
        }
    }

    fn length(&mut self, name: &str, value: f64) {
        for part in [" ", name, "=\""] {
            self.text.extend_from_slice(part.as_bytes());
        }
        push_number(&mut self.text, value);
        self.text.push(b'"');
    }

    fn ink(&mut self, name: &str, ink: Ink) {
        self.word(name, &ink.hex());
    }
}

/// A text as XML holds it, in attributes too.
fn escaped(text: &str) -> Cow<'_, str> {
    if !text.contains(['&', '<', '>', '\'', '"']) {
        return Cow::Borrowed(text);
    }
    let mut escaped = String::with_capacity(text.len() + 16);
    for sign in text.chars() {
        match sign {
            '&' => escaped.push_str("&amp;"),
            '<' => escaped.push_str("&lt;"),
            '>' => escaped.push_str("&gt;"),
            '\'' => escaped.push_str("&apos;"),
            '"' => escaped.push_str("&quot;"),
            sign => escaped.push(sign),
        }
    }
    Cow::Owned(escaped)
}

/// A text without the control characters that XML cannot hold.
fn readable(text: &str) -> Cow<'_, str> {
    let unfit = |sign: char| sign.is_control() || matches!(sign, '\u{fffe}' | '\u{ffff}');
    if text.contains(unfit) { text.replace(unfit, " ").into() } else { text.into() }
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

fn push_path(data: &mut Vec<u8>, path: &BezPath) {
    let mut push = |letter: u8, places: &[Point]| {
        data.push(letter);
        for (index, place) in places.iter().enumerate() {
            if index > 0 {
                data.push(b' ');
            }
            push_number(data, place.x);
            data.push(b' ');
            push_number(data, place.y);
        }
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => push(b'M', &[to]),
            PathEl::LineTo(to) => push(b'L', &[to]),
            PathEl::QuadTo(a, to) => push(b'Q', &[a, to]),
            PathEl::CurveTo(a, b, to) => push(b'C', &[a, b, to]),
            PathEl::ClosePath => push(b'Z', &[]),
        }
    }
}

/// A number with at most two decimals, without idle zeros and never `-0`.
/// What is not a number becomes 0: a painter never writes what no reader can
/// read.
#[must_use]
pub fn number(value: f64) -> String {
    Digits::short::<2>(value).text()
}

/// As [`number`], at the end of a text.
pub(super) fn push_number(text: &mut Vec<u8>, value: f64) {
    Digits::short::<2>(value).end(text);
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
