//! Tables: columns of given widths, cells that wrap, one row of notes each.

use std::borrow::Cow;

use kurbo::{Point, Rect};

use super::lettering::{Lettering, Weight, wrap};
use super::panel::{LEADING, Row};
use super::scene::{Anchor, Item, Mark, Stroke, Text};
use super::{Ink, pen};

/// A column.
#[derive(Clone, Debug)]
pub(crate) struct Column {
    heading: Cow<'static, str>,
    width: f64,
    anchor: Anchor,
}

/// What stands in a cell.
#[derive(Clone, Debug)]
pub(crate) enum Cell {
    /// Words or figures.
    Text(String),
    /// The same in bold.
    Bold(String),
    /// Lines one under the other, none of them broken.
    Lines(Vec<String>),
    /// A box to tick.
    Tick,
    /// Room for the pen.
    Blank,
    /// Room for a signature.
    Sign,
}

/// The columns of a table.
#[derive(Clone, Debug)]
pub(crate) struct Table {
    columns: Vec<Column>,
}

/// The clear space at either side of a cell, mm.
const PAD: f64 = 1.2;
/// How high a row for the pen is at least, mm.
const HAND: f64 = 6.4;
/// How high a row to sign in is at least, mm.
const SIGNATURE: f64 = 14.0;

impl Column {
    /// Words, from the left.
    pub(crate) const fn words(heading: &'static str, width: f64) -> Self {
        Self { heading: Cow::Borrowed(heading), width, anchor: Anchor::Start }
    }

    /// The same under a heading that is worked out.
    pub(crate) const fn worded(heading: String, width: f64) -> Self {
        Self { heading: Cow::Owned(heading), width, anchor: Anchor::Start }
    }

    /// Figures, to the right.
    pub(crate) const fn figures(heading: &'static str, width: f64) -> Self {
        Self { heading: Cow::Borrowed(heading), width, anchor: Anchor::End }
    }

    /// The same under a heading that is worked out.
    pub(crate) const fn figured(heading: String, width: f64) -> Self {
        Self { heading: Cow::Owned(heading), width, anchor: Anchor::End }
    }

    /// Boxes to tick and room to write, centred.
    pub(crate) const fn hand(heading: &'static str, width: f64) -> Self {
        Self { heading: Cow::Borrowed(heading), width, anchor: Anchor::Middle }
    }
}

impl Cell {
    /// Words or figures.
    pub(crate) fn of(text: impl Into<String>) -> Self {
        Self::Text(text.into())
    }
}

impl Table {
    /// With these columns.
    pub(crate) const fn new(columns: Vec<Column>) -> Self {
        Self { columns }
    }

    /// How wide it is, mm.
    pub(crate) fn width(&self) -> f64 {
        self.columns.iter().map(|column| column.width).sum()
    }

    /// The row of headings, said again on every page.
    pub(crate) fn heading(&self) -> Row {
        let cells: Vec<Cell> =
            self.columns.iter().map(|column| Cell::Bold(column.heading.to_string())).collect();
        let mut row = self.row(&cells);
        let ground = Rect::new(0.0, 0.0, self.width(), row.height);
        row.items.insert(0, Mark::area(pen::rect(ground), Ink::PALE_GREY).into());
        row.keep_with_next = true;
        row.heads = true;
        row
    }

    /// A row of cells, with a rule under it.
    pub(crate) fn row(&self, cells: &[Cell]) -> Row {
        let set: Vec<Vec<String>> =
            cells.iter().zip(&self.columns).map(|(cell, column)| lines(cell, column)).collect();
        let most = set.iter().map(Vec::len).max().unwrap_or(1).max(1);
        let mut height: f64 = 1.8 + (0..most).map(|_| LEADING).sum::<f64>();
        if cells.iter().any(|cell| matches!(cell, Cell::Tick | Cell::Blank)) {
            height = height.max(HAND);
        }
        if cells.iter().any(|cell| matches!(cell, Cell::Sign)) {
            height = height.max(SIGNATURE);
        }
        let mut items: Vec<Item> = Vec::new();
        let mut x = 0.0;
        for ((cell, column), lines) in cells.iter().zip(&self.columns).zip(set) {
            if matches!(cell, Cell::Tick) {
                items.push(tick_box(Point::new(x + column.width / 2.0, height / 2.0)));
            }
            let bold = matches!(cell, Cell::Bold(_));
            let mut y = 3.7;
            for line in lines {
                let at = match column.anchor {
                    Anchor::Start => x + PAD,
                    Anchor::Middle => x + column.width / 2.0,
                    Anchor::End => x + column.width - PAD,
                };
                let text = Text::new(line, (at, y), Lettering::Note).anchored(column.anchor);
                items.push(if bold { text.bold() } else { text }.into());
                y += LEADING;
            }
            x += column.width;
            if matches!(column.anchor, Anchor::Middle) {
                let rule = Stroke::solid(Ink::GREY, 0.13);
                let left = x - column.width;
                items.push(Mark::line(pen::line((left, 0.0), (left, height)), rule).into());
            }
        }
        let rule = Stroke::solid(Ink::GREY, 0.18);
        items.push(Mark::line(pen::line((0.0, height), (self.width(), height)), rule).into());
        Row::new(height, items)
    }
}

fn lines(cell: &Cell, column: &Column) -> Vec<String> {
    let room = column.width - 2.0 * PAD;
    match cell {
        Cell::Text(text) => wrap(text, room, Lettering::Note, Weight::Regular),
        Cell::Bold(text) => wrap(text, room, Lettering::Note, Weight::Bold),
        Cell::Lines(lines) => lines.clone(),
        Cell::Tick | Cell::Blank | Cell::Sign => Vec::new(),
    }
}

/// A box to tick, centred on a place.
pub(crate) fn tick_box(centre: Point) -> Item {
    let square = Rect::from_center_size(centre, (3.6, 3.6));
    Mark::line(pen::rect(square), Stroke::solid(Ink::BLACK, 0.25)).into()
}
