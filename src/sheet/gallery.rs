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

/// The sheet of all galleries.
pub(crate) const PAGE: Page = Page::landscape(Paper::A3);

impl Gallery<'_> {
    /// Room for the figures of a sheet.
    pub(crate) fn room() -> Rect {
        let inner = PAGE.frame();
        Rect::new(inner.x0 + 6.0, inner.y0 + 6.0, inner.x1 - WIDTH - 6.0, inner.y1 - 6.0)
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
        sheets.into_iter().filter(|sheet| !sheet.is_empty()).map(|body| self.sheet(body)).collect()
    }

    /// One figure in the middle of a sheet.
    pub(crate) fn one(&self, figure: &Figure) -> Scene {
        let onto = Affine::translate(Self::room().center() - figure.bounds().center());
        self.sheet(figure.items.iter().map(|item| item.placed(onto)).collect())
    }

    fn sheet(&self, body: Vec<Item>) -> Scene {
        let inner = PAGE.frame();
        let mut items = vec![frame::frame(PAGE)];
        items.push(Group::new(Layer::Rooms, body).into());
        if let Some(panel) = Panel::ways(&self.notes, inner, HEIGHT).first() {
            items.push(panel.draw());
        }
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
