//! Figures side by side on sheets of A3, with their notes at the right.

use kurbo::{Affine, Point, Rect, Size};

use super::House;
use super::panel::{Panel, Row, WIDTH};
use super::scene::{Group, Item, Layer, Scene, bounds};
use super::title_block::{HEIGHT, TitleBlock};
use super::{Orientation, Page, PaperSize, Scale, frame};

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
    pub(crate) house: &'a House<'a>,
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
pub(crate) const PAGE: Page = Page::landscape(PaperSize::A3);
/// The sheet of a high figure.
const UPRIGHT: Page = Page { paper: PaperSize::A3, orientation: Orientation::Portrait };

fn room_of(page: Page) -> Rect {
    let inner = page.frame();
    Rect::new(inner.x0, inner.y0, inner.x1 - WIDTH, inner.y1).inset(-AROUND)
}

fn has_room(room: Rect, needs: Size) -> bool {
    needs.width <= room.width() && needs.height <= room.height()
}

impl Gallery<'_> {
    /// Room for the figures of a sheet.
    pub(crate) fn room() -> Rect {
        room_of(PAGE)
    }

    /// The figures, in their order, row after row and sheet after sheet; low ones
    /// one under the other beside a high one.
    pub(crate) fn sheets(&self, figures: &[Figure]) -> Vec<Scene> {
        let mut shelf = Shelf::of(Self::room());
        let mut sheets: Vec<Vec<Item>> = vec![Vec::new()];
        for figure in figures {
            let around = figure.bounds();
            let (at, is_new_sheet) = shelf.place(around.width(), around.height());
            if is_new_sheet {
                sheets.push(Vec::new());
            }
            let onto = Affine::translate(at - around.origin());
            if let Some(sheet) = sheets.last_mut() {
                sheet.extend(figure.items.iter().map(|item| item.placed(onto)));
            }
        }
        let sheets = sheets.into_iter().filter(|sheet| !sheet.is_empty());
        let ways = self.panels(PAGE);
        sheets.map(|body| self.sheet(body, ways.first(), PAGE)).collect()
    }

    /// One figure in the middle of what the notes leave of a sheet, which stands
    /// upright where that alone has room. None where neither has.
    pub(crate) fn one(&self, figure: &Figure) -> Option<Scene> {
        let needs = figure.bounds();
        [PAGE, UPRIGHT].into_iter().find_map(|page| {
            let ways = self.panels(page);
            let (panel, room) = ways.iter().find_map(|panel| {
                let room = panel.space().inset(-AROUND);
                has_room(room, needs.size()).then_some((panel, room))
            })?;
            let onto = Affine::translate(room.center() - needs.center());
            let body = figure.items.iter().map(|item| item.placed(onto)).collect();
            Some(self.sheet(body, Some(panel), page))
        })
    }

    /// Whether a figure of this size could have room on a sheet of its own.
    pub(crate) fn could_hold(size: Size) -> bool {
        [PAGE, UPRIGHT].into_iter().any(|page| has_room(room_of(page), size))
    }

    fn panels(&self, page: Page) -> Vec<Panel> {
        Panel::ways(&self.notes, page.frame(), HEIGHT)
    }

    fn sheet(&self, body: Vec<Item>, panel: Option<&Panel>, page: Page) -> Scene {
        let inner = page.frame();
        let mut items = vec![frame::frame(page)];
        items.push(Group::new(Layer::Rooms, body).into());
        items.extend(panel.map(Panel::draw));
        let title = Rect::new(inner.x1 - WIDTH, inner.y1 - HEIGHT, inner.x1, inner.y1);
        let block = TitleBlock {
            project: &self.house.plan.project,
            standard: &self.house.local.standard,
            stage: self.house.plan.stage(),
            shows: self.shows.clone(),
            kind: self.kind,
            scale: self.scale,
            paper: page.paper,
        };
        items.push(block.draw(title));
        Scene {
            page,
            title: self.shows.clone(),
            kind: self.kind.to_owned(),
            scale: self.scale,
            origin: None,
            items,
        }
    }
}

/// Where the next figure of a sheet goes: columns side by side in a row as high
/// as its highest figure.
struct Shelf {
    room: Rect,
    /// The columns of the row end here so far.
    foot: f64,
    /// The last column: from its upper left corner to where it ends.
    column: Rect,
    top: f64,
}

impl Shelf {
    const fn of(room: Rect) -> Self {
        let corner = Rect::new(room.x0, room.y0, room.x0, room.y0);
        Self { room, foot: room.y0, column: corner, top: room.y0 }
    }

    /// The upper left corner of the next figure, and whether it begins a sheet.
    fn place(&mut self, width: f64, height: f64) -> (Point, bool) {
        let is_empty = |column: Rect| column.height() <= 0.0;
        let across = |left: f64| left <= self.room.x0 || left + width <= self.room.x1;
        let column = self.column;
        let under = if is_empty(column) { column.y0 } else { column.y1 + GAP };
        let beside = if is_empty(column) { column.x0 } else { column.x1 + GAP };
        let low = !is_empty(column) && across(column.x0) && under + height <= self.foot;
        let at = if low {
            Point::new(column.x0, under)
        } else if across(beside) && (self.top + height <= self.room.y1 || is_empty(column)) {
            Point::new(beside, self.top)
        } else {
            self.top = self.foot + GAP;
            Point::new(self.room.x0, self.top)
        };
        let is_new_sheet = at.y > self.room.y0 && at.y + height > self.room.y1;
        let at = if is_new_sheet { self.room.origin() } else { at };
        if is_new_sheet {
            (self.top, self.foot) = (self.room.y0, self.room.y0);
        }
        let taken = Rect::from_origin_size(at, (width, height));
        self.column = if low { column.union(taken) } else { taken };
        self.foot = self.foot.max(taken.y1);
        (at, is_new_sheet)
    }
}
