//! The strip of notes at the right of a sheet: rows that flow down columns.

use kurbo::{Affine, Rect};

use super::lettering::{Lettering, Weight, fitted, wrap};
use super::scene::{Group, Item, Layer, Mark, Stroke, Text};
use super::{Ink, pen};

/// How wide a column of notes is, mm: four of them fill the frame of an A3.
pub(crate) const WIDTH: f64 = 97.0;
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
    /// Whether it heads the rows below it; it is said again where they go on
    /// in another column.
    pub(crate) heads: bool,
    /// How wide its first words may be where they are said again. None: they
    /// are said again as they stand.
    pub(crate) title: Option<f64>,
}

impl Row {
    /// A row of marks.
    pub(crate) const fn new(height: f64, items: Vec<Item>) -> Self {
        Self { height, items, keep_with_next: false, heads: false, title: None }
    }

    /// A heading with a rule under it.
    pub(crate) fn heading(text: &str) -> Self {
        Self::heading_across(text, TEXT_WIDTH)
    }

    /// A heading with a rule so long under it.
    pub(crate) fn heading_across(text: &str, width: f64) -> Self {
        let shown = fitted(text, width, Lettering::Name, Weight::Bold);
        let items = vec![
            Text::new(shown, (0.0, 6.2), Lettering::Name).bold().into(),
            Mark::line(pen::line((0.0, 8.0), (width, 8.0)), Stroke::solid(Ink::BLACK, 0.35)).into(),
        ];
        Self { height: 9.5, items, keep_with_next: true, heads: true, title: Some(width) }
    }

    /// A heading over rows that go on in another column.
    fn continued(&self) -> Self {
        let mut again = self.clone();
        if let (Some(width), Some(Item::Text(text))) = (self.title, again.items.first_mut()) {
            let said = format!("{}, continued", text.content);
            text.content = fitted(&said, width, text.height, text.weight);
        }
        again
    }

    /// The same, in one column with the row that follows.
    pub(crate) fn kept_with_next(self) -> Self {
        Self { keep_with_next: true, ..self }
    }

    /// A paragraph of notes.
    pub(crate) fn paragraph(text: &str, weight: Weight) -> Self {
        Self::paragraph_across(text, weight, TEXT_WIDTH)
    }

    /// A paragraph set to a width of its own.
    pub(crate) fn paragraph_across(text: &str, weight: Weight, width: f64) -> Self {
        let lines = wrap(text, width, Lettering::Note, weight);
        let mut y = 3.2;
        let mut items: Vec<Item> = Vec::new();
        for line in lines {
            let text = Text::new(line, (0.0, y), Lettering::Note);
            items.push(if weight == Weight::Bold { text.bold() } else { text }.into());
            y += LEADING;
        }
        Self::new(y - 3.2 + 0.9, items)
    }
}

/// Rows stacked into a column at the right edge of the frame, above what
/// stands at its foot, and those that it cannot hold in columns beside it or
/// in a strip along the foot of the sheet.
#[derive(Clone, Debug)]
pub(crate) struct Panel {
    frame: Rect,
    columns: Vec<Vec<Row>>,
    /// How high the strip along the foot is, mm. None: columns side by side.
    strip: Option<f64>,
}

impl Panel {
    /// The ways to set rows inside a frame, the best first: in columns side by
    /// side or with a strip along the foot; sections whole, or else broken.
    pub(crate) fn ways(rows: &[Row], frame: Rect, foot: f64) -> Vec<Self> {
        let sections = whole_sections(rows);
        let beside = Self::beside(&sections, frame, foot);
        let mut ways = Vec::new();
        if beside.as_ref().is_none_or(|way| way.columns.len() > 1) {
            ways.extend(Self::with_strip(&sections, frame, foot));
            for rows in [&no_row_alone(rows)[..], rows] {
                ways.extend(Self::beside(rows, frame, foot));
                ways.extend(Self::with_strip(rows, frame, foot));
            }
        }
        beside.into_iter().chain(ways).collect()
    }

    /// In columns side by side, as few as will do.
    fn beside(rows: &[Row], frame: Rect, foot: f64) -> Option<Self> {
        let whole = frame.height() - 1.0;
        (1..=6).find_map(|count| {
            // The last column stands above the foot. As even as they go, but
            // never more than the frame holds.
            let mut height = whole - foot;
            while height <= whole {
                let mut heights = vec![height; count - 1];
                heights.push(whole - foot);
                if let Some(mut columns) = columns(rows, &heights) {
                    columns.resize(count, Vec::new());
                    return Some(Self { frame, columns, strip: None });
                }
                height += 5.0;
            }
            None
        })
    }

    /// The lowest strip that holds what the column at the right cannot.
    fn with_strip(rows: &[Row], frame: Rect, foot: f64) -> Option<Self> {
        let mut room = frame.width() - WIDTH;
        let mut heights = vec![frame.height() - foot - 1.0];
        while room >= WIDTH {
            heights.push(0.0);
            room -= WIDTH;
        }
        // As high as what stands at the foot of the column, so that one line
        // runs across the sheet, or else as much higher as it must be.
        let mut strip = foot;
        while strip < frame.height() / 2.0 {
            heights[1..].fill(strip - 1.0);
            if let Some(columns) = columns(rows, &heights) {
                return Some(Self { frame, columns, strip: Some(strip) });
            }
            strip += 2.0;
        }
        None
    }

    /// What is left of the frame for the drawing.
    pub(crate) fn space(&self) -> Rect {
        let frame = self.frame;
        match self.strip {
            None => {
                let wide: f64 = self.columns.iter().map(|_| WIDTH).sum();
                Rect::new(frame.x0, frame.y0, frame.x1 - wide, frame.y1)
            }
            Some(strip) => Rect::new(frame.x0, frame.y0, frame.x1 - WIDTH, frame.y1 - strip),
        }
    }

    /// Its marks, with rules around the columns.
    pub(crate) fn draw(&self) -> Item {
        let (frame, space) = (self.frame, self.space());
        let rule = Stroke::solid(Ink::BLACK, 0.35);
        let mut items: Vec<Item> = Vec::new();
        let mut lefts: Vec<f64> = Vec::new();
        for _ in &self.columns {
            lefts.push(lefts.last().copied().unwrap_or(frame.x1) - WIDTH);
        }
        // Both columns side by side and a strip read from left to right.
        let in_order = if self.strip.is_some() { 1 } else { 0 };
        lefts[in_order..].reverse();
        for (index, column) in self.columns.iter().enumerate() {
            let left = lefts[index];
            let top = if index > 0 && self.strip.is_some() { space.y1 } else { frame.y0 };
            // The last column of a full strip ends at the frame itself.
            if left > frame.x0 + PAD {
                items.push(Mark::line(pen::line((left, top), (left, frame.y1)), rule).into());
            }
            let mut y = top + 1.0;
            for row in column {
                let onto = Affine::translate((left + PAD, y));
                items.extend(row.items.iter().map(|item| item.placed(onto)));
                y += row.height;
            }
        }
        if self.strip.is_some() {
            let line = pen::line((frame.x0, space.y1), (space.x1, space.y1));
            items.push(Mark::line(line, rule).into());
        }
        Group::new(Layer::Notes, items).into()
    }
}

/// The same rows, each section under a heading kept in one column.
fn whole_sections(rows: &[Row]) -> Vec<Row> {
    let followed = rows.iter().skip(1).map(|next| !next.heads).chain([false]);
    rows.iter()
        .zip(followed)
        .map(|(row, keep_with_next)| Row { keep_with_next, ..row.clone() })
        .collect()
}

/// The same rows, so that of a section that is broken no row stands alone:
/// three at least, or all there are, on both sides.
fn no_row_alone(rows: &[Row]) -> Vec<Row> {
    const TOGETHER: usize = 3;
    let mut kept: Vec<Row> = rows.to_vec();
    for section in kept.chunk_by_mut(|_, next| !next.heads) {
        let rows = section.iter().filter(|row| !row.heads).count();
        let heading = section.len() - rows;
        for (index, row) in section.iter_mut().skip(heading).enumerate() {
            let of_first = index + 1 < TOGETHER;
            let of_last = index + TOGETHER >= rows && index + 1 < rows;
            row.keep_with_next |= (of_first || of_last) && index + 1 < rows;
        }
    }
    kept
}

/// Rows in columns of these heights. None where they take more columns or a
/// row fits in none.
pub(crate) fn columns(rows: &[Row], heights: &[f64]) -> Option<Vec<Vec<Row>>> {
    let mut columns: Vec<Vec<Row>> = vec![Vec::new()];
    let mut left = *heights.first()?;
    let mut index = 0;
    let mut heading: Option<&Row> = None;
    while index < rows.len() {
        let together = rows[index..].iter().take_while(|row| row.keep_with_next).count() + 1;
        let block = &rows[index..(index + together).min(rows.len())];
        let mut needed: f64 = block.iter().map(|row| row.height).sum();
        if needed > left {
            left = *heights.get(columns.len())?;
            columns.push(Vec::new());
            if let (Some(again), Some(column)) =
                (heading.filter(|_| !block[0].heads), columns.last_mut())
            {
                column.push(again.continued());
                needed += again.height;
            }
            if needed > left {
                return None;
            }
        }
        left -= needed;
        if let Some(column) = columns.last_mut() {
            column.extend(block.iter().cloned());
        }
        heading = block.iter().rev().find(|row| row.heads).or(heading);
        index += block.len();
    }
    Some(columns)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(columns: &[Vec<Row>]) -> Vec<Vec<String>> {
        let first = |row: &Row| match row.items.first() {
            Some(Item::Text(text)) => text.content.clone(),
            _ => String::new(),
        };
        columns.iter().map(|column| column.iter().map(first).collect()).collect()
    }

    #[test]
    fn a_broken_section_leaves_no_row_alone_and_says_that_it_goes_on() {
        let row = |words: &str| Row::paragraph(words, Weight::Regular);
        let mut rows = vec![Row::heading("Circuits")];
        rows.extend((1..=6).map(|number| row(&number.to_string())));
        let all: f64 = rows.iter().map(|row| row.height).sum();
        let heights = [all - 1.0, all];
        assert_eq!(
            said(&columns(&no_row_alone(&rows), &heights).unwrap_or_default()),
            [vec!["Circuits", "1", "2", "3"], vec!["Circuits, continued", "4", "5", "6"]],
            "a single row would stand alone"
        );
    }
}
