//! Figures side by side on sheets of A3, with their notes at the right.

use kurbo::{Affine, Rect};

use super::panel::{Panel, Row, WIDTH};
use super::scene::{Group, Item, Layer, Scene, bounds};
use super::title_block::{HEIGHT, TitleBlock};
use super::{Page, Paper, Scale, frame};
use crate::plan::Plan;

/// A drawing about its own origin.
#[derive(Clone, Debug)]
pub(crate) struct Figure {
    /// Its marks.
    pub(crate) items: Vec<Item>,
}

impl Figure {
    /// The box around it.
    pub(crate) fn bounds(&self) -> Rect {
        bounds(&self.items).unwrap_or(Rect::ZERO)
    }
}

/// Sheets of figures.
#[derive(Clone, Debug)]
pub(crate) struct Gallery<'a> {
    /// The plan, for the title block.
    pub(crate) plan: &'a Plan,
    /// What it shows.
    pub(crate) shows: String,
    /// What kind of paper it is.
    pub(crate) kind: &'a str,
    /// The scale of its figures.
    pub(crate) scale: Option<Scale>,
    /// Legend and cautions.
    pub(crate) notes: Vec<Row>,
}

/// From one figure to the next, mm.
const GAP: f64 = 9.0;
/// Between figures and the lines around them, mm.
const AROUND: f64 = 6.0;

/// The sheet of all galleries.
pub(crate) const PAGE: Page = Page::landscape(Paper::A3);

impl Gallery<'_> {
    /// Room for the figures of a sheet.
    pub(crate) fn room() -> Rect {
        let inner = PAGE.frame();
        Rect::new(inner.x0, inner.y0, inner.x1 - WIDTH, inner.y1).inset(-AROUND)
    }

    /// The figures, in their order, row after row and sheet after sheet.
    pub(crate) fn sheets(&self, figures: &[Figure]) -> Vec<Scene> {
        let room = Self::room();
        let mut sheets: Vec<Vec<Item>> = vec![Vec::new()];
        let (mut x, mut y, mut shelf) = (room.x0, room.y0, 0.0_f64);
        for figure in figures {
            let around = figure.bounds();
            if x > room.x0 && x + around.width() > room.x1 {
                (x, y, shelf) = (room.x0, y + shelf + GAP, 0.0);
            }
            if y > room.y0 && y + around.height() > room.y1 {
                sheets.push(Vec::new());
                (x, y, shelf) = (room.x0, room.y0, 0.0);
            }
            let onto = Affine::translate((x - around.x0, y - around.y0));
            if let Some(sheet) = sheets.last_mut() {
                sheet.extend(figure.items.iter().map(|item| item.placed(onto)));
            }
            x += around.width() + GAP;
            shelf = shelf.max(around.height());
        }
        let sheets = sheets.into_iter().filter(|sheet| !sheet.is_empty());
        let ways = self.panels();
        sheets.map(|body| self.sheet(body, ways.first())).collect()
    }

    /// One figure in the middle of what the notes leave of a sheet. None where
    /// there is no room for it.
    pub(crate) fn one(&self, figure: &Figure) -> Option<Scene> {
        let needs = figure.bounds();
        let ways = self.panels();
        let (panel, room) = ways.iter().find_map(|panel| {
            let room = panel.space().inset(-AROUND);
            let fits = needs.width() <= room.width() && needs.height() <= room.height();
            fits.then_some((panel, room))
        })?;
        let onto = Affine::translate(room.center() - needs.center());
        let body = figure.items.iter().map(|item| item.placed(onto)).collect();
        Some(self.sheet(body, Some(panel)))
    }

    fn panels(&self) -> Vec<Panel> {
        Panel::ways(&self.notes, PAGE.frame(), HEIGHT)
    }

    fn sheet(&self, body: Vec<Item>, panel: Option<&Panel>) -> Scene {
        let inner = PAGE.frame();
        let mut items = vec![frame::frame(PAGE)];
        items.push(Group::new(Layer::Rooms, body).into());
        items.extend(panel.map(Panel::draw));
        let title = Rect::new(inner.x1 - WIDTH, inner.y1 - HEIGHT, inner.x1, inner.y1);
        let block = TitleBlock {
            project: &self.plan.project,
            stage: self.plan.stage(),
            shows: self.shows.clone(),
            kind: self.kind,
            scale: self.scale,
            paper: PAGE.paper,
        };
        items.push(block.draw(title));
        Scene {
            page: PAGE,
            title: self.shows.clone(),
            kind: self.kind.to_owned(),
            scale: self.scale,
            items,
        }
    }
}
