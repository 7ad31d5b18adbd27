//! The marks of one sheet in the language of PDF.
//!
//! A group that stands on several sheets (walls, the frame, notes) is written
//! once and drawn from there. So is the outline of each letter that keeps
//! lines away from lettering.

use std::collections::BTreeMap;

use kurbo::{BezPath, Vec2};

use super::POINTS_PER_MM;
use super::fonts::{self, Fonts, signs};
use super::operators::Operators;
use crate::sheet::Ink;
use crate::sheet::lettering::{Font, Glyph, glyph};
use crate::sheet::scene::{Anchor, Group, Item, Mark, Scene, Stroke, Text, turn};

/// Groups and outlines that are written once.
#[derive(Debug, Default)]
pub(super) struct Shared<'a> {
    /// Groups by a sign of what is in them, with the sheet where each was
    /// first met and its number once it is met again.
    groups: BTreeMap<u64, Vec<Met<'a>>>,
    /// The streams of groups that are drawn from several sheets.
    pub(super) streams: Vec<Stream>,
    /// The outlines of letters, by their number.
    pub(super) outlines: BTreeMap<(Font, u16), usize>,
}

/// A stream that sheets draw from.
#[derive(Debug)]
pub(super) struct Stream {
    pub(super) bytes: Vec<u8>,
    /// Numbers of the streams and outlines it draws from itself.
    pub(super) draws: Vec<Form>,
}

/// Something that is drawn by its name.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Form {
    /// A group.
    Group(usize),
    /// The outline of a letter.
    Outline(usize),
}

impl Form {
    /// The name by which streams call it.
    pub(super) fn name(self) -> String {
        match self {
            Self::Group(index) => format!("G{index}"),
            Self::Outline(index) => format!("H{index}"),
        }
    }
}

#[derive(Debug)]
struct Met<'a> {
    group: &'a Group,
    times: usize,
    number: Option<usize>,
}

/// Groups with fewer marks than this are drawn where they stand.
const FEW: usize = 12;

impl<'a> Shared<'a> {
    /// Takes note of the groups of a sheet.
    pub(super) fn note(&mut self, scene: &'a Scene) {
        for group in large_groups(scene) {
            let all = self.groups.entry(sign_of(group)).or_default();
            match all.iter_mut().find(|one| one.group == group) {
                Some(one) => one.times += 1,
                None => all.push(Met { group, times: 1, number: None }),
            }
        }
    }

    /// The number of a group's own stream, where it stands on several sheets.
    fn number(&mut self, group: &Group, fonts: &Fonts) -> Option<usize> {
        if !is_large(group) {
            return None;
        }
        let sign = sign_of(group);
        let met = self.groups.get(&sign)?.iter().find(|one| one.group == group)?;
        if met.times < 2 || met.number.is_some() {
            return met.number;
        }
        let stream = stream(&group.items, fonts, self, Operators::default());
        let number = self.streams.len();
        self.streams.push(stream);
        let met = self.groups.get_mut(&sign)?.iter_mut().find(|one| one.group == group)?;
        met.number = Some(number);
        Some(number)
    }

    fn outline(&mut self, font: Font, glyph: u16) -> usize {
        let next = self.outlines.len();
        *self.outlines.entry((font, glyph)).or_insert(next)
    }
}

fn large_groups(scene: &Scene) -> impl Iterator<Item = &Group> {
    scene.items.iter().filter_map(|item| match item {
        Item::Group(group) if is_large(group) => Some(group),
        _ => None,
    })
}

/// Whether a group is worth a stream of its own.
fn is_large(group: &Group) -> bool {
    fn weight(item: &Item) -> usize {
        match item {
            Item::Path(mark) => 1 + mark.path.elements().len().div_euclid(8),
            Item::Text(_) => 1,
            Item::Group(group) => group.items.iter().map(weight).sum(),
        }
    }
    let mut left = FEW;
    group.items.iter().any(|item| {
        left = left.saturating_sub(weight(item));
        left == 0
    })
}

/// A number that equal groups share and others hardly do (Fowler, Noll and
/// Vo's hash, the variant that multiplies last, *from memory*).
fn sign_of(group: &Group) -> u64 {
    fn mix(sign: u64, value: u64) -> u64 {
        (sign ^ value).wrapping_mul(0x0100_0000_01b3).rotate_left(23)
    }
    fn of(sign: u64, item: &Item) -> u64 {
        match item {
            Item::Path(mark) => {
                let elements = mark.path.elements();
                let ends = [elements.first(), elements.last()];
                let places = ends.into_iter().flatten().filter_map(kurbo::PathEl::end_point);
                let sign = mix(sign, elements.len() as u64);
                places.fold(sign, |sign, at| mix(mix(sign, at.x.to_bits()), at.y.to_bits()))
            }
            Item::Text(text) => {
                let sign = mix(mix(sign, text.at.x.to_bits()), text.at.y.to_bits());
                text.content.bytes().fold(sign, |sign, byte| mix(sign, u64::from(byte)))
            }
            Item::Group(group) => group.items.iter().fold(mix(sign, 7), of),
        }
    }
    group.items.iter().fold(0xcbf2_9ce4_8422_2325, of)
}

/// The stream of a whole sheet.
pub(super) fn of<'a>(scene: &'a Scene, fonts: &Fonts, shared: &mut Shared<'a>) -> Stream {
    let mut operators = Operators::default();
    // Paper millimetres with y downwards: flipped once, here.
    let height = scene.page.size().1 * POINTS_PER_MM;
    operators.fine_op(&[POINTS_PER_MM, 0.0, 0.0, -POINTS_PER_MM, 0.0, height], "cm");
    operators.op(&[0.0], "J");
    operators.op(&[1.0], "j");
    stream(&scene.items, fonts, shared, operators)
}

fn stream(items: &[Item], fonts: &Fonts, shared: &mut Shared<'_>, operators: Operators) -> Stream {
    let mut pen = Pen { operators, fonts, shared, draws: Vec::new() };
    items.iter().for_each(|item| pen.item(item));
    let Pen { operators, mut draws, .. } = pen;
    draws.sort_unstable();
    draws.dedup();
    Stream { bytes: operators.finish(), draws }
}

struct Pen<'a, 'b, 'c> {
    operators: Operators,
    fonts: &'a Fonts,
    shared: &'b mut Shared<'c>,
    draws: Vec<Form>,
}

impl Pen<'_, '_, '_> {
    fn item(&mut self, item: &Item) {
        match item {
            Item::Path(mark) => self.mark(mark),
            Item::Text(text) => self.text(text),
            Item::Group(group) => match self.shared.number(group, self.fonts) {
                Some(number) => self.draw(Form::Group(number)),
                None => group.items.iter().for_each(|item| self.item(item)),
            },
        }
    }

    fn draw(&mut self, form: Form) {
        self.operators.form(&form.name());
        self.draws.push(form);
    }

    fn mark(&mut self, mark: &Mark) {
        if mark.path.elements().len() < 2 {
            return;
        }
        if let Some(fill) = mark.fill {
            self.operators.fill(fill);
        }
        if let Some(stroke) = mark.stroke {
            self.operators.stroke(stroke);
        }
        let paints = match (mark.fill.is_some(), mark.stroke.is_some()) {
            (true, true) => "B*",
            (true, false) => "f*",
            (false, true) => "S",
            (false, false) => return,
        };
        self.operators.path(&mark.path);
        self.operators.op(&[], paints);
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
        // Upright letters again, turned clockwise about their beginning.
        let onto = [cos, sin, sin, -cos, start.x, start.y];
        if text.halo {
            self.halo(text, onto);
        }
        self.operators.fill(text.ink);
        let size = text.height.font_size();
        self.operators.op(&[], "BT");
        let level = text.turn.abs() < 1e-6;
        if level {
            self.operators.op(&onto, "Tm")
        } else {
            self.operators.fine_op(&onto, "Tm")
        }
        for (font, bytes) in self.fonts.stretches(text) {
            self.operators.font(fonts::name(font), size);
            self.operators.show(&bytes);
        }
        self.operators.op(&[], "ET");
    }

    /// The outlines of the letters in the colour of the paper: shapes, so that
    /// the text is read once only.
    fn halo(&mut self, text: &Text, onto: [f64; 6]) {
        let size = text.height.font_size();
        self.operators.op(&[], "q");
        let [a, b, c, d, x, y] = onto;
        self.operators.fine_op(&[a * size, b * size, c * size, d * size, x, y], "cm");
        let mut ahead = 0.0;
        for sign in signs(text) {
            let Glyph { font, id, advance } = glyph(sign, text.weight);
            if sign != ' ' {
                if ahead > 0.0 {
                    self.operators.fine_op(&[1.0, 0.0, 0.0, 1.0, ahead, 0.0], "cm");
                    ahead = 0.0;
                }
                let number = self.shared.outline(font, id.0);
                self.draw(Form::Outline(number));
            }
            ahead += advance;
        }
        self.operators.op(&[], "Q");
    }
}

/// The stream that draws the outline of a letter, one em high, in the colour
/// of the paper; and the box it stays in.
pub(super) fn outline(font: Font, id: u16) -> (Vec<u8>, [f64; 4]) {
    let face = font.face();
    let mut outline = Outline { path: BezPath::new() };
    let found = face.outline_glyph(ttf_parser::GlyphId(id), &mut outline);
    let per_em = f64::from(face.units_per_em());
    // As wide as a third of the capitals.
    let width = 0.32 * 0.714 * per_em;
    let mut operators = Operators::default();
    operators.fine_op(&[1.0 / per_em, 0.0, 0.0, 1.0 / per_em, 0.0, 0.0], "cm");
    operators.stroke(Stroke::solid(Ink::WHITE, width));
    if found.is_some() {
        operators.path(&outline.path);
        operators.op(&[], "S");
    }
    let bounds =
        found.map_or([0.0; 4], |it| [it.x_min, it.y_min, it.x_max, it.y_max].map(f64::from));
    let [x0, y0, x1, y1] = bounds;
    let around = [x0 - width, y0 - width, x1 + width, y1 + width].map(|at| at / per_em);
    (operators.finish(), around)
}

/// The outline of a letter as its font has it.
struct Outline {
    path: BezPath,
}

impl ttf_parser::OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to((f64::from(x), f64::from(y)));
    }
    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to((f64::from(x), f64::from(y)));
    }
    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.path.quad_to((f64::from(x1), f64::from(y1)), (f64::from(x), f64::from(y)));
    }
    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let place = |x: f32, y: f32| (f64::from(x), f64::from(y));
        self.path.curve_to(place(x1, y1), place(x2, y2), place(x, y));
    }
    fn close(&mut self) {
        self.path.close_path();
    }
}
