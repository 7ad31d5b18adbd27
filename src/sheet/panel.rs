//! The strip of notes at the right of a sheet: rows that flow down columns.

use kurbo::{Affine, Rect};

use super::lettering::{Lettering, Weight, wrap};
use super::scene::{Group, Item, Layer, Mark, Stroke, Text};
use super::{Ink, pen};

/// How wide a column of notes is, mm.
pub(crate) const WIDTH: f64 = 100.0;
/// The clear space inside a column, mm.
const PAD: f64 = 3.0;
/// How wide what stands in a column may be, mm.
pub(crate) const TEXT_WIDTH: f64 = WIDTH - 2.0 * PAD;
/// From one line of notes to the next, mm.
pub(crate) const LEADING: f64 = 4.0;

/// Marks that keep together, drawn from their own upper left corner.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    /// How much room it takes, mm.
    pub(crate) height: f64,
    /// Its marks.
    pub(crate) items: Vec<Item>,
    /// Whether the next row must stand in the same column.
    pub(crate) keep_with_next: bool,
}

impl Row {
    /// A row of marks.
    pub(crate) const fn new(height: f64, items: Vec<Item>) -> Self {
        Self { height, items, keep_with_next: false }
    }

    /// A heading with a rule under it.
    pub(crate) fn heading(text: &str) -> Self {
        let items = vec![
            Text::new(text, (0.0, 6.2), Lettering::Name).bold().into(),
            Mark::line(pen::line((0.0, 8.0), (TEXT_WIDTH, 8.0)), Stroke::solid(Ink::BLACK, 0.35))
                .into(),
        ];
        Self { height: 9.5, items, keep_with_next: true }
    }

    /// A paragraph of notes.
    pub(crate) fn paragraph(text: &str, weight: Weight) -> Self {
        let lines = wrap(text, TEXT_WIDTH, Lettering::Note, weight);
        let mut y = 3.2;
        let mut items: Vec<Item> = Vec::new();
        for line in lines {
            let text = Text::new(line, (0.0, y), Lettering::Note);
            items.push(if weight == Weight::Bold { text.bold() } else { text }.into());
            y += LEADING;
        }
        Self::new(y - 3.2 + 1.2, items)
    }
}

/// Rows stacked into columns, the first column at the right edge.
#[derive(Clone, Debug)]
pub(crate) struct Panel {
    /// Every column's rows.
    columns: Vec<Vec<Row>>,
}

impl Panel {
    /// Rows set in columns of this height, the first shorter by what stands at
    /// its foot. None where a row fits in no column.
    pub(crate) fn set(rows: &[Row], height: f64, foot: f64) -> Option<Self> {
        let mut columns: Vec<Vec<Row>> = vec![Vec::new()];
        let mut left = height - foot - 1.0;
        let mut index = 0;
        while index < rows.len() {
            let together = rows[index..].iter().take_while(|row| row.keep_with_next).count() + 1;
            let block = &rows[index..(index + together).min(rows.len())];
            let needed: f64 = block.iter().map(|row| row.height).sum();
            if needed > left {
                columns.push(Vec::new());
                left = height - 1.0;
                if needed > left {
                    return None;
                }
            }
            left -= needed;
            if let Some(column) = columns.last_mut() {
                column.extend(block.iter().cloned());
            }
            index += block.len();
        }
        Some(Self { columns })
    }

    /// How wide all its columns are, mm.
    pub(crate) fn width(&self) -> f64 {
        self.columns.iter().map(|_| WIDTH).sum()
    }

    /// Its marks at the right of a frame, with rules between the columns.
    pub(crate) fn draw(&self, frame: Rect) -> Item {
        let mut items: Vec<Item> = Vec::new();
        let mut right = frame.x1;
        for column in &self.columns {
            let left = right - WIDTH;
            let rule = Stroke::solid(Ink::BLACK, 0.35);
            items.push(Mark::line(pen::line((left, frame.y0), (left, frame.y1)), rule).into());
            let mut y = frame.y0 + 1.0;
            for row in column {
                let onto = Affine::translate((left + PAD, y));
                items.extend(row.items.iter().map(|item| item.placed(onto)));
                y += row.height;
            }
            right = left;
        }
        Group::new(Layer::Notes, items).into()
    }
}
