//! What is written beside points, legs and drops.

use kurbo::{Point, Rect, Size, Vec2};

use super::labels::Label;
use super::points::{Stand, subject};
use super::runs::{self, Traced, ink};
use super::strands::Drop;
use crate::plan::{End, Labels, Plan};
use crate::sheet::lettering::{Lettering, Weight, text_width};
use crate::sheet::scene::{Anchor, Item, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
use crate::units::Mm;
use crate::wording;

const TAG: Lettering = Lettering::Tag;

/// Which way cable goes, beside a height.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    Down,
    Up,
}

/// The mark of a point or board, its circuit, and the height of its box with
/// an arrow for the way its cable comes.
pub(super) fn point_label(stand: &Stand, plan: &Plan, marks: &Labels, way: Option<Way>) -> Label {
    let mark = marks.end(stand.end).to_owned();
    let mut pen = Line::new(Lettering::Note);
    pen.text(&mark, Weight::Bold, Ink::BLACK);
    let mut below = Line::new(TAG);
    if let Some((_, circuit)) = stand.circuit.and_then(|index| plan.circuits.get_index(index)) {
        let colour = stand.circuit.map_or(Ink::BLACK, ink);
        below.circuit(&circuit.number.to_string(), colour);
    }
    if let Some(height) = stand.height {
        below.gap();
        if let Some(way) = way {
            below.arrow(way);
        }
        below.text(&wording::height(height), Weight::Regular, Ink::BLACK);
    }
    let (size, items) = stacked(pen, below);
    Label {
        size,
        items,
        beside: stand.bounds(),
        tip: stand.bounds().center(),
        towards: if stand.on_wall { stand.into } else { Vec2::new(0.6, 0.6) },
        seats: Vec::new(),
        owner: None,
        subject: subject(stand.end),
    }
}

/// Two lines of lettering, one above the other, both from the left.
fn stacked(upper: Line, lower: Line) -> (Size, Vec<Item>) {
    let height = Lettering::Note.mm();
    let mut items = upper.at(height);
    if lower.items.is_empty() {
        return (Size::new(upper.width, height), items);
    }
    let foot = height + 1.1 + TAG.mm();
    let width = upper.width.max(lower.width);
    items.extend(lower.at(foot));
    (Size::new(width, foot), items)
}

/// One line of lettering with small signs in it.
#[derive(Debug)]
struct Line {
    height: Lettering,
    width: f64,
    items: Vec<(f64, Sign)>,
}

#[derive(Clone, Debug)]
enum Sign {
    Text(String, Weight, Ink),
    Arrow(Way),
}

impl Line {
    const fn new(height: Lettering) -> Self {
        Self { height, width: 0.0, items: Vec::new() }
    }

    fn text(&mut self, content: &str, weight: Weight, ink: Ink) {
        self.items.push((self.width, Sign::Text(content.to_owned(), weight, ink)));
        self.width += text_width(content, self.height, weight);
    }

    fn gap(&mut self) {
        if !self.items.is_empty() {
            self.width += 0.9;
        }
    }

    /// A circuit's number in its colour.
    fn circuit(&mut self, number: &str, colour: Ink) {
        self.text("c", Weight::Regular, Ink::DARK_GREY);
        self.text(number, Weight::Bold, colour);
    }

    fn arrow(&mut self, way: Way) {
        self.items.push((self.width, Sign::Arrow(way)));
        self.width += 1.5;
    }

    /// Its marks on a baseline.
    fn at(&self, baseline: f64) -> Vec<Item> {
        self.items
            .iter()
            .map(|(x, sign)| match sign {
                Sign::Text(content, weight, ink) => {
                    let text = Text::new(content.clone(), (*x, baseline), self.height);
                    Text { weight: *weight, ink: *ink, ..text }.haloed().into()
                }
                Sign::Arrow(way) => way_arrow(*way, Point::new(x + 0.55, baseline), self.height),
            })
            .collect()
    }
}

/// An arrow as high as the capitals beside it.
pub(super) fn way_arrow(way: Way, foot: Point, height: Lettering) -> Item {
    let top = foot - Vec2::new(0.0, height.mm());
    let (from, to) = match way {
        Way::Down => (top, foot),
        Way::Up => (foot, top),
    };
    Mark::line(pen::arrow(from, to, 0.75), Stroke::solid(Ink::BLACK, 0.2)).into()
}

/// The way the cables of a stand come, from the drops that end at it: down
/// from above unless all come up from below.
pub(super) fn way_of(end: End, traced: &[Traced<'_>]) -> Option<Way> {
    let mut ways = traced
        .iter()
        .flat_map(|one| &one.strand.drops)
        .filter(|drop| drop.end == Some(end) && drop.from != drop.to)
        .map(|drop| if drop.comes_down() { Way::Down } else { Way::Up });
    let first = ways.next()?;
    Some(if ways.any(|way| way == Way::Down) { Way::Down } else { first })
}

/// A drop that ends at no box of this level, with the heights between which it
/// goes.
pub(super) fn drop_label(drop: &Drop, at: Point, traced: &Traced<'_>) -> Label {
    let mut line = Line::new(TAG);
    let (from, to) = (drop.from, drop.to);
    line.text(&wording::height(from), Weight::Regular, Ink::BLACK);
    line.gap();
    line.arrow(if to < from { Way::Down } else { Way::Up });
    line.text(&wording::height(to), Weight::Regular, Ink::BLACK);
    let size = Size::new(line.width, TAG.mm());
    Label {
        size,
        items: line.at(TAG.mm()),
        beside: Rect::from_center_size(at, (1.4, 1.4)),
        tip: at,
        towards: Vec2::ZERO,
        seats: Vec::new(),
        owner: None,
        subject: runs::subject(traced),
    }
}

/// The number of a leg, `3.2` for the second leg of circuit 3, in a box that
/// sits on its line; with its length in a second border where it was measured.
pub(super) fn leg_tag(
    index: usize,
    plan: &Plan,
    traced: &Traced<'_>,
    measured: Option<Mm>,
) -> Option<Label> {
    let leg = traced.strand.leg;
    let circuit = plan.circuits.get(&leg.circuit)?;
    let mut content = format!("{}.{}", circuit.number, leg.number);
    if let Some(measured) = measured {
        content.push_str(&format!(" = {}", wording::height(measured)));
    }
    let size = Size::new(text_width(&content, TAG, Weight::Bold) + 1.4, TAG.mm() + 1.2);
    let case = Rect::from_origin_size((0.0, 0.0), size);
    let border = Stroke::solid(traced.ink(), 0.25);
    let mut items: Vec<Item> = leg_case(case, border, measured.is_some());
    let text = Text::new(content, (size.width / 2.0, 0.6 + TAG.mm()), TAG);
    items.push(text.anchored(Anchor::Middle).bold().into());
    let lines: Vec<Vec<Point>> = traced.lines().collect();
    let seats = seats(&lines);
    let tip = seats
        .first()
        .copied()
        .or_else(|| traced.strand.drops.first().map(|drop| traced.drop_place(drop)))?;
    Some(Label {
        size,
        items,
        beside: Rect::from_center_size(tip, (0.8, 0.8)),
        tip,
        towards: Vec2::ZERO,
        seats,
        owner: Some(index),
        subject: runs::subject(traced),
    })
}

/// The box of a leg's tag: double where the leg was measured.
pub(super) fn leg_case(case: Rect, border: Stroke, measured: bool) -> Vec<Item> {
    let fill = Some(Ink::WHITE);
    let mut items: Vec<Item> = Vec::new();
    if measured {
        let outer = pen::rounded_rect(case.inflate(0.55, 0.55), 2.0);
        items.push(Mark { path: outer, fill, stroke: Some(border) }.into());
    }
    items.push(Mark { path: pen::rounded_rect(case, 1.5), fill, stroke: Some(border) }.into());
    items
}

/// Places along the lines of a leg, the middle of its longest straight part
/// first.
fn seats(lines: &[Vec<Point>]) -> Vec<Point> {
    let mut parts: Vec<(Point, Point)> =
        lines.iter().flat_map(|line| line.windows(2).map(|pair| (pair[0], pair[1]))).collect();
    parts.sort_by(|one, other| {
        pen::length(other.1 - other.0).total_cmp(&pen::length(one.1 - one.0))
    });
    let mut seats = Vec::new();
    for (from, to) in parts {
        let length = pen::length(to - from);
        if length < 3.0 && !seats.is_empty() {
            continue;
        }
        let mut aside = 0.0;
        while aside <= (length / 2.0 - 2.5).max(0.0) {
            let share = aside / length.max(1e-9);
            seats.push(from.lerp(to, 0.5 + share));
            if aside > 0.0 {
                seats.push(from.lerp(to, 0.5 - share));
            }
            aside += 2.0;
        }
    }
    seats
}
