//! The cables in a face of a wall, with the numbers of their legs.

use kurbo::{Point, Rect};

use super::super::dimensions::Named;
use super::Face;
use crate::sheet::clear::{Clear, overlap};
use crate::sheet::floor::ink;
use crate::sheet::lettering::{Lettering, Weight, wrap};
use crate::sheet::pen;
use crate::sheet::scene::{Anchor, Item, Mark, Stroke, Text};
use crate::sheet::wall_view::CableIn;
use crate::units::Mm;

/// From one cable to the next where they share a line, mm on paper.
const LANE: f64 = 0.8;

/// Of cables behind the wall that meets this one.
const IN_CORNER: &str = " in the corner";

impl Face<'_> {
    /// Cables, side by side where they share a line, each line lettered once.
    pub(super) fn cables(&self, clear: &mut Clear, named: &mut Vec<Named>) -> Vec<Item> {
        let mut items: Vec<Item> = Vec::new();
        // Over all lines, so that each keeps them off its letters.
        let mut lettering: Vec<Item> = Vec::new();
        let mut lines: Vec<(i64, bool, Vec<&CableIn<'_>>)> = Vec::new();
        for cable in &self.view.cables {
            let upright = cable.is_upright();
            let at = if upright { cable.from.x } else { cable.from.y };
            let key = Mm::from_f64(at).unwrap_or(Mm::ZERO).get();
            match lines.iter_mut().find(|line| line.1 == upright && (line.0 - key).abs() <= 5) {
                Some(line) => line.2.push(cable),
                None => lines.push((key, upright, vec![cable])),
            }
        }
        for (_, upright, cables) in &lines {
            let mut names: Vec<&str> = Vec::new();
            for cable in cables {
                if !names.contains(&cable.leg.as_str()) {
                    names.push(&cable.leg);
                }
            }
            let middle = names.iter().skip(1).map(|_| LANE / 2.0).sum::<f64>();
            for cable in cables {
                let before = names.iter().take_while(|name| **name != cable.leg);
                let aside = before.map(|_| LANE).sum::<f64>() - middle;
                let shift = if *upright { (aside, 0.0) } else { (0.0, aside) };
                let place =
                    |at: Point| Point::new(self.x(at.x) + shift.0, -at.y * self.per + shift.1);
                let stroke = Stroke::solid(ink(cable.index), 0.5);
                let line = pen::line(place(cable.from), place(cable.to));
                items.push(Mark::line(line, stroke).into());
            }
            let top = cables.iter().map(|one| one.from.y.max(one.to.y)).fold(0.0, f64::max);
            if *upright && top > self.view.height - 1.0 {
                // Over the wall, where there is room for every number.
                let x = self.x(cables[0].from.x);
                let past = if cables.iter().all(|one| one.past.is_some()) { IN_CORNER } else { "" };
                let says = |few: &[&str]| Named {
                    x,
                    y: -top * self.per,
                    says: format!("{}{past}", few.join(" ")),
                };
                named.extend(names.chunks(3).map(says));
            } else {
                lettering.extend(self.line_names(cables, *upright, &names, middle, clear, named));
            }
        }
        items.extend(lettering);
        items
    }

    /// The legs of a line beside it, in as many rows as its length asks for.
    fn line_names(
        &self,
        cables: &[&CableIn<'_>],
        upright: bool,
        names: &[&str],
        beside: f64,
        clear: &mut Clear,
        named: &mut Vec<Named>,
    ) -> Vec<Item> {
        let long = |one: &CableIn<'_>| pen::length(one.to - one.from);
        let Some(longest) = cables.iter().max_by(|a, b| long(a).total_cmp(&long(b))) else {
            return Vec::new();
        };
        let others: Vec<Rect> = (self.view.cables.iter())
            .filter(|one| !cables.iter().any(|own| core::ptr::eq(*own, *one)))
            .map(|one| Rect::from_points(one.from, one.to))
            .map(|area| self.rect(area.x0, area.x1, area.y0, area.y1))
            .map(|area| area.inflate(LANE / 2.0, LANE / 2.0))
            .collect();
        let room = (long(longest) * self.per - 1.0).max(9.0);
        let rows = wrap(&names.join(" "), room, Lettering::Note, Weight::Bold);
        let mut items = Vec::new();
        for row in rows {
            let ways = (0..6_i32).flat_map(|away| {
                [0.5, 0.35, 0.65, 0.2, 0.8].into_iter().flat_map(move |share| {
                    [-1.0, 1.0].into_iter().map(move |side| (away, share, side))
                })
            });
            let ways = ways.map(|(away, share, side)| {
                let at = longest.from + (longest.to - longest.from) * share;
                let place = Point::new(self.x(at.x), -at.y * self.per);
                let off = f64::from(away) * 3.4 + beside + 1.1;
                let off = if side < 0.0 { -off } else { off + 2.5 };
                let text = Text::new(row.clone(), place, Lettering::Note).haloed().bold();
                let text = text.anchored(Anchor::Middle);
                if upright {
                    Text { at: place + kurbo::Vec2::new(off, 0.0), turn: -90.0, ..text }
                } else {
                    Text { at: place + kurbo::Vec2::new(0.0, off), ..text }
                }
            });
            // Inside the wall, so that it runs into no title and no figure.
            let wall = self.rect(self.part.0, self.part.1, 0.0, self.view.height).inflate(6.0, 0.5);
            let inside = |text: &Text| wall.union(text.bounds()) == wall;
            let ways: Vec<Text> = ways.filter(inside).collect();
            // Across no other line, if that can be.
            let open = ways
                .iter()
                .filter(|text| !others.iter().any(|other| overlap(*other, text.bounds())));
            match clear.place(open.cloned()).or_else(|| clear.place(ways.iter().cloned())) {
                Some(text) => items.push(text.into()),
                None => {
                    let at = longest.from.midpoint(longest.to);
                    named.push(Named { x: self.x(at.x), y: -at.y * self.per, says: row });
                }
            }
        }
        items
    }
}
