//! The title block: who, where, what, which revision.
//!
//! Fields after ISO 7200:2004 (from memory): owner, number, date, sheet, title,
//! approver, creator, document type; with scale, paper and status as building
//! drawings have them. Nothing is filled in that the plan does not say: an
//! empty field is for the pen.

use kurbo::{Point, Rect};

use super::lettering::{Lettering, Weight, fitted};
use super::scene::{Group, Item, Layer, Mark, Stroke, Text};
use super::{Ink, PaperSize, Scale, pen};
use crate::plan::{Project, Stage};

/// What one title block says beyond the project.
#[derive(Clone, Debug)]
pub(crate) struct TitleBlock<'a> {
    /// The project.
    pub(crate) project: &'a Project,
    /// The standard whose rules it goes by.
    pub(crate) standard: &'a str,
    /// How far the plan tells what was built.
    pub(crate) stage: Stage,
    /// What the sheet shows.
    pub(crate) shows: String,
    /// What kind of paper it is.
    pub(crate) kind: &'a str,
    /// The scale; none for charts and cards.
    pub(crate) scale: Option<Scale>,
    /// The paper it is meant for.
    pub(crate) paper: PaperSize,
}

/// How high a title block is, mm.
pub(crate) const HEIGHT: f64 = 66.0;

const CAPTION: f64 = 2.9;

impl TitleBlock<'_> {
    /// Its marks in a box that is [`HEIGHT`] high.
    pub(crate) fn draw(&self, space: Rect) -> Item {
        let mut block = Cells { space, items: Vec::new() };
        let planned = self.stage == Stage::Planned;
        let project = self.project;
        let scale = self.scale.map_or_else(|| "none".to_owned(), |scale| scale.to_string());
        block.row(0.0, 12.0, &[(1.0, "title", &project.title, Lettering::Name)]);
        block.row(12.0, 9.0, &[(1.0, "shows", &self.shows, Lettering::Note)]);
        block.row(
            21.0,
            9.0,
            &[
                (0.6, "site", &project.site, Lettering::Note),
                (0.4, "client", &project.client, Lettering::Note),
            ],
        );
        block.row(
            30.0,
            9.0,
            &[
                (0.6, "responsible", &project.contractor, Lettering::Note),
                (0.4, "drawn by", &project.drawn_by, Lettering::Note),
            ],
        );
        block.row(
            39.0,
            9.0,
            &[
                (0.6, "document", self.kind, Lettering::Note),
                (0.4, "approved by", "", Lettering::Note),
            ],
        );
        block.row(
            48.0,
            9.0,
            &[
                (0.34, "status", if planned { self.stage.name() } else { "" }, Lettering::Note),
                (0.33, "rules", self.standard, Lettering::Note),
                (0.33, "date", &project.date, Lettering::Note),
            ],
        );
        block.row(
            57.0,
            9.0,
            &[
                (0.3, "number", &project.number, Lettering::Note),
                (0.18, "revision", &project.revision, Lettering::Note),
                (0.17, "scale", &scale, Lettering::Note),
                (0.13, "paper", self.paper.name(), Lettering::Note),
                (0.22, "sheet", "", Lettering::Note),
            ],
        );
        if !planned {
            // What stands behind it goes below it: see `state_sheets`.
            let line = |says: &str, y: f64| {
                Text::new(says, (space.x0 + 1.2, space.y0 + y), Lettering::Tag).into()
            };
            let lines = vec![line(self.stage.name(), 53.6), line("", 56.3)];
            block.items.push(Group::new(Layer::Status, lines).into());
        }
        let place = (space.x1 - 0.22 * space.width() + 1.2, space.y0 + HEIGHT - 1.6);
        let number = Text::new("1 of 1", place, Lettering::Note).into();
        block.items.push(Group::new(Layer::SheetNumber, vec![number]).into());
        block.items.push(Mark::line(pen::rect(space), Stroke::solid(Ink::BLACK, 0.7)).into());
        Group::new(Layer::TitleBlock, block.items).into()
    }
}

struct Cells {
    space: Rect,
    items: Vec<Item>,
}

impl Cells {
    /// Cells side by side, each a share of the width, under one rule.
    fn row(&mut self, top: f64, height: f64, cells: &[(f64, &str, &str, Lettering)]) {
        let rule = Stroke::solid(Ink::BLACK, 0.25);
        let y = self.space.y0 + top;
        let mut x = self.space.x0;
        if top > 0.0 {
            self.items.push(Mark::line(pen::line((x, y), (self.space.x1, y)), rule).into());
        }
        for (index, (share, caption, value, size)) in cells.iter().enumerate() {
            let width = self.space.width() * share;
            if index > 0 {
                self.items.push(Mark::line(pen::line((x, y), (x, y + height)), rule).into());
            }
            let at = Point::new(x + 1.2, y + CAPTION);
            self.items.push(Text::new(*caption, at, Lettering::Tag).inked(Ink::DARK_GREY).into());
            let room = width - 2.4;
            let weight = if *size == Lettering::Note { Weight::Regular } else { Weight::Bold };
            let shown = fitted(value, room, *size, weight);
            if !shown.is_empty() {
                let text = Text::new(shown, (x + 1.2, y + height - 1.6), *size);
                self.items.push(if weight == Weight::Bold { text.bold() } else { text }.into());
            }
            x += width;
        }
    }
}
