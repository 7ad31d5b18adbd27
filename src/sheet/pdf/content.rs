//! The marks of one sheet in the language of PDF.

use kurbo::{BezPath, PathEl, Point, Vec2};
use pdf_writer::types::{LineCapStyle, LineJoinStyle};
use pdf_writer::{Content, Str};

use super::fonts::{self, Fonts, signs};
use super::{POINTS_PER_MM, short};
use crate::sheet::Ink;
use crate::sheet::lettering::{advance, glyph};
use crate::sheet::scene::{Anchor, Item, Mark, Scene, Stroke, Text, turn};

/// The operators that draw a scene.
pub(super) fn of(scene: &Scene, fonts: &Fonts) -> Vec<u8> {
    let mut pen = Pen { content: Content::new(), fonts };
    // Paper millimetres with y downwards: flipped once, here.
    let k = short(POINTS_PER_MM * 1.0e3) / 1.0e3;
    let height = scene.page.size().1 * POINTS_PER_MM;
    pen.content
        .transform([k, 0.0, 0.0, -k, 0.0, short(height)])
        .set_line_cap(LineCapStyle::ButtCap)
        .set_line_join(LineJoinStyle::RoundJoin);
    for item in &scene.items {
        pen.item(item);
    }
    pen.content.finish().to_vec()
}

struct Pen<'a> {
    content: Content,
    fonts: &'a Fonts,
}

impl Pen<'_> {
    fn item(&mut self, item: &Item) {
        match item {
            Item::Path(mark) => self.mark(mark),
            Item::Text(text) => self.text(text),
            Item::Group(group) => group.items.iter().for_each(|item| self.item(item)),
        }
    }

    fn mark(&mut self, mark: &Mark) {
        if mark.path.elements().len() < 2 {
            return;
        }
        if let Some(fill) = mark.fill {
            self.fill(fill);
        }
        if let Some(stroke) = mark.stroke {
            self.stroke(stroke);
        }
        if mark.fill.is_none() && mark.stroke.is_none() {
            return;
        }
        self.path(&mark.path);
        match (mark.fill.is_some(), mark.stroke.is_some()) {
            (true, true) => self.content.fill_even_odd_and_stroke(),
            (true, false) => self.content.fill_even_odd(),
            _ => self.content.stroke(),
        };
    }

    fn fill(&mut self, ink: Ink) {
        let [r, g, b] = shares(ink);
        self.content.set_fill_rgb(r, g, b);
    }

    fn stroke(&mut self, stroke: Stroke) {
        let [r, g, b] = shares(stroke.ink);
        let dashes = stroke.pattern.dashes(stroke.width);
        self.content
            .set_stroke_rgb(r, g, b)
            .set_line_width(short(stroke.width))
            .set_dash_pattern(dashes.into_iter().map(short), 0.0);
    }

    fn path(&mut self, path: &BezPath) {
        let mut last = Point::ZERO;
        let content = &mut self.content;
        for element in path.elements() {
            match *element {
                PathEl::MoveTo(to) => {
                    content.move_to(short(to.x), short(to.y));
                }
                PathEl::LineTo(to) => {
                    content.line_to(short(to.x), short(to.y));
                }
                PathEl::QuadTo(a, to) => {
                    cubic(content, last + (a - last) * (2.0 / 3.0), to + (a - to) * (2.0 / 3.0), to)
                }
                PathEl::CurveTo(a, b, to) => cubic(content, a, b, to),
                PathEl::ClosePath => {
                    content.close_path();
                }
            }
            last = element.end_point().unwrap_or(last);
        }
    }

    fn text(&mut self, text: &Text) {
        if text.content.trim().is_empty() {
            return;
        }
        let (cos, sin) = turn(text.turn);
        let along = Vec2::new(cos, sin);
        let back = match text.anchor {
            Anchor::Start => 0.0,
            Anchor::Middle => text.width() / 2.0,
            Anchor::End => text.width(),
        };
        let start = text.at - along * back;
        if text.halo {
            self.halo(text, start, along);
        }
        self.fill(text.ink);
        let stretches = self.fonts.stretches(text);
        let size = short(text.height.font_size());
        self.content.begin_text();
        // Upright letters again, turned clockwise about their beginning.
        let (c, s) = (short(cos), short(sin));
        self.content.set_text_matrix([c, s, s, -c, short(start.x), short(start.y)]);
        for (font, bytes) in stretches {
            self.content.set_font(fonts::name(font), size).show(Str(&bytes));
        }
        self.content.end_text();
    }

    /// The outlines of the letters in the colour of the paper: a shape, so that
    /// the text is read once only.
    fn halo(&mut self, text: &Text, start: Point, along: Vec2) {
        self.stroke(Stroke::solid(Ink::WHITE, text.height.mm() * 0.32));
        let size = text.height.font_size();
        let mut at = start;
        for sign in signs(text) {
            let (font, number) = glyph(sign, text.weight);
            let face = font.face();
            let mut outline = Outline {
                path: BezPath::new(),
                at,
                along,
                scale: size / f64::from(face.units_per_em()),
            };
            if face.outline_glyph(number, &mut outline).is_some() {
                self.path(&outline.path);
            }
            at += along * (advance(sign, text.weight) * size);
        }
        self.content.stroke();
    }
}

/// The outline of a letter on paper.
struct Outline {
    path: BezPath,
    at: Point,
    along: Vec2,
    scale: f64,
}

impl Outline {
    fn place(&self, x: f32, y: f32) -> Point {
        let up = Vec2::new(self.along.y, -self.along.x);
        self.at + (self.along * f64::from(x) + up * f64::from(y)) * self.scale
    }
}

impl ttf_parser::OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to(self.place(x, y));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to(self.place(x, y));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.path.quad_to(self.place(x1, y1), self.place(x, y));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        self.path.curve_to(self.place(x1, y1), self.place(x2, y2), self.place(x, y));
    }
    fn close(&mut self) {
        self.path.close_path();
    }
}

fn cubic(content: &mut Content, a: Point, b: Point, to: Point) {
    content.cubic_to(short(a.x), short(a.y), short(b.x), short(b.y), short(to.x), short(to.y));
}

fn shares(ink: Ink) -> [f32; 3] {
    [ink.red, ink.green, ink.blue].map(|part| short(f64::from(part) / 255.0))
}
