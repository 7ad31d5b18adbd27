//! The doors and windows in a face of a wall, with their heights.

use kurbo::Rect;

use super::{Face, Purpose};
use crate::sheet::clear::{Clear, overlap};
use crate::sheet::lettering::{Lettering, Weight, text_width};
use crate::sheet::scene::{Anchor, Item, Mark, Stroke, Text};
use crate::sheet::{Ink, pen};
use crate::units::Mm;
use crate::wording::figure;

impl Face<'_> {
    /// Outlines, each with its figures.
    pub(super) fn openings(&self, purpose: Purpose, clear: &mut Clear) -> Vec<Item> {
        let cables = self.cable_areas(purpose);
        let mut items: Vec<Item> = Vec::new();
        for one in &self.view.openings {
            let Some(opening) = self.house.plan.openings.get(&one.id) else { continue };
            let area = self.rect(one.area.x0, one.area.x1, one.area.y0, one.area.y1);
            if area.width() < 0.5 {
                continue;
            }
            let stroke = Some(Stroke::solid(Ink::BLACK, 0.25));
            items.push(Mark { path: pen::rect(area), fill: Some(Ink::WHITE), stroke }.into());
            let mut says = vec![format!("head {}", figure(opening.head))];
            if opening.sill > Mm::ZERO {
                says.push(format!("sill {}", figure(opening.sill)));
            }
            let wall = self.rect(self.part.0, self.part.1, 0.0, self.view.height);
            items.extend(opening_figures(&says, (area, wall), &cables, clear));
        }
        items
    }
}

/// The figures of an opening: in it, level or else upright, or where it is too
/// small beside it.
fn opening_figures(
    says: &[String],
    (area, wall): (Rect, Rect),
    cables: &[Rect],
    clear: &mut Clear,
) -> Vec<Item> {
    let widest = says
        .iter()
        .map(|line| text_width(line, Lettering::Note, Weight::Regular))
        .fold(0.0, f64::max);
    let rows: f64 = says.iter().map(|_| 4.0).sum();
    let centre = area.center();
    let (level, upright) = (
        widest + 1.0 <= area.width() && rows <= area.height(),
        widest + 1.0 <= area.height() && rows <= area.width(),
    );
    let mut items: Vec<Item> = Vec::new();
    if !level && !upright {
        return outside(says, (area, wall), (widest, rows), cables, clear);
    }
    let mut down = 0.0;
    for line in says {
        let text = |x: f64, y: f64| figure_text(line, (x, y)).anchored(Anchor::Middle);
        let way = if level {
            text(centre.x, centre.y + down)
        } else {
            Text { turn: -90.0, ..text(centre.x + down, centre.y + 1.0) }
        };
        items.extend(clear.place([way]).map(Item::from));
        down += 4.0;
    }
    items
}

fn figure_text(line: &str, at: (f64, f64)) -> Text {
    Text::new(line, at, Lettering::Note).inked(Ink::DARK_GREY)
}

/// The figures beside an opening or under it, in the wall and where no cable
/// comes down.
fn outside(
    says: &[String],
    (area, wall): (Rect, Rect),
    (wide, high): (f64, f64),
    cables: &[Rect],
    clear: &mut Clear,
) -> Vec<Item> {
    let middle = area.center().x;
    let ways = [
        (area.x1 + 1.0, area.x1 + 1.0, area.y0, Anchor::Start),
        (area.x0 - 1.0, area.x0 - 1.0 - wide, area.y0, Anchor::End),
        (middle, middle - wide / 2.0, area.y1 + 0.8, Anchor::Middle),
    ];
    let is_open = |way: &&(f64, f64, f64, Anchor)| {
        let block = Rect::new(way.1, way.2, way.1 + wide, way.2 + high);
        wall.union(block) == wall && !cables.iter().any(|cable| overlap(*cable, block))
    };
    let (x, _, top, anchor) = *ways.iter().find(is_open).unwrap_or(&ways[2]);
    let mut y = top + 2.6;
    let mut items: Vec<Item> = Vec::new();
    for line in says {
        items.extend(clear.place([figure_text(line, (x, y)).anchored(anchor)]).map(Item::from));
        y += 4.0;
    }
    items
}
