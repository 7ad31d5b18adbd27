//! The boxes in a face of a wall, with their marks and heights.

use kurbo::{Point, Rect};

use super::{Face, Purpose};
use crate::plan::{End, Subject};
use crate::sheet::clear::{Clear, overlap};
use crate::sheet::lettering::Lettering;
use crate::sheet::scene::{Anchor, Group, Item, Layer, LinePattern, Mark, Stroke, Text};
use crate::sheet::wall_view::{BoxOn, KEEP_OFF};
use crate::sheet::{Ink, pen};
use crate::wording::figure;

/// So many of the places of a mark are close to its box.
const CLOSE: usize = 20;

impl Face<'_> {
    /// Boxes with their marks and heights.
    pub(super) fn marks(&self, purpose: Purpose, clear: &mut Clear) -> Vec<Item> {
        let mut items: Vec<Item> = Vec::new();
        let mut near: Vec<&BoxOn> = self.view.boxes.iter().filter(|one| one.is_near).collect();
        near.sort_by(|a, b| a.across.total_cmp(&b.across));
        let far = self.view.boxes.iter().filter(|one| !one.is_near && purpose == Purpose::Fitting);
        let place = |one: &BoxOn| Point::new(self.x(one.across), -one.height.to_f64() * self.per);
        for one in &near {
            clear.take(Rect::from_center_size(place(one), (2.6, 2.6)));
        }
        let edges: Vec<Rect> = self.upright_edges().collect();
        let lines = self.cable_areas(purpose);
        for one in far {
            let dashed = Stroke { ink: Ink::BLACK, width: 0.18, pattern: LinePattern::Dashed };
            let square = Rect::from_center_size(place(one), (2.4, 2.4));
            items.push(Mark::line(pen::rect(square), dashed).into());
        }
        for one in near {
            let at = place(one);
            let board = matches!(one.end, End::Board(_));
            let size = if board { (8.0, 6.0) } else { (2.4, 2.4) };
            let square = Rect::from_center_size(at, size);
            let fill = Some(if board { Ink::WHITE } else { Ink::BLACK });
            let stroke = Some(Stroke::solid(Ink::BLACK, 0.35));
            let mark = Mark { path: pen::rect(square), fill, stroke };
            let mut marks: Vec<Item> = vec![mark.into()];
            let [mark, height] = [&self.mark(one), &figure(one.height)];
            let ways = beside(square, mark, height);
            // Close by and across nothing; else across a cable, then across an
            // edge, rather than far off.
            let hits = |areas: &[Rect], texts: &[Text]| {
                texts.iter().any(|text| {
                    let letters = text.bounds();
                    areas.iter().any(|area| overlap(*area, letters))
                })
            };
            let uncrossed = || ways.iter().take(CLOSE).filter(|texts| !hits(&edges, texts));
            let placed = clear
                .place_all(uncrossed().filter(|texts| !hits(&lines, texts)))
                .or_else(|| clear.place_all(uncrossed()))
                .or_else(|| clear.place_all(&ways))
                .or_else(|| {
                    let single = ways.iter().filter(|texts| texts.len() == 1).flatten();
                    clear.place_near(single.cloned()).map(|text| vec![text])
                });
            marks.extend(placed.into_iter().flatten().map(Item::from));
            let subject = match one.end {
                End::Board(id) => Subject::Board(id),
                End::Point(id) => Subject::Point(id),
            };
            items.push(Group::of(Layer::Points, subject, marks).into());
        }
        items
    }

    /// The mark of a box; with a word where it is drawn where there is no face.
    fn mark(&self, one: &BoxOn) -> String {
        let mark = self.house.marks.end(one.end);
        if one.is_past { format!("{mark} (not on this face)") } else { mark.to_owned() }
    }

    /// What cables and the strips around them take of the paper.
    pub(super) fn cable_areas(&self, purpose: Purpose) -> Vec<Rect> {
        let around = match purpose {
            Purpose::Fitting => 5.0,
            Purpose::Keeping => KEEP_OFF,
        };
        let areas = self.view.cables.iter().map(|one| {
            let area = Rect::from_points(one.from, one.to).inflate(around, around);
            self.rect(area.x0, area.x1, area.y0, area.y1)
        });
        areas.collect()
    }

    /// The ends of the wall and the sides of its openings.
    fn upright_edges(&self) -> impl Iterator<Item = Rect> {
        let own = self.view.openings.iter().map(|one| one.area);
        let inner = own.flat_map(|area| [area.x0, area.x1].map(|at| (at, area.y0, area.y1)));
        let inner = inner.filter(|(at, ..)| self.part.0 < *at && *at < self.part.1);
        let ends = [self.part.0, self.part.1].map(|at| (at, 0.0, self.view.height));
        inner.chain(ends).map(|(at, low, high)| self.rect(at, at, low, high))
    }
}

/// The places of a mark and a height beside a box, the most welcome first: on
/// one line or on two. Above the floor: figures stand below it.
fn beside(square: Rect, mark: &str, height: &str) -> Vec<Vec<Text>> {
    let (at, reach) = (square.center(), square.width() / 2.0 + 1.0);
    let text = |says: &str, x: f64, y: f64, anchor: Anchor| {
        let at = Point::new(at.x + x, at.y + y);
        Text::new(says, at, Lettering::Note).anchored(anchor).haloed()
    };
    let says = format!("{mark} {height}");
    let ways = (0..7_i32).flat_map(|step| {
        let lift = f64::from(step) * 3.6;
        let over = -square.height() / 2.0 - 1.4 - lift;
        let under = square.height() / 2.0 + 3.6;
        let two = |x: f64, y: f64, anchor: Anchor| {
            vec![text(mark, x, y - 3.4, anchor), text(height, x, y, anchor)]
        };
        [
            vec![text(&says, reach, 1.2 - lift, Anchor::Start)],
            vec![text(&says, -reach, 1.2 - lift, Anchor::End)],
            vec![text(&says, 0.0, over, Anchor::Middle)],
            vec![text(&says, reach, 1.2 + lift, Anchor::Start)],
            two(reach, 1.2 - lift, Anchor::Start),
            two(-reach, 1.2 - lift, Anchor::End),
            two(reach, 4.6 + lift, Anchor::Start),
            two(-reach, 4.6 + lift, Anchor::End),
            vec![text(&says, 0.0, under + lift, Anchor::Middle)],
            two(0.0, under + 3.4 + lift, Anchor::Middle),
        ]
    });
    ways.filter(|texts| texts.iter().all(|text| text.bounds().y1 < 0.2)).collect()
}
