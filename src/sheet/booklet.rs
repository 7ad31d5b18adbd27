//! Upright A4 pages of rows: charts, lists and cards.

use kurbo::{Affine, Rect};

use super::House;
use super::lettering::{Lettering, Weight, fitted};
use super::panel::{Row, columns};
use super::scene::{Anchor, Group, Item, Layer, Mark, Scene, Stroke, Text};
use super::stated::HEADING as HEADING_STATED;
use super::title_block::{HEIGHT, TitleBlock};
use super::{Ink, Orientation, Page, PaperSize, cautions, frame, pen};
use crate::plan::Stage;

/// How wide what stands on a page may be, mm.
pub(crate) const TEXT_WIDTH: f64 = 172.0;
const PAD: f64 = 4.0;
/// How wide the title block is, mm: clear of the centring mark at the foot.
const TITLE_WIDTH: f64 = 88.0;
/// How much of the top of a page its heading takes, mm.
const HEADING: f64 = 13.0;

const PAGE: Page = Page { paper: PaperSize::A4, orientation: Orientation::Portrait };

/// How high what stands on a page may be, mm.
fn room() -> f64 {
    PAGE.frame().height() - HEIGHT - HEADING - 2.0
}

/// Rows of which none is cut off from the others, where a page holds them all.
pub(crate) fn together(mut rows: Vec<Row>) -> Vec<Row> {
    let height: f64 = rows.iter().map(|row| row.height).sum();
    let others = rows.len().saturating_sub(1);
    if height <= room() {
        rows.iter_mut().take(others).for_each(|row| row.keep_with_next = true);
    }
    rows
}

/// Pages of one paper.
#[derive(Clone, Debug)]
pub(crate) struct Booklet<'a> {
    /// The plan, for the title block.
    pub(crate) house: &'a House<'a>,
    /// What it shows.
    pub(crate) shows: String,
    /// What kind of paper it is.
    pub(crate) kind: &'a str,
}

impl Booklet<'_> {
    /// The rows on as many pages as they take. A row that no page holds is cut
    /// off from what follows and stands alone.
    pub(crate) fn pages(&self, rows: &[Row]) -> Vec<Scene> {
        let (page, room) = (PAGE, room());
        let heights = vec![room; rows.len().max(1)];
        let pages = columns(rows, &heights)
            .unwrap_or_else(|| rows.iter().map(|row| vec![row.clone()]).collect());
        pages.iter().map(|rows| self.page(page, rows)).collect()
    }

    fn page(&self, page: Page, rows: &[Row]) -> Scene {
        let inner = page.frame();
        let mut items = vec![frame::frame(page)];
        let mut notes = self.heading(inner);
        let mut y = inner.y0 + HEADING;
        for row in rows {
            let onto = Affine::translate((inner.x0 + PAD, y));
            notes.extend(row.items.iter().map(|item| item.placed(onto)));
            y += row.height;
        }
        items.push(Group::new(Layer::Notes, notes).into());
        items.push(Group::new(Layer::Notes, foot(inner)).into());
        let title = Rect::new(inner.x1 - TITLE_WIDTH, inner.y1 - HEIGHT, inner.x1, inner.y1);
        let block = TitleBlock {
            project: &self.house.plan.project,
            standard: &self.house.local.standard,
            stage: self.house.plan.stage(),
            shows: self.shows.clone(),
            kind: self.kind,
            scale: None,
            paper: page.paper,
        };
        items.push(block.draw(title));
        let (title, kind) = (self.shows.clone(), self.kind.to_owned());
        Scene { page, title, kind, scale: None, origin: None, items }
    }

    fn heading(&self, inner: Rect) -> Vec<Item> {
        let stage = self.house.plan.stage();
        let planned = stage == Stage::Planned;
        // With how many legs were measured it is longer: see `state_sheets`.
        let (room, size) =
            if planned { (26.0, Lettering::Name) } else { (HEADING_STATED + 2.0, Lettering::Note) };
        let shown = fitted(&self.shows, TEXT_WIDTH - room, Lettering::Title, Weight::Bold);
        let status: Item = Text::new(stage.name(), (inner.x1 - PAD, inner.y0 + 9.0), size)
            .anchored(Anchor::End)
            .into();
        vec![
            Text::new(shown, (inner.x0 + PAD, inner.y0 + 9.0), Lettering::Title).bold().into(),
            if planned { status } else { Group::new(Layer::Status, vec![status]).into() },
        ]
    }
}

/// The cautions at the left of the title block.
fn foot(inner: Rect) -> Vec<Item> {
    let width = inner.width() - TITLE_WIDTH;
    let top = inner.y1 - HEIGHT;
    let rule = Stroke::solid(Ink::BLACK, 0.35);
    let mut items: Vec<Item> =
        vec![Mark::line(pen::line((inner.x0, top), (inner.x1, top)), rule).into()];
    let mut rows = vec![Row::paragraph_across(cautions::AID, Weight::Bold, width - 6.0)];
    let others = cautions::BEFORE_WORK.iter();
    rows.extend(others.map(|text| Row::paragraph_across(text, Weight::Regular, width - 6.0)));
    let mut y = top + 1.6;
    for row in rows {
        let onto = Affine::translate((inner.x0 + PAD, y));
        items.extend(row.items.iter().map(|item| item.placed(onto)));
        y += row.height;
    }
    items
}
